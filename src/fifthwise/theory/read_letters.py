"""Chords read from letters, as on lead sheets, where changes also stand without brackets (``C7b9``)."""

import re
from functools import lru_cache

from fifthwise.theory.chord import LetterChord
from fifthwise.theory.errors import ChordFault
from fifthwise.theory.note import read_note
from fifthwise.theory.quality import make_quality
from fifthwise.theory.signs import BASE, TRIAD, TRIAD_SIGNS, plain_signs, read_base, read_change

__all__ = ["read_letter_chord"]

LETTER = re.compile(
    r"(?P<root>[A-G](?:bb|##|b|#)?)(?P<major>(?:maj|Maj|M)(?![\d]))?" + TRIAD + r"(?P<plus>\+)?" + BASE
    + r"(?P<tail>(?:add|no|omit|[b#+-])?[b#]?\d*.*?)?(?:/(?P<bass>[A-G](?:bb|##|b|#)?))?\Z"
)  # fmt: skip
TAIL_ITEM = re.compile(r"sus2|sus4?|(?:add|no|omit)?[b#+-]?\d+|(?:maj|Maj|ma|M)(?:13|11|9|7)|\+|[(), ]")
EXTENDED_MAJOR = ("maj9", "maj11", "maj13")
# The base that a suspension written behind another base makes with it, and the change that goes with it.
SUSPENSIONS: dict[tuple[str, str], tuple[str, tuple[str, ...]]] = {
    ("", "sus"): ("sus", ()),
    ("", "sus2"): ("sus2", ()),
    ("7", "sus"): ("7sus", ()),
    ("7", "sus2"): ("sus2", ("b7",)),
    ("9", "sus"): ("9sus", ()),
    ("9", "sus2"): ("sus2", ("b7",)),
    ("13", "sus"): ("9sus", ("13",)),
}


@lru_cache(maxsize=8192)
def read_letter_chord(text: str) -> LetterChord:
    """Read a chord written in letters, as on a lead sheet.

    Raises
    ------
    ChordFault
        The text is no letter chord.
    """
    plain = plain_signs(text).replace("6/9", "69")
    match = LETTER.match(plain)
    if not match:
        raise _letter_fault(text)
    triad = TRIAD_SIGNS[match["triad"]] if match["triad"] else ""
    if match["plus"]:
        triad = "+"
    base, extra = read_base(match["base"])
    items = _letter_items(match["tail"] or "", text)
    base, items, triad = _settle_items(base, items, triad)
    bass = read_note(match["bass"]) if match["bass"] else None
    return LetterChord(read_note(match["root"]), make_quality(triad, base, (*items, *extra)), bass)


def _letter_items(tail: str, text: str) -> list[str]:
    """Split what follows the base into changes, with or without brackets."""
    items, at = [], 0
    while at < len(tail):
        match = TAIL_ITEM.match(tail, at)
        if not match:
            raise _letter_fault(text)
        item = match[0].strip("(), ")
        if item:
            items.append(read_change(item))
        at = match.end()
    return items


def _settle_items(base: str, items: list[str], triad: str) -> tuple[str, list[str], str]:
    """Move what is no change to where it belongs: a suspension, an extended major seventh, a plus."""
    rest: list[str] = []
    for item in items:
        if item.startswith("sus"):
            base, more = _suspended(base, item)
            rest += more
        elif base == "" and item in EXTENDED_MAJOR:
            base = item
        elif item == "+":
            triad = "+"
        else:
            rest.append(item)
    return ("sus", [], triad) if base == "" and rest == ["4"] else (base, rest, triad)


def _suspended(base: str, item: str) -> tuple[str, tuple[str, ...]]:
    try:
        return SUSPENSIONS[base, item.removesuffix("4")]
    except KeyError:
        raise ChordFault(
            "the suspension does not fit the rest", "chord", "Write it as in 'Csus' or 'C7sus'"
        ) from None


def _letter_fault(text: str) -> ChordFault:
    return ChordFault(f"'{text}' is no chord", "chord", "Write it as in 'Bb7', 'Cm/Eb' or 'C7(b9)'")
