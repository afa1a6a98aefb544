"""Scales and arpeggios as method books finger them; all from memory, "method-book practice"."""

import pytest

from fifthwise.strings import instrument_of, tuned
from fifthwise.strings.fingering import finger_line, fingering_faults, fingerings
from fifthwise.theory import Interval, read_pitch, transpose
from tests.strings.fingering.reading import fingered, fingers, line

# a major scale's degrees above its tonic, on the line of fifths: (fifths, octaves)
SCALE = [(0, 0), (2, -1), (4, -2), (-1, 1), (1, 0), (3, -1), (5, -2)]
TRIAD = [(0, 0), (4, -2), (1, 0)]


def upward(tonic, octaves, steps):
    """The text of a scale or an arpeggio."""
    every = [Interval(fifths, up + octave) for octave in range(octaves) for fifths, up in steps]
    every.append(Interval(0, octaves))
    return " ".join(str(transpose(read_pitch(tonic), step)) for step in every)


# Method-book practice, from memory.
VIOLIN_SCALES = [
    ("G3", 2, "G0 G1 G2 G3 D0 D1 D2 D3 A0 A1 A2 A3 E0 E1 E2"),
    ("A3", 2, "G1 G2 G3 D0 D1 D2 D3 A0 A1 A2 A3 E0 E1 E2 E3"),
    ("Bb3", 2, "G2 G3 D0 D1 D2 D3 A0 A1 A2 A3 A4 E1 E2 E3 E4"),
    ("D4", 1, "D0 D1 D2 D3 A0 A1 A2 A3"),
    ("A4", 1, "A0 A1 A2 A3 E0 E1 E2 E3"),
    ("C4", 1, "G3 D0 D1 D2 D3 A0 A1 A2"),
    ("F4", 1, "D2 D3 A0 A1 A2 A3 E0 E1"),
    ("Eb4", 1, "D1 D2 D3 D4 A1 A2 A3 A4"),
    ("Ab3", 2, "G1 G2 G3 G4 D1 D2 D3 D4 A1 A2 A3 A4 E1 E2 E3"),
]
VIOLIN_ARPEGGIOS = [
    ("G3", 2, "G0 G2 D0 D3 A1 A3 E2"),
    ("A3", 2, "G1 G3 D1 A0 A2 E0 E3"),
    ("Bb3", 2, "G2 D0 D2 A1 A3 E1 E4"),
    ("D4", 1, "D0 D2 A0 A3"),
    ("C4", 1, "G3 D1 D3 A2"),
    ("F4", 1, "D2 A0 A2 E1"),
]


@pytest.mark.parametrize("level", ["first", "half", "third", "all"])
@pytest.mark.parametrize(("tonic", "octaves", "expected"), VIOLIN_SCALES)
def test_violin_scales_lie_as_in_method_books(tonic, octaves, expected, level):
    """A scale that lies in first position is played there, whatever the level; Bb does not drift to half.

    Source: method-book practice, from memory.
    """
    scale = upward(tonic, octaves, SCALE)
    found = finger_line(line(scale), instrument_of("violin"), level)
    assert fingers(found, instrument_of("violin")) == expected
    assert {note.centre for note in found.notes} == {2}


@pytest.mark.parametrize(("tonic", "octaves", "expected"), VIOLIN_ARPEGGIOS)
def test_violin_arpeggios_lie_as_in_method_books(tonic, octaves, expected):
    """Fingers follow the letters.

    Source: method-book practice, from memory.
    """
    assert fingered(upward(tonic, octaves, TRIAD)) == expected


@pytest.mark.parametrize(("tonic", "octaves", "expected"), VIOLIN_SCALES)
def test_down_a_scale_the_fingers_come_back(tonic, octaves, expected):
    """Down again the same fingers are among the four best.

    Source: method-book practice, from memory; an open string and the fourth finger stand for each other.
    """
    violin = instrument_of("violin")
    down = " ".join(reversed(upward(tonic, octaves, SCALE).split()))
    found = fingerings(line(down), violin, "first", 4)
    assert " ".join(reversed(expected.split())) in [fingers(each, violin) for each in found]


@pytest.mark.parametrize("tonic", ["F#4", "B3", "C#4", "Db4", "Gb4"])
@pytest.mark.parametrize("level", ["first", "half", "third"])
def test_sharp_and_flat_keys_are_playable_in_first_position(tonic, level):
    """No major scale of one octave leaves a violinist without fingers, or moves the hand."""
    violin = instrument_of("violin")
    found = finger_line(line(upward(tonic, 1, SCALE)), violin, level)
    assert fingering_faults(found, violin, level) == ()
    assert found.shifts == ()


