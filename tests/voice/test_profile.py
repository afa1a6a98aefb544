from fractions import Fraction

import pytest
from hypothesis import given

from fifthwise.theory import read_key
from fifthwise.voice import SungTune, best_key, rank_keys, read_singer, sung_profile
from tests.voice.strategies import singers, sung, sung_tunes, unhurried

MAREN = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4", turns="E4")


@unhurried
@given(sung_tunes(), singers())
def test_the_picture_adds_up(tune, singer):
    """Beats add up to the tune, pitches rise, and easy ones make the share in comfort."""
    fit = best_key(tune, singer)
    rows = sung_profile(tune, singer, fit).pitches
    assert [row.pitch.midi for row in rows] == sorted(row.pitch.midi for row in rows)
    assert (rows[0].pitch.midi, rows[-1].pitch.midi) == (fit.bottom.midi, fit.top.midi)
    total = sum(note.beats for note in tune.notes)
    assert sum(row.beats for row in rows) == (total if tune.timed else 0)
    if tune.timed:
        easy = sum(row.beats for row in rows if row.ease == "easy")
        assert float(easy / total) == pytest.approx(fit.sitting.in_comfort)
        assert sum(row.beats for row in rows if row.in_turns) == fit.sitting.in_turns_beats


def test_each_pitch_has_its_number_time_and_ease():
    """A tune in C from E3, too low, to Eb5, too high."""
    tune = SungTune(
        read_key("C"), (sung("3", -1), *[sung("1"), sung("3")] * 9, sung("1", 1, 2), sung("b3", 1))
    )
    fit = next(fit for fit in rank_keys(tune, MAREN) if str(fit.tonic) == "C4")
    told = [
        (str(row.pitch), " ".join(map(str, row.degrees)), row.beats, row.ease, row.in_turns)
        for row in sung_profile(tune, MAREN, fit).pitches
    ]
    assert told == [
        ("E3", "3", 1, "too low", False),
        ("C4", "1", 9, "easy", False),
        ("E4", "3", 9, "easy", True),
        ("C5", "1", 2, "high", False),
        ("Eb5", "b3", 1, "too high", False),
    ]


def test_a_pitch_keeps_both_numbers_over_a_key_change():
    """D4 is the 2 in C and the 1 after a whole step up, the longer sung first."""
    tune = SungTune(read_key("C"), (sung("2", 0, 3), sung("1", lift=2)))
    fit = next(fit for fit in rank_keys(tune, MAREN) if str(fit.key) == "C")
    (row,) = sung_profile(tune, MAREN, fit).pitches
    assert [str(degree) for degree in row.degrees] == ["2", "1"]
    assert row.beats == Fraction(4)


def test_after_a_half_step_up_notes_are_spelled_in_the_new_key():
    """From Db up a half step the new 1 is D and its 3 F#, not Ebb and Gb."""
    tune = SungTune(read_key("Db"), (sung("1"), sung("1", lift=1), sung("3", lift=1)))
    fit = next(fit for fit in rank_keys(tune, MAREN) if str(fit.key) == "Db")
    assert [str(row.pitch) for row in sung_profile(tune, MAREN, fit).pitches] == ["Db4", "D4", "F#4"]
