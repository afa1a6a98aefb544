import pytest

from fifthwise.chart import parse, read_chart, write_chart
from tests.chart.texts import chords_of, only_fault, song


@pytest.mark.parametrize(
    ("minor", "text"),
    [
        ("from-six", "6- | 4 | 1 | 5"),
        ("from-one", "1- | b6 | b3 | b7"),
        ("natural", "1- | 6 | 3 | 7"),
    ],
)
def test_one_minor_song_in_three_numberings_sounds_alike(minor, text):
    """A minor: Am F C G.

    Source: common practice, no source; a forum question lists all three.
    """
    chart = parse(song(text, key="Am", minor=minor))
    one = chart.numbering.one(chart.key)
    notes = [
        str(type(one)(slot.chord.root.fifths + one.fifths))
        for bar in chart.sections[0].bars
        for slot in bar.slots
    ]
    assert notes == ["A", "F", "C", "G"]


@pytest.mark.parametrize(
    ("minor", "numeral", "chord"),
    [("from-six", "VI", "6"), ("from-one", "bVI", "b6"), ("natural", "VI", "b6")],
)
def test_roman_numerals_count_as_the_song_does(minor, numeral, chord):
    """From six, VI is the relative major's six."""
    assert chords_of(numeral, key="Am", minor=minor) == [chord]


def test_letters_are_read_in_the_key_as_written_and_kept_as_numbers():
    """Bb7 in Eb is the 5 with a seven; in A minor, Am is 6-."""
    assert chords_of("Bb7 | Cm/Eb | F | N.C.", key="Eb") == ["57", "6-/1", "2", "NC"]
    assert chords_of("Am | F", key="A minor") == ["6-", "4"]
    assert chords_of("Am | F", key="A minor", minor="from-one") == ["1-", "b6"]


def test_letters_after_a_change_of_key_count_from_it():
    """Numbers always count from the key that holds."""
    assert chords_of("C | [key D] D | A", key="C") == ["1", "1", "5"]


def test_modes_count_from_their_tonic_with_real_alterations():
    """D mixolydian has a b7."""
    assert chords_of("D | C | G", key="D mixolydian") == ["1", "b7", "4"]


def test_the_settings_concern_minor_keys_alone():
    """In a major key 3 6 7 are what they are."""
    assert chords_of("3 | 6 | 7", minor="natural") == ["3", "6", "7"]
    assert chords_of("3 | 6 | 7", key="D dorian", minor="natural") == ["3", "6", "7"]


def test_natural_numbering_lowers_basses_and_sharps_too():
    """#6 is the major six."""
    assert chords_of("1-/7 | #6 | 3/6", key="Am", minor="natural") == ["1-/b7", "6", "b3/b6"]


def test_natural_numbering_tells_a_flat_that_is_flat_already():
    """b7 in natural numbering is the double flat."""
    (notice,) = read_chart(song("1- | b7", key="Am", minor="natural")).notices
    assert (notice.line, notice.column) == (6, 6)
    assert str(notice).splitlines()[0].endswith("Did you mean '7'?")


def test_plain_diatonic_takes_the_scales_triads():
    """2 3 6 are minor, 7 is diminished; a 7 stays a minor seventh; a suspended chord has no third."""
    assert chords_of("1 | 2 | 3 | 4 | 5 | 6 | 7", plain="diatonic") == ["1", "2-", "3-", "4", "5", "6-", "7o"]
    assert chords_of("27 | 57 | 17 | 77 | 2sus | b7", plain="diatonic") == [
        "2-7",
        "57",
        "17",
        "7ø7",
        "2sus",
        "b7",
    ]
    assert chords_of("1 | 3 | 6 | 7", key="Am", minor="natural", plain="diatonic") == ["1-", "b3", "b6", "b7"]


def test_plain_diatonic_writes_what_numbers_cannot_say_as_roman_numerals():
    """A major two in such a song is II, and is read again as such."""
    text = song("2 | II | 5 | V/3 | #iv", plain="diatonic")
    chart = parse(text)
    assert "2 | II | 5 | 5/3 | #4-" in write_chart(chart)
    assert parse(write_chart(chart)) == chart


def test_an_unknown_chord_among_others_does_not_hide_them():
    """The bar is lost, the others are read."""
    assert only_fault("1 | H7 | 4").what == "'H7' is no chord"
