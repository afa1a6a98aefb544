"""Notes on the grid: written ones stay, played ones are moved to where they were meant."""

import random
from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.exchange.midi.grid import DOUBTFUL
from tests.exchange.midi.files import notes, played, read, track

RHYTHM = (1, Fraction(1, 2), Fraction(1, 2), Fraction(1, 4), Fraction(1, 4), Fraction(1, 2), 1)
TRIPLETS = (Fraction(1, 3),) * 3
SWUNG = (Fraction(2, 3), Fraction(1, 3)) * 2


def laid(lengths, off=lambda: 0, hold=1):
    """Rows of notes end to end, each off its place by so many quarters and held for a share of its length."""
    found, at = [], Fraction(4)
    for place, length in enumerate(lengths):
        found.append((at + Fraction(off()).limit_denominator(10**6), length * hold, 60 + place % 9))
        at += length
    return found


def rhythm(sheet):
    """Lengths from one note to the next."""
    starts = [start for start, *_ in played(sheet)]
    return [later - start for start, later in pairwise(starts)]


@pytest.mark.parametrize(
    "lengths", [RHYTHM * 6, TRIPLETS * 12, SWUNG * 8, (*RHYTHM, *TRIPLETS * 4, *SWUNG) * 2]
)
@pytest.mark.parametrize("spread", [0.0, 0.02, 0.035])
def test_a_played_rhythm_is_found(lengths, spread):
    """Notes played up to 17 ms off at 120, held nine tenths of their length, are what was meant."""
    rng = random.Random(3)
    found = read(track(*notes(*laid(lengths, lambda: rng.uniform(-spread, spread), Fraction(9, 10)))))
    assert rhythm(found.sheet) == list(lengths[:-1])
    assert not found.moved.is_doubtful
    assert (found.moved.moved > 0) == (spread > 0)


@settings(deadline=None)
@given(
    st.lists(
        st.sampled_from([Fraction(1, n) for n in (1, 2, 3, 4, 6, 8)] + [Fraction(3, 4), Fraction(2)]),
        min_size=1,
        max_size=20,
    ),
    st.sampled_from([96, 192, 480, 960]),
)
def test_written_notes_are_not_moved(lengths, ppq):
    """Down to 32nds and sextuplets, notes stay where the file has them, ends a tick short included."""
    from fifthwise.exchange.midi import read_midi
    from tests.exchange.midi.files import filed

    rows, at = [], Fraction(0)
    for length in lengths:
        if (at + length) % 1 == 0 or (at % Fraction(1, 2) == 0 and length.denominator in (1, 2, 4, 8)):
            rows.append((at, length, 60 + len(rows) % 12))
        at += length
    if rows:
        data = filed(track(*notes(*[(s, n - Fraction(1, ppq), m) for s, n, m in rows], ppq=ppq)), ppq=ppq)
        found = read_midi(data)
        assert found.moved.moved == 0
        first = rows[0][0] - played(found.sheet)[0][0]
        assert [(start + first, length, midis[0]) for start, length, midis in played(found.sheet)] == rows


def test_notes_that_follow_no_beat_are_doubtful():
    """Played without the file's beat, they are told as doubtful; played 25 ms off at 120 they are not."""

    def is_doubtful(seed, off):
        rng = random.Random(seed)
        rows = laid((Fraction(1, 2),) * 64, lambda: off(rng))
        return read(track(*notes(*rows))).moved.is_doubtful

    assert 0.2 < DOUBTFUL < 0.42
    assert sum(is_doubtful(seed, lambda rng: rng.uniform(-0.25, 0.25)) for seed in range(20)) >= 18
    assert not any(is_doubtful(seed, lambda rng: rng.gauss(0, 0.03)) for seed in range(20))
