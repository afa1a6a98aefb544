import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import (
    LetterChord,
    NumberChord,
    quality_text,
    read_degree,
    read_letter_chord,
    read_note,
    read_number_chord,
    to_letters,
    write_letters,
    write_number,
    write_roman,
)
from tests.strategies import every_quality, keys, letter_chords, number_chords, numberings


@given(number_chords())
def test_a_number_written_is_read_again(chord):
    """Numbers keep the root, the quality and the bass."""
    assert read_number_chord(write_number(chord)) == chord


@given(number_chords(), st.booleans())
def test_a_numeral_written_is_read_again(chord, lowers):
    """Roman numerals do too, in natural minor numbering as well."""
    if within_reach(chord):
        assert read_number_chord(write_roman(chord, lowers=lowers), lowers=lowers) == chord


@given(letter_chords())
def test_letters_written_are_read_again(chord):
    """Letters do too."""
    assert read_letter_chord(write_letters(chord)) == chord


@given(number_chords(), keys(), numberings())
def test_a_number_written_for_a_song_is_read_so_in_the_song(chord, key, numbering):
    """Whatever plain numbers and 3, 6 and 7 mean there."""
    scale = numbering.scale(key) if numbering.plain == "diatonic" else ()
    lowers = numbering.lowers(key)
    if within_reach(chord):
        text = write_number(chord, scale=scale, lowers=lowers)
        assert read_number_chord(text, scale=scale, lowers=lowers) == chord


def within_reach(chord):
    """Natural numbering writes b3 as 3, so a ##3 would need three sharps."""
    return all(part is None or abs(part.alter) < 2 for part in (chord.root, chord.bass))


@pytest.mark.parametrize("quality", every_quality(1), ids=quality_text)
def test_every_quality_is_read_again(quality):
    """All triads with all bases and one change, as number, numeral and letters."""
    number, letters = NumberChord(read_degree("4"), quality), LetterChord(read_note("Bb"), quality)
    assert read_number_chord(write_number(number)) == number
    assert read_number_chord(write_roman(number)) == number
    assert read_letter_chord(write_letters(letters)) == letters


@pytest.mark.parametrize(
    ("number", "roman", "letters"),
    [
        ("1", "I", "C"),
        ("6-7", "vi7", "Am7"),
        ("b7", "bVII", "Bb"),
        ("7o", "viio", "Bdim"),
        ("7ø7", "viiø7", "Bm7b5"),
        ("7ø9", "viiø9", "Bm9(b5)"),
        ("5+7", "V+7", "G+7"),
        ("4maj7", "IVmaj7", "Fmaj7"),
        ("2-maj7", "iimaj7", "Dm(maj7)"),
        ("2-maj9(#11)", "iimaj9(#11)", "Dm(maj9 #11)"),
        ("16", "Iadd6", "C6"),
        ("169", "I69", "C69"),
        ("1(5)", "I(5)", "C5"),
        ("1(no3 no5)", "I(no3 no5)", "C(no3 no5)"),
        ("57(b9 #11)", "V7(b9 #11)", "G7(b9 #11)"),
        ("5/7", "V/7", "G/B"),
        ("57sus", "V7sus", "G7sus"),
        ("#4o7", "#ivo7", "F#dim7"),
    ],
)
def test_chords_are_written_in_one_settled_form(number, roman, letters):
    """In C, as number, Roman numeral and letters. The forms are our own choice among the usual ones."""
    chord = read_number_chord(number)
    assert write_number(chord) == number
    assert write_roman(chord) == roman
    assert write_letters(to_letters(chord, read_note("C"))) == letters
