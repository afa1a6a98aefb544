import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import (
    Degree,
    LetterChord,
    NoteName,
    NumberChord,
    Numbering,
    chord_degrees,
    chord_notes,
    chord_tones,
    degree_of,
    pitch_classes,
    quality_tones,
    read_chord,
    read_key,
    read_letter_chord,
    read_note,
    recount,
    to_letters,
    to_number,
    write_letters,
    write_number,
)
from tests.strategies import letter_chords, note_names, number_chords

# The notes that charts count from: the 15 major tonics.
ONES = st.integers(-7, 7).map(NoteName)


def in_letters(numbers, key, numbering=Numbering()):  # noqa: B008 - frozen
    """Read numbers in a key and write them as letters."""
    name = read_key(key)
    chords = (read_chord(text, name, numbering) for text in numbers.split())
    return " ".join(write_letters(to_letters(chord, numbering.one(name))) for chord in chords)


@given(number_chords(), ONES)
def test_numbers_to_letters_and_back(chord, one):
    """A chord spelled in a key is counted as the number it came from."""
    assert to_number(to_letters(chord, one), one) == chord


@given(letter_chords(), ONES)
def test_letters_to_numbers_and_back_sound_the_same(chord, one):
    """The chord comes back as it was, or whole under its other name."""
    back = to_letters(to_number(chord, one), one)
    assert pitch_classes(back) == pitch_classes(chord)
    assert (back.root.fifths - chord.root.fifths) % 12 == 0
    if abs(degree_of(chord.root, one).alter) <= 2 and chord.bass is None:
        assert back == chord


@given(letter_chords(), ONES)
def test_counted_degrees_have_two_accidentals_at_most(chord, one):
    """A number that comes of letters within reach of each other can be written."""
    number = to_number(chord, one)
    if chord.bass is None or abs(chord.bass.fifths - chord.root.fifths) <= 12:
        assert abs(number.root.alter) <= 2
        assert number.bass is None or abs(number.bass.alter) <= 2


@given(number_chords(), note_names(), note_names())
def test_another_key_moves_every_note_alike(chord, one, other):
    """Re-keying adds the same interval to the root, to the bass and to each tone."""
    move = other.fifths - one.fifths
    before, after = chord_notes(to_letters(chord, one)), chord_notes(to_letters(chord, other))
    assert tuple(NoteName(note.fifths + move) for note in before) == after


@given(number_chords(), note_names(), st.integers(-5, 5))
def test_counting_from_another_one_names_the_same_chord(chord, one, by):
    """Recounted from a 1 so many fifths lower, the letters stay."""
    assert to_letters(recount(chord, by), NoteName(one.fifths - by)) == to_letters(chord, one)


@given(letter_chords())
def test_a_bass_sounds_and_is_no_tone_twice(chord):
    """The bass is among the notes, first if it is no chord tone; the tones follow in order."""
    notes = chord_notes(chord)
    tones = tuple(NoteName(chord.root.fifths + tone.fifths) for tone in chord_tones(chord))
    assert len(set(notes)) == len(notes)
    assert notes[-len(tones) :] == tones
    assert chord.bass is None or chord.bass in notes
    assert len(notes) <= len(tones) + 1


@given(number_chords(), note_names())
def test_degrees_and_notes_of_a_chord_agree(chord, one):
    """Each degree names the note that stands at its place."""
    notes = chord_notes(to_letters(chord, one))
    assert tuple(NoteName(one.fifths + degree.fifths) for degree in chord_degrees(chord)) == notes


@pytest.mark.parametrize(
    ("key", "numbers", "letters"),
    [
        ("C", "1 4 1 5", "C F C G"),
        ("Eb", "1 4 5 6-", "Eb Ab Bb Cm"),
        ("G", "5/7 4/1 b7 2-7", "D/F# C/G F Am7"),
        ("F", "4 5 6-", "Bb C Dm"),
        ("D", "6 6-", "B Bm"),
        ("D", "1 4 5 6-", "D G A Bm"),
        ("A", "1 4 5 6-", "A D E F#m"),
        ("E", "1 4 5 6-", "E A B C#m"),
        ("Bb", "1 4 5 6-", "Bb Eb F Gm"),
        ("B", "1 4 5 6-", "B E F# G#m"),
        ("Cb", "1 4 5 6-", "Cb Fb Gb Abm"),
        ("Gb", "1 4 5 6- 3-", "Gb Cb Db Ebm Bbm"),
        ("C#", "1 4 5 6- 5/7", "C# F# G# A#m G#/B#"),
        ("Ab", "b7 b6 b3 #4o", "Gb Fb Cb Ddim"),
    ],
)
def test_numbers_name_the_chords_of_a_key(key, numbers, letters):
    """A slash bass counts from the key, accidentals from its major scale. Common practice, no source."""
    assert in_letters(numbers, key) == letters


