"""The ``form:`` field: a playing order of sections, verses and changes of key."""

import difflib
import re

from fifthwise.chart.head import Refused
from fifthwise.chart.mark_text import read_key_shift
from fifthwise.chart.model import FormItem, Section
from fifthwise.theory import Key

__all__ = ["read_form"]

TIMES = re.compile(r"(.*\S)\s+x([0-9]{1,2})\Z", re.IGNORECASE)
VERSE = re.compile(r"(.*\S)\s+([0-9]{1,2})\Z")
BRACKET = re.compile(r"\[([^\[\]]*)\]")
MOST_TIMES = 32
# A form with more faults than this is no form.
MOST_NOTES = 50
MOST_SHOWN = 20

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
    names = _Names(sections)
    at = 0
    for part in text.split(","):
        if len(notes) >= MOST_NOTES:
            break
        for piece, offset in _pieces(part):
            try:
                items.append(_item(piece, names, key))
            except Refused as refused:
                notes.append((at + offset, len(piece), refused.what, refused.fix))
        if not part.strip():
            notes.append((at, max(1, len(part)), "the form has an empty entry", "Leave the extra comma out"))
        at += len(part) + 1
    if not notes and not any(item.section is not None for item in items):
        notes.append((0, len(text), "the form plays no section", "Name the sections in playing order"))
    return tuple(items), notes


class _Names:
    """The sections, found by their names."""

    def __init__(self, sections: tuple[Section, ...]) -> None:
        self.sections = sections
        self.shown = [section.name for section in sections if section.name]
        self.places: dict[str, list[int]] = {}
        for i, section in enumerate(sections):
            if section.name:
                self.places.setdefault(section.name.lower(), []).append(i)

    def find(self, text: str) -> int | None:
        found = self.places.get(" ".join(text.lower().split()), [])
        if len(found) > 1:
            raise Refused(f"{len(found)} sections are named '{text}'", "Give each its own name")
        return found[0] if found else None

    def near(self, text: str) -> str:
        """The name that may have been meant, or all of them."""
        stem = re.sub(r"(?:\s+x?\d{1,2}){1,2}\Z", "", text).lower()
        few = list(self.places)[:MOST_SHOWN]
        near = difflib.get_close_matches(stem, few, n=1)
        if near:
            return f"Did you mean '{next(name for name in self.shown if name.lower() == near[0])}'?"
        return (
            f"Sections are {', '.join(self.shown[:MOST_SHOWN])}" if few else "Open the sections with '# name'"
        )


def _pieces(part: str) -> list[tuple[str, int]]:
    """Split an entry into its bracketed marks and its section, with their places."""
    pieces, last = [], 0
    for match in BRACKET.finditer(part):
        pieces.append((part[last : match.start()], last))
        pieces.append((match[0], match.start()))
        last = match.end()
    pieces.append((part[last:], last))
    return [(p.strip(), at + len(p) - len(p.lstrip())) for p, at in pieces if p.strip()]


def _item(text: str, names: _Names, key: Key) -> FormItem:
    if text.startswith("["):
        return _shift(text, key)
    exact = names.find(text)
    if exact is not None:
        return FormItem(exact)
    times_match = TIMES.match(text)
    if times_match:
        times = int(times_match[2])
        if not 1 <= times <= MOST_TIMES:
            raise Refused(f"'x{times}' is out of range", f"Write x1 to x{MOST_TIMES}")
        inner = _item(times_match[1], names, key)
        return FormItem(inner.section, inner.verse, times)
    verse_match = VERSE.match(text)
    if verse_match and (found := names.find(verse_match[1])) is not None:
        return _verse(found, int(verse_match[2]), names.sections)
    raise Refused(f"no section is named '{text}'", names.near(text))


def _shift(text: str, key: Key) -> FormItem:
    inner = " ".join(text[1:-1].split())
    if not inner.startswith("key "):
        raise Refused(f"'{text}' cannot stand in a form", "Only changes of key can, as in '[key +2]'")
    return FormItem(shift=read_key_shift(inner[4:], key))


def _verse(section: int, verse: int, sections: tuple[Section, ...]) -> FormItem:
    verses = max((len(line.words) for line in sections[section].lines), default=0)
    name = sections[section].name
    if not 1 <= verse <= verses:
        have = f"only {verses} 'words:' line{'' if verses == 1 else 's'}" if verses else "no 'words:' lines"
        raise Refused(
            f"'{name}' has {have}, so there is no verse {verse}", f"Write '{name}', or add the words"
        )
    return FormItem(section, verse)
