import pytest
from hypothesis import given

from fifthwise.theory import (
    Interval,
    NoteFault,
    NoteName,
    SpelledPitch,
    between,
    read_note,
    read_pitch,
    transpose,
)
from tests.strategies import intervals, note_names, pitches

FIFTH = Interval(1, 0)
OCTAVE = Interval(0, 1)


@given(pitches(), intervals())
def test_transposing_there_and_back_changes_nothing(pitch, interval):
    """A pitch moved by an interval and by its reverse is the same pitch, spelling and octave."""
    assert transpose(transpose(pitch, interval), -interval) == pitch


@given(pitches(), intervals())
def test_the_interval_between_two_pitches_leads_from_one_to_the_other(pitch, interval):
    """What was added is what lies between."""
    assert between(pitch, transpose(pitch, interval)) == interval


@given(pitches(), intervals(), intervals())
def test_two_moves_are_one_move_by_their_sum(pitch, first, second):
    """Intervals add up."""
    assert transpose(transpose(pitch, first), second) == transpose(pitch, first + second)


@given(pitches(), intervals())
def test_what_is_written_and_what_sounds_move_together(pitch, interval):
    """A move changes the sound by the interval's semitones and the letter by its steps."""
    moved = transpose(pitch, interval)
    assert moved.midi == pitch.midi + interval.semitones
    letters = "CDEFGAB"
    start, end = (letters.index(p.name.letter) + 7 * p.octave for p in (pitch, moved))
    assert end - start == interval.steps


@given(pitches())
def test_twelve_fifths_up_and_seven_octaves_down_sound_the_same(pitch):
    """The comma is silent in equal temperament, and the name is another one."""
    moved = transpose(pitch, Interval(12, -7))
    assert moved.midi == pitch.midi
    assert moved.name != pitch.name


def test_twelve_fifths_from_c_spell_b_sharp():
    """From C4 one fifth after another leads to B#, which sounds as C4 and is written B#3.

    Common practice, no source.
    """
    pitch = read_pitch("C4")
    for _ in range(12):
        pitch = transpose(pitch, FIFTH)
    for _ in range(7):
        pitch = transpose(pitch, -OCTAVE)
    assert str(pitch) == "B#3"


@given(note_names())
def test_a_note_written_is_read_again(note):
    """Writing and reading are reverses, also in the signs of print."""
    assert read_note(str(note)) == note
    assert read_note(str(note).replace("b", "♭").replace("#", "♯")) == note
    assert read_note(str(note).lower()) == note


@given(pitches())
def test_a_pitch_written_is_read_again(pitch):
    """Writing and reading are reverses for every octave from -1 to 9."""
    assert read_pitch(str(pitch)) == pitch


@given(note_names(), note_names())
def test_notes_that_differ_on_the_line_of_fifths_differ_in_name(one, other):
    """No two places share a name, though they may sound alike."""
    assert (str(one) == str(other)) == (one == other)


@pytest.mark.parametrize(
    ("text", "midi"),
    [("C4", 60), ("A4", 69), ("C-1", 0), ("G9", 127), ("B#3", 60), ("Cb4", 59), ("Fx4", 67), ("E##4", 66)],
)
def test_pitches_have_their_midi_numbers(text, midi):
    """Middle C is C4 and 60; the octave number goes with the letter, so B#3 sounds as C4.

    Source: Young, "Terminology for Logarithmic Frequency Units", JASA 11, 1939, 134-139, for the octaves;
    the MIDI 1.0 specification for 60 as middle C. Both from memory.
    """
    assert read_pitch(text).midi == midi


@pytest.mark.parametrize(
    ("strings", "midi"),
    [
        ("G3 D4 A4 E5", (55, 62, 69, 76)),
        ("C3 G3 D4 A4", (48, 55, 62, 69)),
        ("C2 G2 D3 A3", (36, 43, 50, 57)),
        ("E1 A1 D2 G2", (28, 33, 38, 43)),
    ],
)
def test_open_strings_have_their_midi_numbers(strings, midi):
    """Violin, viola, cello and bass in their usual tunings. Common practice, no source."""
    assert tuple(read_pitch(text).midi for text in strings.split()) == midi


def test_frequencies_follow_equal_temperament():
    """A4 is 440 Hz and an octave doubles it.

    Source: ISO 16:1975 for A4. Middle C is 261.63 Hz, from memory.
    """
    assert read_pitch("A4").frequency_hz == 440
    assert read_pitch("A3").frequency_hz == 220
    assert read_pitch("C4").frequency_hz == pytest.approx(261.63, abs=0.005)


@pytest.mark.parametrize(
    ("low", "high", "semitones", "steps"),
    [
        ("G4", "B4", 4, 2),
        ("F#4", "A4", 3, 2),
        ("Bb3", "G4", 9, 5),
        ("B3", "G4", 8, 5),
        ("A3", "A4", 12, 7),
        ("C4", "D#4", 3, 1),
        ("C4", "Eb4", 3, 2),
        ("B3", "Cb4", 0, 1),
    ],
)
def test_intervals_have_their_sizes(low, high, semitones, steps):
    """Thirds, sixths and the octave as double stops, and two that only spelling tells apart.

    Common practice, no source.
    """
    interval = between(read_pitch(low), read_pitch(high))
    assert (interval.semitones, interval.steps) == (semitones, steps)


@pytest.mark.parametrize(
    ("text", "name"), [("F𝄪", "F##"), ("Fx", "F##"), ("B𝄫", "Bbb"), ("C♮", "C"), ("e♭", "Eb")]
)
def test_signs_of_print_are_read(text, name):
    """Double signs, a natural and small letters are read."""
    assert str(read_note(text)) == name


@pytest.mark.parametrize("text", ["H", "", "Cbb b", "C###", "Cb#", "5", "bB b"])
def test_what_is_no_note_is_refused(text):
    """The message names the text and shows how a note is written."""
    with pytest.raises(NoteFault, match=r"is no note name\. Write a letter A to G with b or #, as in 'Eb'\."):
        read_note(text)


@pytest.mark.parametrize("text", ["A", "4", "H4", "A10", "Bb 4x"])
def test_what_is_no_pitch_is_refused(text):
    """The message shows a pitch with its octave."""
    with pytest.raises(NoteFault, match=r"is no pitch\. Write a note and its octave, as in 'A3' or 'Bb4'\."):
        read_pitch(text)


def test_f_sharp_and_g_flat_are_two_notes_with_one_sound():
    """Spelling is never lost to sound."""
    sharp, flat = read_note("F#"), read_note("Gb")
    assert (sharp, flat) == (NoteName(6), NoteName(-6))
    assert sharp.pitch_class == flat.pitch_class == 6
    assert SpelledPitch(6, 4) != SpelledPitch(-6, 4)
