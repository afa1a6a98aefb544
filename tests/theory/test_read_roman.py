import contextlib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import (
    ChordFault,
    NumberChord,
    Numbering,
    read_key,
    read_roman,
    to_letters,
    write_letters,
    write_number,
)
from tests.strategies import keys

FROM_ONE = Numbering("from-one")


def number(text, key="C", **wishes):
    """A numeral as a number; minor keys are counted from their tonic."""
    return write_number(read_roman(text, read_key(key), FROM_ONE, **wishes))


def letters(text, key):
    """A numeral as a chord in letters."""
    tonic = read_key(key).tonic
    return write_letters(to_letters(read_roman(text, read_key(key), FROM_ONE), tonic))


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("I", "1"), ("ii7", "2-7"), ("I7", "1maj7"), ("IV7", "4maj7"), ("V7", "57"), ("vi", "6-"),
        ("bVII", "b7"), ("IVd7", "47"), ("V65", "57/7"), ("V6/5", "57/7"), ("V4/3", "57/2"), ("V2", "57/4"),
        ("I6/4", "1/5"), ("I6", "1/3"), ("viio6", "7o/2"),
        ("vii/o7", "7ø7"), ("viiø65", "7ø7/2"), ("III+", "3+"),
        ("V/V", "2"), ("V7/V", "27"), ("V6/5/vi", "37/#5"), ("ii7/V", "6-7"), ("viio7/V", "#4o7"),
        ("viix7", "7o7"), ("iih7", "2ø7"), ("N6", "b2/4"), ("Cad64", "1/5"), ("Isus4", "1sus"), ("V9", "59"),
        ("♭VI", "b6"), ("vii°", "7o"), ("V[add9]", "5(add9)"), ("V/V/V", "6"), ("I/3", "1/3"),
    ],
)  # fmt: skip
def test_numerals_of_a_major_key(text, wanted):
    """Case is quality, figures give the bass, a seventh is the scale's. Common practice, no source."""
    assert number(text) == wanted


@pytest.mark.parametrize(
    ("text", "wanted"),
    [
        ("i", "Am"), ("i7", "Am7"), ("III", "C"),
        ("III7", "Cmaj7"), ("VI", "F"), ("VI7", "Fmaj7"), ("VII", "G"),
        ("VII7", "G7"), ("v", "Em"), ("V7", "E7"),
        ("viio6", "G#dim/B"), ("viio7", "G#dim7"), ("ii/o65", "Bm7b5/D"),
        ("iv6", "Dm/F"), ("III+6", "C+/E"), ("V7/III", "G7"),
        ("viio7/V", "D#dim7"), ("V/VII", "D"), ("bVI", "F"),
        ("#vii", "G#m"), ("vi", "F#m"), ("Ger65", "F7"),
        ("It6", "F7(no5)"), ("Fr43", "F7(b5)"), ("bII", "Bb"),
    ],
)  # fmt: skip
def test_numerals_of_a_minor_key(text, wanted):
    """6 and 7 are the scale's under major chords and raised under others. Common practice, no source."""
    assert letters(text, "Am") == wanted


def test_on_stage_a_bare_seventh_is_minor():
    """A blues in numerals has a dominant on I and IV."""
    assert [number(text, sevenths="minor") for text in ("I7", "IV7", "V7", "ii7")] == [
        "17",
        "47",
        "57",
        "2-7",
    ]


def test_a_minor_key_is_counted_as_is_asked():
    """In the relative major home is 6-."""
    assert write_number(read_roman("i", read_key("Am"))) == "6-"
    assert write_number(read_roman("VI", read_key("Am"))) == "4"


@pytest.mark.parametrize(
    "text", ["", "X", "IVI", "6-", "Am", "V7/", "/V", "Iq", "V" * 5000, "V" + "/V" * 5000]
)
def test_what_is_no_numeral_is_refused(text):
    """With what may be written."""
    with pytest.raises(ChordFault):
        read_roman(text, read_key("C"))


@given(st.text("IViv67/54#b+o°ødhx[]maj", max_size=12), keys())
def test_any_text_is_read_or_refused(text, key):
    """Nothing else is raised."""
    with contextlib.suppress(ChordFault):
        assert isinstance(read_roman(text, key), NumberChord)
