import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import (
    NoteFault,
    between,
    degree_interval,
    degree_of,
    interval_name,
    note_of,
    read_degree,
    read_note,
    read_pitch,
    transpose,
)
from tests.strategies import degrees, note_names


@given(degrees(), note_names())
def test_a_degree_named_as_a_note_is_counted_back(degree, one):
    """Naming and counting from the same 1 are reverses."""
    assert degree_of(note_of(degree, one), one) == degree


@given(degrees())
def test_a_degree_written_is_read_again(degree):
    """Writing and reading are reverses, also in the signs of print."""
    assert read_degree(str(degree)) == degree
    assert read_degree(str(degree).replace("b", "♭").replace("#", "♯")) == degree


@given(degrees(), st.integers(-2, 3))
def test_a_degree_in_an_octave_keeps_its_number(degree, octave):
    """The interval has the degree's step, its octave and its sound."""
    interval = degree_interval(degree, octave)
    assert interval.fifths == degree.fifths
    assert interval.steps == degree.step - 1 + 7 * octave
    assert interval.semitones % 12 == degree.semitones


@given(degrees())
def test_an_interval_above_the_root_is_named_like_its_degree(degree):
    """In the first octave the name of an interval is the degree's."""
    assert interval_name(degree_interval(degree)) == str(degree)


@pytest.mark.parametrize(
    ("one", "note", "degree"),
    [
        ("D", "F", "b3"),
        ("D", "G#", "#4"),
        ("D", "Ab", "b5"),
        ("D", "E", "2"),
        ("D", "B", "6"),
        ("F", "Bb", "4"),
        ("F", "C", "5"),
        ("F", "D", "6"),
        ("G", "B", "3"),
        ("G", "Bb", "b3"),
        ("G", "F", "b7"),
        ("Cb", "Fb", "4"),
        ("G#", "B", "b3"),
        ("C#", "B#", "7"),
        ("Gb", "Cb", "4"),
    ],
)
def test_notes_have_their_degrees(one, note, degree):
    """Degrees count from the major scale of the 1. Common practice, no source."""
    assert str(degree_of(read_note(note), read_note(one))) == degree
    assert str(note_of(read_degree(degree), read_note(one))) == note


def test_the_second_an_octave_up_is_the_ninth():
    """E over D is 2, and 9 an octave higher. Common practice, no source."""
    second = degree_of(read_note("E"), read_note("D"))
    assert interval_name(degree_interval(second)) == "2"
    assert interval_name(degree_interval(second, 1)) == "9"
    assert interval_name(between(read_pitch("D4"), read_pitch("E5"))) == "9"


@pytest.mark.parametrize(
    ("degree", "semitones"),
    [
        ("1", 0), ("b2", 1), ("2", 2), ("b3", 3), ("3", 4), ("4", 5), ("#4", 6), ("b5", 6),
        ("5", 7), ("b6", 8), ("6", 9), ("b7", 10), ("7", 11),
    ],
)  # fmt: skip
def test_degrees_lie_their_semitones_above_the_one(degree, semitones):
    """On one string a degree is so many semitones above the root. Common practice, no source."""
    assert degree_interval(read_degree(degree)).semitones == semitones
    assert degree_interval(read_degree(degree), 1).semitones == semitones + 12


@pytest.mark.parametrize(
    ("root", "degree", "octave", "pitch"),
    [
        ("D5", "5", 0, "A5"),
        ("D5", "6", 0, "B5"),
        ("D5", "3", 0, "F#5"),
        ("D5", "1", 1, "D6"),
        ("D5", "5", -1, "A4"),
        ("G4", "b3", 0, "Bb4"),
        ("G4", "b7", 0, "F5"),
        ("G4", "4", 0, "C5"),
        ("B4", "5", 0, "F#5"),
        ("B4", "4", -1, "E4"),
        ("Ab3", "b3", 0, "Cb4"),
    ],
)
def test_degrees_over_a_root_are_these_pitches(root, degree, octave, pitch):
    """The octave of a degree is counted from the root. Common practice, no source."""
    assert str(transpose(read_pitch(root), degree_interval(read_degree(degree), octave))) == pitch


@pytest.mark.parametrize("text", ["8", "0", "b", "", "x4", "4b", "b#3", "###4"])
def test_what_is_no_degree_is_refused(text):
    """The message shows the range and the accidentals."""
    with pytest.raises(NoteFault, match=r"is no degree\. Write 1 to 7, with b or # before it, as in 'b7'\."):
        read_degree(text)
