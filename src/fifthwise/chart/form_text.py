"""The ``form:`` field: a playing order of sections, verses and changes of key."""

import difflib
import re

from fifthwise.chart.head import Refused
from fifthwise.chart.mark_text import read_key_shift
from fifthwise.chart.model import FormItem, Section
from fifthwise.theory import Key

__all__ = ["read_form"]

TIMES = re.compile(r"(.*\S)\s+x(\d{1,2})\Z", re.IGNORECASE)
VERSE = re.compile(r"(.*\S)\s+(\d{1,2})\Z")
BRACKET = re.compile(r"\[([^\[\]]*)\]")
MOST_TIMES = 32

# What `read_form` reports: (offset in the field, length, what, fix).
FormNote = tuple[int, int, str, str]


def read_form(
    text: str, sections: tuple[Section, ...], key: Key
) -> tuple[tuple[FormItem, ...], list[FormNote]]:
    """Read a form.

    Parameters
    ----------
    text : str
        The field's text.
    sections : tuple of Section
        The chart's sections, whose names the form uses.
    key : Key
        The head's key, whose mode a bare ``[key A]`` takes.

    Returns
    -------
    items : tuple of FormItem
    notes : list of (offset, length, what, fix)
        Its faults.
    """
    items: list[FormItem] = []
    notes: list[FormNote] = []
    at = 0
    for part in text.split(","):
        for piece, offset in _pieces(part):
            try:
                items.append(_item(piece, sections, key))
            except Refused as refused:
                notes.append((at + offset, len(piece), refused.what, refused.fix))
        if not part.strip():
            notes.append((at, max(1, len(part)), "the form has an empty entry", "Leave the extra comma out"))
        at += len(part) + 1
    return tuple(items), notes


def _pieces(part: str) -> list[tuple[str, int]]:
    """Split an entry into its bracketed marks and its section, with their places."""
    pieces, last = [], 0
    for match in BRACKET.finditer(part):
        pieces.append((part[last : match.start()], last))
        pieces.append((match[0], match.start()))
        last = match.end()
    pieces.append((part[last:], last))
    return [(p.strip(), at + len(p) - len(p.lstrip())) for p, at in pieces if p.strip()]


def _item(text: str, sections: tuple[Section, ...], key: Key) -> FormItem:
    if text.startswith("["):
        return _shift(text, key)
    exact = _named(text, sections)
    if exact is not None:
        return FormItem(exact)
    times_match = TIMES.match(text)
    if times_match:
        times = int(times_match[2])
        if not 1 <= times <= MOST_TIMES:
            raise Refused(f"'x{times}' is out of range", f"Write x1 to x{MOST_TIMES}")
        inner = _item(times_match[1], sections, key)
        return FormItem(inner.section, inner.verse, times)
    verse_match = VERSE.match(text)
    if verse_match and (found := _named(verse_match[1], sections)) is not None:
        return _verse(found, int(verse_match[2]), sections)
    raise Refused(f"no section is named '{text}'", _near(text, sections))


def _shift(text: str, key: Key) -> FormItem:
    inner = " ".join(text[1:-1].split())
    if not inner.startswith("key "):
        raise Refused(f"'{text}' cannot stand in a form", "Only changes of key can, as in '[key +2]'")
    return FormItem(shift=read_key_shift(inner[4:], key))


def _named(text: str, sections: tuple[Section, ...]) -> int | None:
    found = [i for i, s in enumerate(sections) if s.name and s.name.lower() == text.lower()]
    if len(found) > 1:
        raise Refused(f"{len(found)} sections are named '{text}'", "Give each its own name")
    return found[0] if found else None


def _verse(section: int, verse: int, sections: tuple[Section, ...]) -> FormItem:
    verses = max((len(line.words) for line in sections[section].lines), default=0)
    name = sections[section].name
    if not 1 <= verse <= verses:
        have = f"only {verses} 'words:' line{'' if verses == 1 else 's'}" if verses else "no 'words:' lines"
        raise Refused(
            f"'{name}' has {have}, so there is no verse {verse}", f"Write '{name}', or add the words"
        )
    return FormItem(section, verse)


def _near(text: str, sections: tuple[Section, ...]) -> str:
    names = [s.name for s in sections if s.name]
    stem = re.sub(r"(\s+x?\d+)+\Z", "", text).lower()
    near = difflib.get_close_matches(stem, [n.lower() for n in names], n=1)
    if near:
        shown = next(n for n in names if n.lower() == near[0])
        return f"Did you mean '{shown}'?"
    return f"Sections are {', '.join(names)}" if names else "Open the sections with '# name'"
