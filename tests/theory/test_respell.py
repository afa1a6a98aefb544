import pytest
from hypothesis import given

from fifthwise.theory import (
    chord_notes,
    pitch_classes,
    player_reading,
    read_key,
    read_letter_chord,
    without_doubles,
    write_letters,
)
from tests.strategies import keys, letter_chords


@given(letter_chords(), keys())
def test_a_player_hears_the_same_chord(chord, key):
    """Every note, root and bass sound as they did."""
    read = player_reading(chord, key)
    assert [note.pitch_class for note in chord_notes(read)] == [n.pitch_class for n in chord_notes(chord)]
    assert pitch_classes(without_doubles(chord)) == pitch_classes(chord)


@given(letter_chords(), keys())
def test_a_player_never_reads_a_root_with_two_accidentals(chord, key):
    """The root of what is shown has one accidental at most, and is shown so at once."""
    read = player_reading(chord, key)
    assert abs(read.root.alter) <= 1
    assert player_reading(read, key) == read
    assert abs(without_doubles(chord).root.alter) <= 1


@given(letter_chords(), keys())
def test_a_chord_is_respelled_as_a_whole_or_not_at_all(chord, key):
    """All notes move by twelve fifths, or none does."""
    read = player_reading(chord, key)
    moves = {a.fifths - b.fifths for a, b in zip(chord_notes(read), chord_notes(chord), strict=True)}
    assert moves in ({0}, {12}, {-12})


@pytest.mark.parametrize(
    ("chord", "key", "read"),
    [
        ("Cb", "Gb", "Cb"),
        ("Cb", "Ab", "B"),
        ("Fb", "Cb", "Fb"),
        ("Fb/Cb", "Ab", "E/B"),
        ("B#dim", "C#", "B#dim"),
        ("B#7", "E", "C7"),
        ("E#m", "C#", "E#m"),
        ("E#m7/B#", "B", "Fm7/C"),
        ("Bbb", "Db", "A"),
        ("F##dim7", "C#", "Gdim7"),
        ("E#dim", "F# minor", "Fdim"),
        ("E#dim", "F#", "E#dim"),
        ("Cb", "Eb minor", "Cb"),
        ("Abm", "Gb", "Abm"),
    ],
)
def test_awkward_names_are_for_the_scale_alone(chord, key, read):
    """Cb, Fb, E# and B# stay where the key has them and are respelled where it has not.

    Our own rule; the 4 of Gb is Cb by common practice.
    """
    assert write_letters(player_reading(read_letter_chord(chord), read_key(key))) == read


@pytest.mark.parametrize(
    ("chord", "read"), [("Bbb", "A"), ("F##dim7/A#", "Gdim7/Bb"), ("Cb", "Cb"), ("E#", "E#"), ("G", "G")]
)
def test_without_doubles_leaves_single_accidentals(chord, read):
    """Only a root with two accidentals is respelled."""
    assert write_letters(without_doubles(read_letter_chord(chord))) == read