def test_chromatic_notes_have_the_fingers_of_their_letters():
    """The two forms of a letter share a finger: F natural and F# are both the second on D.

    Source: method-book practice, from memory.
    """
    assert fingered("D4 Eb4 E4 F4 F#4 G4 G#4") == "D0 D1 D1 D2 D2 D3 D3"
    assert fingered("A4 A#4 B4 C5 C#5 D5 D#5 E5") == "A0 A1 A1 A2 A2 A3 A3 A4"


# The hand closed, or extended where four tones lie a major third apart. Method-book practice, from memory.
CELLO_SCALES = [
    ("C2", 2, "C0 C1 C3 C4 G0 G1 G3 G4 D0 D1 D2 D4 A0 A1 A2"),
    ("G2", 1, "G0 G1 G3 G4 D0 D1 D3 D4"),
    ("D3", 1, "D0 D1 D3 D4 A0 A1 A3 A4"),
    ("F2", 1, "C4 G0 G1 G2 G4 D0 D1 D2"),
    ("Bb2", 1, "G2 G4 D0 D1 D2 D4 A0 A1"),
]


@pytest.mark.parametrize("level", ["first", "half", "third"])
@pytest.mark.parametrize(("tonic", "octaves", "expected"), CELLO_SCALES)
def test_cello_scales_lie_as_in_method_books(tonic, octaves, expected, level):
    """A closed hand stops 1 3 4 or 1 2 4; Eb and Bb are the extended first finger.

    Source: method-book practice, from memory.
    """
    assert fingered(upward(tonic, octaves, SCALE), "cello", level) == expected


def test_a_cellist_extends_where_a_tone_more_is_wanted():
    """Bb on the A string is the first finger stretched back, B the first at its place.

    Source: method-book practice, from memory.
    """
    cello = instrument_of("cello")
    found = finger_line(line("Bb3 B3 C4 D4"), cello)
    assert [note.shape for note in found.notes][:2] == ["extended back", "closed"]
    assert fingers(found, cello) == "A1 A1 A2 A4"


@pytest.mark.parametrize(
    ("text", "level", "expected"),
    [
        (upward("G1", 1, SCALE), "first", "E2 A0 A1 A2 D0 D1 D4 G0"),
        (upward("F1", 1, SCALE), "half", "E1 E4 A0 A1 A4 D0 D2 D4"),
        ("E1 F#1 G#1 A1 B1 C#2", "first", "E0 E1 E4 A0 A1 A4"),
    ],
)
def test_a_bassist_plays_with_one_two_and_four(text, level, expected):
    """A tone from 1 to 4, the second finger between them.

    Source: method-book practice, from memory.
    """
    found = fingered(text, "double bass", level)
    assert "3" not in found
    assert found == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("D5:A1 E5 F#5 G5 A5 B5 C#6 D6", "A1 A2 A3 A4 E1 E2 E3 E4"),
        ("G4:D1 A4:D B4 C5 D5 E5 F#5 G5:A4", "D1 D2 D3 D4 A1 A2 A3 A4"),
        ("C4:G1 D4:G E4 F4 G4 A4 B4 C5:D4", "G1 G2 G3 G4 D1 D2 D3 D4"),
    ],
)
def test_an_octave_in_third_position_is_one_hand(text, expected):
    """Pinned to begin there, a scale stays: 1 2 3 4 on two strings.

    Source: method-book practice, from memory.
    """
    violin = instrument_of("violin")
    found = finger_line(line(text), violin, "third")
    assert fingers(found, violin) == expected
    assert {note.centre for note in found.notes} == {5}


def test_a_retuned_violin_has_the_fingers_of_its_strings():
    """In AEAE the upper strings are the lower ones an octave higher, so the same fingers play them.

    Source: arithmetic.
    """
    violin = tuned(instrument_of("violin"), "AEAE")
    assert fingered("A3 B3 C#4 D4 E4 F#4", violin) == "A30 A31 A32 A33 E40 E41"
    assert fingered("A4 B4 C#5 D5 E5 F#5", violin) == "A40 A41 A42 A43 E50 E51"


def test_far_tunings_are_fingered():
    """A violin a fifth down all over has a viola's notes and a violinist's fingers."""
    low = tuned(instrument_of("violin"), "C3 G3 D4 A4")
    assert fingered(upward("C3", 2, SCALE), low) == "C0 C1 C2 C3 G0 G1 G2 G3 D0 D1 D2 D3 A0 A1 A2"
