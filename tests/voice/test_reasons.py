from dataclasses import replace

import pytest
from hypothesis import given

from fifthwise.theory import read_key, read_pitch
from fifthwise.voice import SungTune, rank_keys, read_singer, sit
from fifthwise.voice.level import core_of, heights_of, levels_of
from fifthwise.voice.reasons import tell_reasons
from fifthwise.voice.seat import Seat
from tests.voice.strategies import singers, sung, sung_tunes, unhurried

MAREN = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")


def reasons_in(key, tune, singer=MAREN):
    """What is told about one of the ranked keys."""
    return next(fit.reasons for fit in rank_keys(tune, singer) if str(fit.key) == key)


@unhurried
@given(sung_tunes(), singers())
def test_two_to_four_reasons_that_name_the_singer_first(tune, singer):
    """The first sentence speaks of the singer; none ends in a stop or promises minutes."""
    for fit in rank_keys(tune, singer):
        assert 2 <= len(fit.reasons) <= 4
        assert "Maren" in fit.reasons[0]
        assert all(
            text[0] == text[0].upper() and (text[-1].isalnum() or text[-1] == ")") for text in fit.reasons
        )
        assert not any("minute" in text or "  " in text or " ," in text for text in fit.reasons)


def test_where_three_quarters_lie_comes_first():
    """Twelve of sixteen beats lie from C4 to G4; the Bb4 stands alone above."""
    tune = SungTune(read_key("C"), (*[sung("1"), sung("3"), sung("5")] * 4, *[sung("5", -1)] * 3, sung("b7")))
    maren = read_singer("Maren", usable="F3-D5", comfort="G3-Bb4")
    assert reasons_in("C", tune, maren)[0] == (
        "Three quarters of the tune lies from C4 to G4, the middle of what Maren sings easily; "
        "the top Bb4 comes once"
    )


def test_a_top_above_comfort_is_told_with_its_distance_and_time():
    """F5 over a comfort that ends on Eb5, for two beats."""
    tune = SungTune(read_key("F"), (*[sung("1")] * 12, *[sung("5")] * 8, sung("1", 1, 2)))
    high = read_singer("Ilse", usable="A3-A5", comfort="Eb4-Eb5")
    assert "The top note F5 is a whole step above comfort for 2 beats" in reasons_in("F", tune, high)


def test_a_top_out_of_reach_names_the_voices_end():
    """What cannot be sung is told against the usable range, not against comfort."""
    tune = SungTune(read_key("C"), (*[sung("1")] * 4, sung("5", 1, 3)))
    fits = rank_keys(tune, read_singer("Maren", usable="C4-D5", comfort="E4-Bb4"))
    in_c = next(fit.reasons for fit in fits if str(fit.key) == "C")
    assert "The top note G5 is a fourth above Maren's highest note, D5, for 3 beats" in in_c


def test_a_low_note_is_told_as_well():
    """G3 lies a whole step below a comfort that begins on A3."""
    tune = SungTune(read_key("C"), (*[sung("1")] * 6, *[sung("5")] * 6, sung("5", -1)))
    assert "The lowest note G3 is a whole step below comfort for 1 beat" in reasons_in("C", tune)


def test_the_costlier_fault_is_told_first():
    """Four beats too high come before one beat too low, and the other way round."""
    high = SungTune(read_key("C"), (*[sung("1")] * 9, sung("5", -1), sung("1", 1, 4)))
    told = reasons_in("C", high)
    assert told[1].startswith("The top note C5 is a whole step above comfort for 4 beats")
    assert told[2].startswith("The lowest note G3")
    low = SungTune(read_key("C"), (*[sung("1")] * 9, sung("5", -1, 8), sung("1", 1, 1)))
    told = reasons_in("C", low)
    assert told[1].startswith("The lowest note G3 is a whole step below comfort for 8 beats")
    assert told[2].startswith("The top note C5")


def test_the_change_over_is_told_in_beats():
    """Time on and around the singer's own change-over notes."""
    tune = SungTune(read_key("C"), (*[sung("1")] * 6, sung("3", 0, 2), sung("4", 0, "1/2")))
    one, two = (
        replace(MAREN, turns=read_singer("T", usable="C3-C6", comfort="C4-C5", turns=t).turns)
        for t in ("E4", "D4 F4")
    )
    assert "2.5 beats lie in the change-over around E4" in reasons_in("C", tune, one)
    assert "2.5 beats lie in the change-over from D4 to F4" in reasons_in("C", tune, two)


def test_what_is_left_to_spare_comes_last():
    """D4 to A4 in F3-D5: a fourth above, a major sixth below."""
    tune = SungTune(read_key("D"), (sung("1"), sung("3"), sung("5")))
    assert reasons_in("D", tune)[-1] == "A fourth to spare above the top note, a major sixth below the lowest"


def test_an_octave_other_than_written_is_told():
    """A singer with a lower voice takes the tune an octave lower than written."""
    tune = SungTune(read_key("D"), (sung("1"), sung("5")), written=read_pitch("D5"))
    assert reasons_in("D", tune)[1] == "It is sung an octave lower than written"


def test_a_top_that_comes_after_the_key_change_is_told_so():
    """The last chorus a whole step up is where the top note is."""
    tune = SungTune(read_key("C"), (*[sung("1"), sung("3")] * 6, sung("5"), sung("5", lift=2)))
    assert reasons_in("C", tune)[0].endswith("; the top A4 comes once after the key change")


def test_without_lengths_no_beats_are_told():
    """Ends alone are told as ends."""
    tune = SungTune(read_key("D"), (sung("5", -1, 64), sung("5", 0, 64)), timed=False)
    told = reasons_in("D", tune)
    assert told[0] == "The tune lies from A3 to A4, the middle of what Maren sings easily"
    assert not any("beat" in text for text in told)


@pytest.mark.parametrize(
    ("comfort", "words"),
    [
        ("C3-F3", "above what Maren sings easily (C3 to F3)"),
        ("B4-C5", "below what Maren sings easily (B4 to C5)"),
        ("E4-C5", "partly outside what Maren sings easily (E4 to C5)"),
        ("C4-C5", "the lower part of what Maren sings easily"),
        ("C3-G4", "the upper part of what Maren sings easily"),
        ("Bb3-A4", "the middle of what Maren sings easily"),
    ],
)
def test_the_stretch_is_told_against_comfort(comfort, words):
    """C4 to G4, wherever comfort lies."""
    tune = SungTune(read_key("C"), (sung("1"), sung("5")))
    singer = read_singer("Maren", usable="C3-C5", comfort=comfort)
    core = core_of(levels_of(tune), timed=True)
    seat = Seat(
        tune, heights_of(tune), singer, read_key("C"), read_pitch("C4"), sit(tune, singer, 60), None, core
    )
    assert tell_reasons(seat)[0].endswith(words)
