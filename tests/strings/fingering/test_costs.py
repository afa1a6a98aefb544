"""Each weight alone: what it makes dear, counted by hand, and what it leaves alone."""

from dataclasses import fields

import pytest

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import Costs, finger_line
from tests.strings.fingering.reading import line

FREE = dict.fromkeys((field.name for field in fields(Costs)), 0.0)
# Pins leave the search one way, or one that is plainly best. Reaches that the frame prices are named.
SHIFTING = [
    # the hand goes from first position to third
    ({"shift": 1}, "A5:E3 D6:E4", 1),
    ({"shift": 1}, "A5:E3 B5:E4", 0),
    # 100 (2^(-2/12) - 2^(-5/12)) hundredths of the string
    ({"distance": 0.01}, "B4:A1 D5:A1", 0.141745),
    ({"distance": 0.01}, "B4:A1 r D5:A1", 0.0708725),
    ({"shift": 2, "quiet": 1}, "B4:A1 D5:A1", 2),
    ({"shift": 2, "quiet": 1}, "B4:A1 E5:E0 D5:A1", 1),
    ({"shift": 2, "quiet": 1}, "B4:A1 r D5:A1", 1),
    ({"slur_shift": 1}, "B4~:A1 D5:A1", 1),
    ({"slur_shift": 1}, "B4:A1 D5~:A1", 0),
    ({"slur_shift": 1}, "B4~:A1 r D5:A1", 0),
    # at 100 quarters a minute a sixteenth lasts 0.15 s, a triplet's eighth 0.2 s
    ({"short_shift": 1}, "B4*1/4:A1 D5:A1", 1),
    ({"short_shift": 1}, "B4*1/3:A1 D5*1/4:A1", 0),
    ({"shift": 1, "beat_shift": 0.25}, "B4:A1 D5:A1", 0.75),
    ({"same_finger": 1}, "B4:A1 D5:A1", 1),
    ({"same_finger": 1}, "B4:A1 C5:A1", 0),
    ({"same_finger": 1}, "B4:A1 G5:E1", 0),
    # three semitones in a row with one finger: one slides, one lies low (0.1)
    ({"shift": 1, "slide": 0.5}, "Bb4:A1 B4:A1 C5:A1", 0.6),
    # three semitones above first position
    ({"height": 0.1}, "D6:E4", 0.3),
    ({"height": 0.1}, "A5:E3", 0),
    ({"away": 1}, "D5:A1 D5:A1", 2),
    ({"away": 1}, "B4:A1", 0),
]
STAYING = [
    # the third finger reaches back (0.3)
    ({"substitute": 1}, "F#4:D2 F#4:D3", 1.3),
    ({"substitute": 1}, "F#4:D2 A4 F#4:D3", 0.3),
    ({"creep": 1}, "F4:D2 F#4:D2", 1),
    ({"creep": 1}, "F4:D2 A4:A0 F#4:D2", 0),
    ({"crossing": 1}, "B4:A1 F#5:E1", 1),
    ({"crossing": 1}, "E4:D1 F#5:E1", 2),
    ({"crossing": 1}, "B4:A1 B4+G5:A1+E2", 0.5),
    ({"skip": 1}, "E4:D1 F#5:E1", 1),
    ({"skip": 1}, "G3:G0 F#5:E1", 1),
    ({"skip": 1}, "B4:A1 F#5:E1", 0),
    ({"slur_crossing": 1}, "E4~:D1 F#5:E1", 2),
    ({"slur_crossing": 1}, "E4:D1 F#5:E1", 0),
    ({"hop": 1}, "F4:D2 C#5:A2", 1),
    ({"hop": 1}, "F4:D2 C5:A2", 0),
    ({"hop": 1}, "F4:D2 G#5:E2", 0),
    ({"fifth": 1}, "F4:D2 C5:A2", 1),
    ({"fifth": 1}, "F4:D2 C#5:A2", 0),
    ({"fourth": 1}, "E5:A4 D5:A3 E5:A4", 2),
    ({"long_fourth": 1}, "E5*5/4:A4 D5:A3 E5:A4", 1),
    ({"long_open": 1}, "A4*5/4:A0 A4:A0", 1),
    ({"long_open": 1}, "D4+A4*2:D0+A0", 1),
    # both reach up a semitone (0.2)
    ({"spelling": 1}, "Db4:G3", 1.2),
    ({"spelling": 1}, "C#4:G3", 0.2),
    ({"barre": 1}, "E4+B4:D1+A1", 1),
    ({"barre": 1}, "D4+A4:D0+A0", 0),
    ({"motion": 1}, "B4 D5 B4+G5 C5+E5", 3 + 3 + 1 + 3),
    ({"change": 1}, "B4 D5 B4+G5 B4+E5", 1 + 1 + 0 + 1),
    ({"repeat": 1}, "B4 B4 B4+G5 B4+E5", 1 + 1 + 1),
]


