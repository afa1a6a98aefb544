"""What every writer of notation settles: pickups, ties over bar lines, keys of transposing instruments."""

from collections.abc import Sequence
from fractions import Fraction

from fifthwise.exchange.lead_sheet import LeadBar
from fifthwise.theory import Interval, Key, NoteName

__all__ = ["late_pickups", "ties_over", "written_key"]

MOST_SIGNS = 7
ENHARMONIC = Interval(12, -7)


def late_pickups(bars: Sequence[LeadBar]) -> list[Fraction]:
    """How much of its metre lies before each pickup; 0 for every other bar."""
    found: list[Fraction] = []
    for at, bar in enumerate(bars):
        missing = bar.metre.length - bar.length
        leads = at == 0 or (not found[-1] and bars[at - 1].length == missing)
        found.append(missing if missing > 0 and leads else Fraction(0))
    return found


def written_key(key: Key, written: Interval) -> tuple[Key, Interval]:
    """The key that is read, with at most seven signs, and the way from what sounds to what is written."""
    moved = Key(NoteName(key.tonic.fifths + written.fifths), key.mode)
    if abs(moved.signature) <= MOST_SIGNS:
        return moved, written
    turn = -ENHARMONIC if moved.signature > 0 else ENHARMONIC
    return Key(NoteName(moved.tonic.fifths + turn.fifths), key.mode), written + turn


def ties_over(bar: LeadBar, after: LeadBar) -> bool:
    """Whether the last note of a bar goes on in the next."""
    last, first = bar.notes[-1], after.notes[0] if after.notes else None
    reaches = last.at + last.length == bar.length
    return reaches and first is not None and first.goes_on and first.at == 0 and first.pitches == last.pitches
