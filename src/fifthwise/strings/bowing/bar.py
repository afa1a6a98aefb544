"""The notes of a bar as the right hand sees them, without and with their bows."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from fifthwise.strings.bowing.errors import BarFault
from fifthwise.theory import Metre

__all__ = ["BarNote", "BowChange", "BowDirection", "BowedNote", "check_bars"]

BowDirection = Literal["down", "up"]
BowChange = Literal["first", "turn", "slur", "hooked", "retake"]

SLUR_FIX = "Begin the note with a new bow, or close the gap before it"
ORDER_FIX = "Write the notes one after another"


@dataclass(frozen=True, slots=True)
class BarNote:
    """A note or rest of a bar; where nothing stands, nothing sounds.

    Attributes
    ----------
    onset, length : Fraction
        Place in the bar, and length, in quarters.
    slurred : bool
        Whether it is in the bow of the note before, in its bar or in the one before.
    rest : bool
        Whether it is a silence.
    """

    onset: Fraction
    length: Fraction
    slurred: bool = False
    rest: bool = False


@dataclass(frozen=True, slots=True)
class BowedNote:
    """A note and its bow; a rest has neither.

    Attributes
    ----------
    note : BarNote
        As it was given.
    direction : str or None
        ``down`` or ``up``.
    change : str or None
        How it follows the bow before: ``first``, ``turn``, ``slur``, or the same direction again:
        ``hooked`` (up after up, the bow stays on the string) or ``retake`` (it is lifted and comes back).
    """

    note: BarNote
    direction: BowDirection | None
    change: BowChange | None


def check_bars(bars: Sequence[Sequence[BarNote]], metre: Metre) -> None:
    """See that every note can stand where it is.

    Raises
    ------
    BarFault
        Notes overlap, leave their bar, or a slur has no note to come from; says which.
    """
    reached: Fraction | None = None  # the end of the note before, in this bar; None where nothing sounded
    for number, bar in enumerate(bars, 1):
        reached = Fraction(0) if reached == metre.length else None
        for note in bar:
            where = f"bar {number}, {note.onset} quarters in"
            _check_inside(note, metre, where)
            if note.slurred and (note.rest or reached != note.onset):
                raise BarFault("a slur has no note to come from", where, SLUR_FIX)
            reached = None if note.rest else note.onset + note.length
        _check_order(bar, number)


def _check_inside(note: BarNote, metre: Metre, where: str) -> None:
    end = note.onset + note.length
    if note.length <= 0:
        raise BarFault("the note has no length", where, "Give it more than 0 quarters")
    if note.onset < 0 or end > metre.length:
        what = f"the note from {note.onset} to {end} is not inside its bar"
        raise BarFault(what, where, f"Keep it between 0 and {metre.length}")


def _check_order(bar: Sequence[BarNote], number: int) -> None:
    for note, after in pairwise(bar):
        end = note.onset + note.length
        if after.onset < end:
            where = f"bar {number}, {after.onset} quarters in"
            raise BarFault(f"the note begins before the one before it ends, at {end}", where, ORDER_FIX)
