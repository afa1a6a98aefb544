"""Whether a line can be read at all: faults that no instrument would mend."""

from fractions import Fraction
from itertools import pairwise

from fifthwise.strings.errors import LevelFault, LineFault
from fifthwise.strings.fingering.line import LineNote
from fifthwise.strings.frame import LEVELS

__all__ = ["check_level", "check_places"]

MOST_AT_ONCE = 2


def check_level(level: str) -> None:
    """Refuse a level that no instrument has.

    Raises
    ------
    LevelFault
        It is not known.
    """
    if level not in LEVELS:
        raise LevelFault(f"'{level}' is no level", "level", f"Write {', '.join(LEVELS)}")


def check_places(places: tuple[tuple[LineNote, ...], ...], tempo_bpm: Fraction) -> None:
    """Refuse notes and a tempo that make no line.

    Raises
    ------
    LineFault
        More than two notes at once or none, pins that do not go with them, notes out of order, no tempo.
    """
    if tempo_bpm <= 0:
        raise LineFault(f"{tempo_bpm} quarters a minute is no tempo", "tempo", "Write more than 0")
    for at, choices in enumerate(places, 1):
        for note in choices:
            _check_note(note, f"note {at}")
    for at, (before, after) in enumerate(pairwise(places), 2):
        if after[0].starts_at < before[0].starts_at:
            raise LineFault(
                "it begins before the note before it", f"note {at}", "Put the notes in order of time"
            )


def _check_note(note: LineNote, where: str) -> None:
    if not note.pitches:
        raise LineFault("a note without a pitch", where, "Write its pitch, or leave the note out for a rest")
    if len(note.pitches) > MOST_AT_ONCE:
        fix = "Keep two of them; a bow sounds two strings at once"
        raise LineFault(f"{len(note.pitches)} notes at once", where, fix)
    if note.pins and len(note.pins) != len(note.pitches):
        what = f"{len(note.pins)} pins for {len(note.pitches)} notes at once"
        raise LineFault(what, where, "Pin one finger a note, '.' where it is free")
