"""Single notes that every player knows; common practice, no source, where nothing else is said."""

from math import log2

import pytest

from fifthwise.strings import harmonics_of, instrument_of, stop_mm
from fifthwise.strings.fingering import finger_line, fingerings
from fifthwise.theory import read_pitch
from tests.strings.fingering.reading import fingered, fingers, line

VIOLIN = instrument_of("violin")


@pytest.mark.parametrize(
    ("root", "notes", "expected"),
    [
        # over D5: its third, fifth, sixth
        ("D5:A3", "F#5 A5 B5", "A3 E1 E3 E4"),
        # over G4: third, fifth, fourth, minor third
        ("G4:D3", "B4 D5 C5 Bb4", "D3 A1 A3 A2 A1"),
        # under D5: its low fifth on the D string
        ("D5:A3", "A4:D", "A3 D4"),
        # B4 as the first finger: the fourth and fifth across the strings
        ("B4:A1", "E4 F#5", "A1 D1 E1"),
    ],
)
def test_degrees_about_a_root_have_their_fingers(root, notes, expected):
    """Third, fifth and sixth lie where the hand is.

    Source: arithmetic on strings in fifths.
    """
    assert fingered(f"{root} {notes}") == expected


@pytest.mark.parametrize(("pitch", "expected"), [("Db4", "G4"), ("C#4", "G3")])
def test_spelling_decides_the_finger(pitch, expected):
    """On the G string Db is the low fourth finger, C# the high third."""
    assert fingered(f"{pitch}:G") == expected


def test_an_octave_above_d_is_third_positions_fourth_finger():
    """D6 lies ten semitones up the E string.

    Source: arithmetic.
    """
    found = finger_line(line("D6"), VIOLIN, "third").notes[0]
    assert (found.stops[0].stop, found.stops[0].finger, found.centre) == (10, 4, 5)


@pytest.mark.parametrize(
    ("pitch", "partial", "share", "level"),
    [("D5", 2, 1 / 2, "all"), ("A5", 3, 1 / 3, "first"), ("D6", 4, 1 / 4, "first")],
)
def test_harmonics_of_the_d_string(pitch, partial, share, level):
    """Touched in the middle D sounds D5, at a third A5, at a quarter D6.

    Source: physics of an ideal string.
    """
    ((string, harmonic),) = [each for each in harmonics_of(VIOLIN, read_pitch(pitch)) if each[0] == 1]
    assert harmonic.touch == pytest.approx(-12 * log2(1 - share), abs=0.005)
    assert stop_mm(VIOLIN.length_mm, harmonic.touch) == pytest.approx(328 * share, abs=0.05)
    found = fingerings(line(f"{pitch}:D"), VIOLIN, level, 12, harmonics=True)
    stops = [each.notes[0].stops[0] for each in found]
    assert (string, partial, round(harmonic.touch)) in [(s.string, s.harmonic, s.stop) for s in stops]


def test_harmonics_are_used_only_where_they_may_be():
    """D6 in first position is a harmonic or nothing."""
    assert fingered("D6", harmonics=True) == "D3'4"
    assert fingers(finger_line(line("D5"), VIOLIN, harmonics=True), VIOLIN) == "A3"


def test_a_fourth_finger_spares_crossing_to_an_open_string():
    """In a turn about E on the A string the fourth finger stays; for a long E from the E string it does not.

    Source: method-book practice, from memory.
    """
    assert fingered("D5 E5 D5 C#5") == "A3 A4 A3 A2"
    assert fingered("F#5 E5 F#5 G5") == "E1 E0 E1 E2"
