"""Made-up bars for the laws of the bow."""

from fractions import Fraction

from hypothesis import strategies as st

from fifthwise.strings.bowing import BarNote
from tests.strategies import metres


@st.composite
def bars(draw, metre):
    """One bar cut into eighths: notes, slurs, rests and gaps, in any order; no slur at its start."""
    eighth = Fraction(1, 2)
    columns = int(metre.length / eighth)
    notes, place, sounding = [], 0, False
    while place < columns:
        size = draw(st.integers(1, min(4, columns - place)))
        kind = draw(st.sampled_from(("note", "note", "note", "slur", "rest", "gap")))
        slurred = kind == "slur" and sounding
        if kind != "gap":
            notes.append(BarNote(place * eighth, size * eighth, slurred, kind == "rest"))
        sounding = kind in ("note", "slur")
        place += size
    return tuple(notes)


@st.composite
def phrases(draw):
    """A metre of at least an eighth and up to five bars in it, some slurred into."""
    metre = draw(metres())
    made = [draw(bars(metre)) for _ in range(draw(st.integers(1, 5)))]
    for number in range(1, len(made)):
        if _ends_sounding(made[number - 1], metre) and _starts_sounding(made[number]) and draw(st.booleans()):
            first, *others = made[number]
            made[number] = (BarNote(first.onset, first.length, slurred=True), *others)
    return metre, tuple(made)


def _ends_sounding(bar, metre):
    return bool(bar) and not bar[-1].rest and bar[-1].onset + bar[-1].length == metre.length


def _starts_sounding(bar):
    return bool(bar) and not bar[0].rest and bar[0].onset == 0
