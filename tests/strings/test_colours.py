"""What the open strings are over a chord, and in a key."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings import instrument_names, instrument_of, open_colours, open_degrees
from fifthwise.theory import chord_notes, read_chord, read_key, read_letter_chord, to_letters
from tests.strategies import keys

# Derived: the open strings of a violin that are chord tones of 1, 4, 5 and 6-, key by key.
DRONES = {
    "G": "G D / G E / D A / G E",
    "D": "D A / G D / A E / D",
    "A": "A E / D A / E / A",
    "C": "G E / A / G D / A E",
    "F": "A / D / G E / D A",
    "Bb": "D / G / A / G D",
    "Eb": "G / - / D / G",
    "E": "E / A E / - / E",
}


@pytest.mark.parametrize("key", DRONES)
def test_open_strings_that_are_chord_tones(key):
    """The strings that ring inside the four chords are those of the table."""
    violin, tonic = instrument_of("violin"), read_key(key)
    for number, strings in zip(("1", "4", "5", "6-"), DRONES[key].split(" / "), strict=True):
        chord = to_letters(read_chord(number, tonic), tonic.tonic)
        told = [str(c.pitch.name) for c in open_colours(violin, chord) if c.in_chord]
        assert told == [name for name in strings.split() if name != "-"]


@pytest.mark.parametrize(
    ("chord", "names"),
    [
        ("G", "root 5 9 6"),
        ("D", "sus4 root 5 9"),  # the 1 over the 5 is its sus4
        ("C", "5 9 6 3"),  # the 5 over the 4 is its 9
        ("Em", "b3 b7 11 root"),
        ("D7", "sus4 root 5 9"),
        ("C7", "5 9 13 3"),
        ("Dsus", "sus4 root 5 9"),
        ("Gb", "b9 b6 #9 b7"),
        ("Bdim", "b6 b3 b7 11"),
    ],
)
def test_colours_have_their_players_names(chord, names):
    """Each open string is called as players call it over the chord; common practice, no source."""
    told = open_colours(instrument_of("violin"), read_letter_chord(chord))
    assert [colour.name for colour in told] == names.split()


@pytest.mark.parametrize(
    ("key", "degrees"),
    [
        ("G", "1 5 2 6"),
        ("Bb", "6 3 7 -"),
        ("Eb", "3 7 - -"),
        ("E", "- - 4 1"),
        ("Cb", "- - - 4"),
        ("G#m", "- - - 4"),
    ],
)
def test_open_strings_of_a_key(key, degrees):
    """Each open string has its degree, by sound: E is the 4 of Cb. Outside the scale it has none."""
    told = open_degrees(instrument_of("violin"), read_key(key))
    assert [str(each.degree or "-") for each in told] == degrees.split()


@given(st.sampled_from(instrument_names()), keys(), st.sampled_from(["1", "57", "6-7", "4maj7", "2ø7", "b7"]))
def test_a_colour_is_in_the_chord_when_it_sounds_in_it(name, key, number):
    """Every open string is told, and is a chord tone exactly where its sound is one of the chord's."""
    chord = to_letters(read_chord(number, key), key.tonic)
    sounds = {note.pitch_class for note in chord_notes(chord)}
    told = open_colours(instrument_of(name), chord)
    assert [colour.pitch for colour in told] == list(instrument_of(name).strings)
    assert [colour.in_chord for colour in told] == [colour.pitch.midi % 12 in sounds for colour in told]


def test_no_note_belongs_to_1_4_and_5_at_once():
    """A drone that rings on is always a colour somewhere. Derived: the three major triads share no note."""
    key = read_key("C")
    chords = [set(chord_notes(to_letters(read_chord(n, key), key.tonic))) for n in ("1", "4", "5")]
    assert not set.intersection(*chords)