def cost(weights, text, level):
    """The cost of a line where all other weights are nothing."""
    costs = Costs(**{**FREE, **weights})
    return finger_line(line(text), instrument_of("violin"), level, costs=costs).cost


@pytest.mark.parametrize(("weights", "text", "expected"), SHIFTING)
def test_a_weight_makes_shifts_dear(weights, text, expected):
    """What costs by the hand's place is counted where the hand may move."""
    assert cost(weights, text, "third") == pytest.approx(expected, abs=1e-6)


@pytest.mark.parametrize(("weights", "text", "expected"), STAYING)
def test_a_weight_makes_fingers_and_strings_dear(weights, text, expected):
    """What costs by finger and string is counted where the hand stays."""
    assert cost(weights, text, "first") == pytest.approx(expected, abs=1e-6)


def test_out_of_first_position_spelling_is_nothing():
    """Letters give fingers in first position only."""
    assert cost({"spelling": 1}, "C5:A1", "third") == 0


@pytest.mark.parametrize(("text", "expected"), [("E6:E1", 0.5), ("B5:E1", 0)])
def test_above_fourth_position_the_hand_is_dearer(text, expected):
    """The first finger on stop 12 lies five semitones above fourth position, on stop 7 in it."""
    assert cost({"high": 0.1}, text, "all") == pytest.approx(expected)


def test_a_harmonic_costs_what_it_costs():
    """D6 as the fourth partial of the D string, under the third finger."""
    costs = Costs(**{**FREE, "harmonic": 1})
    found = finger_line(line("D6:D3"), instrument_of("violin"), costs=costs, harmonics=True)
    assert found.cost == 1


@pytest.mark.parametrize(("on_beat", "phrase_start", "expected"), [(0, 0, 1), (0, 1, 0.75), (1, 1, 0.75)])
def test_a_phrase_starts_like_a_beat(on_beat, phrase_start, expected):
    """A shift is cheaper to the beat or to a phrase's start, and once only."""
    costs = Costs(**{**FREE, "shift": 1, "beat_shift": 0.25})
    written = line("B4:A1 D5:A1", on_beat=bool(on_beat), phrase_start=bool(phrase_start))
    assert finger_line(written, instrument_of("violin"), "third", costs=costs).cost == expected


@pytest.mark.parametrize(("tempo", "expected"), [(100, 1), (101, 0)])
def test_how_long_a_note_is_depends_on_the_tempo(tempo, expected):
    """A dotted quarter and a sixteenth more is 0.75 s at 100 a minute."""
    costs = Costs(**{**FREE, "long_open": 1})
    found = finger_line(line("A4*5/4:A0", tempo), instrument_of("violin"), costs=costs)
    assert found.cost == expected


def test_every_weight_has_its_case():
    """A new weight needs one here."""
    tried = {weight for weights, _, _ in SHIFTING + STAYING for weight in weights}
    assert tried | {"high", "harmonic"} == set(FREE)
