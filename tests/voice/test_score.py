from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import read_key
from fifthwise.voice import Range, SungTune, Weights, read_singer, sit
from fifthwise.voice.level import levels_of
from tests.voice.strategies import pitch_at, singers, sung, sung_tunes, unhurried, weights

MAREN = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")


def tune_of(*notes):
    """A tune in C."""
    return SungTune(read_key("C"), notes)


def shifted(singer, semitones):
    """The same singer, everything so many semitones higher."""

    def move(pitch):
        return pitch_at(pitch.midi + semitones)

    usable = Range(move(singer.usable.low), move(singer.usable.high))
    comfort = Range(move(singer.comfort.low), move(singer.comfort.high))
    return replace(singer, usable=usable, comfort=comfort, turns=tuple(map(move, singer.turns)))


@unhurried
@given(sung_tunes(), singers(), st.integers(30, 80), st.integers(-24, 24), weights())
def test_moving_singer_and_song_together_changes_nothing(tune, singer, tonic, by, table):
    """The cost and its parts depend on distances alone."""
    here, there = sit(tune, singer, tonic, table), sit(tune, shifted(singer, by), tonic + by, table)
    assert (there.parts, there.in_comfort, there.tessitura_shift) == (
        here.parts,
        here.in_comfort,
        here.tessitura_shift,
    )
    assert there.cycle_dose == pytest.approx(here.cycle_dose)


@unhurried
@given(sung_tunes(), singers(), st.integers(30, 80), st.tuples(*[st.integers(0, 9)] * 4), weights())
def test_a_wider_voice_never_costs_more(tune, singer, tonic, by, table):
    """Widening the usable or the comfortable range never raises the cost."""
    usable = Range(pitch_at(singer.usable.low.midi - by[0]), pitch_at(singer.usable.high.midi + by[1]))
    comfort = Range(pitch_at(singer.comfort.low.midi - by[2]), pitch_at(singer.comfort.high.midi + by[3]))
    cost = sit(tune, singer, tonic, table).parts.total
    assert sit(tune, replace(singer, usable=usable), tonic, table).parts.total <= cost
    assert sit(tune, replace(singer, comfort=comfort), tonic, table).parts.total <= cost


@unhurried
@given(sung_tunes(), singers(), st.integers(30, 80))
def test_a_half_step_up_shifts_the_tessitura_by_one(tune, singer, tonic):
    """TS rises by exactly 1, UR falls by 1, and the cycle dose grows by a half step's ratio.

    Source: TS = (LR - UR) / 2, Herbst et al. 2012; 2 ** (1 / 12) = 1.0595, by arithmetic.
    """
    low, high = sit(tune, singer, tonic), sit(tune, singer, tonic + 1)
    assert high.tessitura_shift == low.tessitura_shift + 1
    assert (high.upper_reserve, high.lower_reserve) == (low.upper_reserve - 1, low.lower_reserve + 1)
    if tune.timed:
        assert high.cycle_dose / low.cycle_dose == pytest.approx(1.0595, abs=5e-5)


@unhurried
@given(sung_tunes(), singers(), st.integers(30, 80), st.floats(1, 4))
def test_a_heavier_table_never_costs_less(tune, singer, tonic, factor):
    """Each weight only adds."""
    base = sit(tune, singer, tonic).parts.total
    for field in (
        "below_usable",
        "above_usable",
        "below_comfort",
        "above_comfort",
        "turns",
        "upper",
        "lower",
    ):
        heavier = replace(Weights(), **{field: getattr(Weights(), field) * factor})
        assert sit(tune, singer, tonic, heavier).parts.total >= base


@unhurried
@given(sung_tunes())
def test_shares_make_a_whole(tune):
    """Levels part the tune: shares add up to 1 and beats to its length."""
    levels = levels_of(tune)
    assert sum(level.share for level in levels) == 1
    assert sum(level.beats for level in levels) == sum(note.beats for note in tune.notes)
    assert all(level.long_share <= level.share for level in levels)


def test_each_cause_has_its_price():
    """By hand: two single beats, one on E3 (53 - 52), one on D#5 (75 - 74), around F3-D5 and A3-Bb4.

    Each is half the tune. Usable: 4 x 1/2, 6 x 1/2. Comfort: 0.6 x 5/2 (A3 is 57), 1.0 x 5/2 (Bb4 is 70).
    Both reserves are -1, three short of 2: 0.5 x 3 and 0.25 x 3.
    """
    parts = sit(tune_of(sung("3"), sung("#2", 2)), MAREN, 48).parts
    assert (parts.below_usable, parts.above_usable) == (2.0, 3.0)
    assert (parts.below_comfort, parts.above_comfort) == (1.5, 2.5)
    assert (parts.upper, parts.lower, parts.turns) == (1.5, 0.75, 0.0)
    assert parts.total == 11.25


def test_a_held_note_weighs_half_as_much_again():
    """A note of two beats weighs 3, so it is three quarters beside one beat.

    Source: our own starting value, x1.5 for held notes.
    """
    low, high = levels_of(tune_of(sung("1"), sung("5", beats=2)))
    assert (low.share, high.share) == (Fraction(1, 4), Fraction(3, 4))


def test_short_notes_in_the_change_over_are_counted_but_not_charged():
    """Half a beat on the change-over note is told as time and costs nothing."""
    turning = replace(MAREN, turns=(pitch_at(64),))
    short = sit(tune_of(sung("3", beats=Fraction(1, 2)), sung("1", beats=Fraction(1, 2))), turning, 60)
    long = sit(tune_of(sung("3"), sung("1")), turning, 60)
    assert (short.in_turns_beats, short.parts.turns) == (Fraction(1, 2), 0)
    assert (long.in_turns_beats, long.parts.turns) == (Fraction(1), 0.25)


def test_without_lengths_nothing_is_told_in_beats():
    """Where only the ends are known there is no time in the change-over and no cycle dose."""
    turning = replace(MAREN, turns=(pitch_at(60),))
    sitting = sit(replace(tune_of(sung("1", beats=64), sung("5", beats=64)), timed=False), turning, 60)
    assert (sitting.in_turns_beats, sitting.cycle_dose, sitting.parts.turns) == (0, None, 0)


def test_the_cycle_dose_is_told_against_the_middle_of_comfort():
    """A tune on the middle of comfort has 1, an octave above it 2."""
    even = read_singer("Even", usable="C3-C6", comfort="C4-C5")  # the middle is F#4
    assert sit(tune_of(sung("#4")), even, 60).cycle_dose == pytest.approx(1)
    assert sit(tune_of(sung("#4", 1)), even, 60).cycle_dose == pytest.approx(2)