@pytest.mark.parametrize(
    ("way", "numbers"),
    [("from-six", "6- 4 1 5"), ("from-one", "1- b6 b3 b7"), ("natural", "1- 6 3 7")],
)
def test_a_minor_song_is_one_song_in_three_numberings(way, numbers):
    """A minor: Am F C G, whichever note is called 1. Common practice, no source."""
    assert in_letters(numbers, "Am", Numbering(way)) == "Am F C G"


def test_an_unusual_minor_key_is_spelled_in_sharps():
    """G# minor has a major seven-flat chord F#, and its dominant has a double sharp within.

    Common practice, no source.
    """
    assert in_letters("1- b7 b6 57", "G#m", Numbering("from-one")) == "G#m F# E D#7"
    dominant = read_letter_chord("D#7")
    assert [str(note) for note in chord_notes(dominant)] == ["D#", "F##", "A#", "C#"]


@pytest.mark.parametrize(
    ("number", "third", "seventh"), [("2-7", "F", "C"), ("57", "B", "F"), ("1maj7", "E", "B")]
)
def test_guide_tones_are_the_third_and_the_seventh(number, third, seventh):
    """In C: F and C over 2-7, B and F over 57, E and B over 1maj7. Common practice, no source."""
    chord = to_letters(read_chord(number, read_key("C")), read_note("C"))
    _, found_third, _, found_seventh = chord_notes(chord)
    assert (str(found_third), str(found_seventh)) == (third, seventh)


@pytest.mark.parametrize(
    ("key", "drones"),
    [
        ("G", "GD GE DA GE"),
        ("D", "DA GD AE D"),
        ("A", "AE DA E A"),
        ("C", "GE A GD AE"),
        ("F", "A D GE DA"),
        ("Bb", "D G A GD"),
        ("Eb", "G - D G"),
        ("E", "E AE - E"),
    ],
)
def test_open_strings_that_are_chord_tones(key, drones):
    """Which violin strings ring within 1, 4, 5 and 6-. By arithmetic from the tuning, no source."""
    one = read_note(key)
    for number, strings in zip(("1", "4", "5", "6-"), drones.split(), strict=True):
        notes = chord_notes(to_letters(read_chord(number, read_key(key)), one))
        assert [s for s in "GDAE" if read_note(s) in notes] == list(strings.replace("-", ""))


@given(ONES)
def test_no_note_is_in_the_one_the_four_and_the_five(one):
    """So a drone that never moves always makes a colour. By arithmetic, no source."""
    chords = [to_letters(NumberChord(Degree(fifths)), one) for fifths in (0, -1, 1)]
    assert not frozenset.intersection(*map(pitch_classes, chords))


@given(ONES)
def test_the_six_shares_two_tones_with_the_one_and_the_four(one):
    """6- has 1 and 3 in common with 1, and 6 and 1 with 4. Common practice, no source."""
    key = read_key(str(one))
    six, home, four = (pitch_classes(to_letters(read_chord(n, key), one)) for n in ("6-", "1", "4"))
    assert len(six & home) == len(six & four) == 2


@pytest.mark.parametrize(
    ("letters", "one", "number"),
    [
        ("B##", "C", "##7"),
        ("B##", "F", "#5"),
        ("Fbb", "C", "bb4"),
        ("Fbb", "G", "b6"),
        ("C/Fbb", "G", "#3/b6"),
    ],
)
def test_two_accidentals_are_the_most_that_a_number_has(letters, one, number):
    """At the edge a chord is counted as it is; one place beyond it is turned. By arithmetic, no source."""
    assert write_number(to_number(read_letter_chord(letters), read_note(one))) == number


def test_a_chord_too_far_out_is_counted_whole_under_its_other_name():
    """G##m over E## from Cb would need three sharps, so chord and bass turn by twelve fifths."""
    number = to_number(read_letter_chord("G##m/E##"), read_note("Cb"))
    assert write_number(number) == "#6-/##4"
    sounds = pitch_classes(to_letters(number, read_note("Cb")))
    assert sounds == pitch_classes(read_letter_chord("Am/F#"))


def test_a_bass_outside_the_chord_comes_first():
    """Bb/C is heard from C up. Common practice, no source."""
    chord = LetterChord(read_note("Bb"), bass=read_note("C"))
    assert [str(note) for note in chord_notes(chord)] == ["C", "Bb", "D", "F"]
    assert quality_tones(chord.quality) == chord_tones(chord)
