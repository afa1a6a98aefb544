"""Places with many hands: the quicker way to weigh their moves, and what a neck keeps."""

import numpy as np
import pytest

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import COSTS, finger_line, moves, neck
from fifthwise.strings.fingering.moves import moves_between
from tests.strings.fingering.reading import line

VIOLIN, CELLO = instrument_of("violin"), instrument_of("cello")
DOUBLE = "G4+B4 G4+C5 F#4+A4 A4 D4+A4 C5+A5 B4+G5"


@pytest.mark.parametrize("instrument", [VIOLIN, CELLO])
def test_moves_cost_the_same_however_many_hands_there_are(instrument, monkeypatch):
    """Each pair of stops weighed once and read gives what weighing every pair of hands gives."""
    made = neck.Neck(instrument, "all", COSTS, harmonics=False)
    numbers = [made.number((note,), long=False, where="") for note in line(DOUBLE).notes]
    for before in numbers:
        for after in numbers:
            tables = []
            for many in (0, 10**9):
                monkeypatch.setattr(moves, "MANY", many)
                tables.append(moves_between(made.hands[before], made.hands[after], COSTS).plain)
            assert np.array_equal(*tables) or np.allclose(*tables, rtol=0, atol=1e-12)


def test_a_neck_that_holds_too_much_is_made_anew(monkeypatch):
    """The next line gets another neck, the same fingers, and no table is kept beyond the bound."""
    first = finger_line(line(DOUBLE), VIOLIN, "third")
    old = neck.neck_of(VIOLIN, "third", COSTS, harmonics=False)
    monkeypatch.setattr(neck, "MOST_HANDS", 1)
    monkeypatch.setattr(neck, "MOST_MOVES", 1)
    new = neck.neck_of(VIOLIN, "third", COSTS, harmonics=False)
    assert new is not old
    assert finger_line(line(DOUBLE), VIOLIN, "third") == first
