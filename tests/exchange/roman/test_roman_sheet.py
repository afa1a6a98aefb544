import time

import pytest

from fifthwise.chart import parse, write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.exchange.roman import is_roman_sheet, read_roman_sheet
from fifthwise.theory import Numbering, read_key, read_note, to_number, write_roman
from tests.harte import pop_songs, read_harte, song_labels

BLUES = """Blue Lamp
Key: A

[Verse]
| I7 | IV7 | I7 | % |
la la
| V7 / IV7 / | (I V) / / / | bVII . . vi | N.C. |

Chorus:
|: vi | V/V V | I :| x3
"""


def body(text, **wishes):
    """The chart's lines after its head, blanks settled and empty lines left out."""
    reading = read_roman_sheet(text, "song.txt", **wishes)
    assert reading.faults == ()
    lines = write_chart(reading.chart).split("---\n")[2].split("\n")
    return [" ".join(line.split()) for line in lines if line]


def test_a_sheet_in_numerals_becomes_numbers():
    """Sections, words, beats, repeats and applied chords, sevenths as on stage."""
    assert body(BLUES) == [
        "# Verse", "17 | 47 | 17 | %", "words: la la", "57 47 | (1 5) / / / | b7 / / 6- | NC",
        "# Chorus", "|: 6- | 2 5 | 1 :| x3",
    ]  # fmt: skip


def test_what_a_bare_seventh_was_taken_for_is_told():
    """As on stage, or as in analyses where figures show one; not where it was asked for."""
    stage, analysis = "T\n| I7 | V |", "T\n| I7 | V65 |"
    assert "as on stage" in " ".join(n.what for n in read_roman_sheet(stage, "f").notices)
    assert "as in analyses" in " ".join(n.what for n in read_roman_sheet(analysis, "f").notices)
    assert body(analysis) == ["1maj7 | 57/7"]
    asked = read_roman_sheet(stage, "f", read_key("C"), sevenths="minor")
    assert [n for n in asked.notices if "seventh" in n.what] == []


def test_a_minor_key_is_counted_as_is_asked():
    """A sheet without a key whose home is a small i is in minor."""
    assert body("T\n| i | VI | iv V7 | viio7 |") == ["6- | 4 | 2- 37 | #5o7"]
    assert body("T\n| i | VI |", numbering=Numbering("from-one")) == ["1- | b6"]


def test_a_slip_is_told_at_its_place():
    """The other bars stay."""
    (fault,) = read_roman_sheet("T\nKey: C\n| I | IQ | V |", "f").faults
    assert (fault.line, fault.column, fault.what) == (3, 7, "'IQ' is no chord")


def test_the_door_of_letters_reads_it_too():
    """Sheets in numerals are told from sheets in letters."""
    assert is_roman_sheet(BLUES)
    assert not is_roman_sheet("T\n| G | C |\n")
    assert not is_roman_sheet("I am\nV\n")
    assert read_letter_chart(BLUES, "song.txt").chart == read_roman_sheet(BLUES, "song.txt").chart


def test_pop_songs_in_numerals_are_the_same_chords():
    """Every tenth song, written in numerals and read again.

    Source: chords annotated in the McGill Billboard project, ISMIR 2011 (tests/data/README.md).
    """
    for song in pop_songs()[::10]:
        chords = [
            to_number(chord, read_note(tonic))
            for tonic, label in song_labels(song)
            if (chord := read_harte(label)) is not None
        ]
        text = "T\nKey: C\n" + "\n".join(f"| {write_roman(chord)} |" for chord in chords)
        reading = read_roman_sheet(text, "f", sevenths="minor")
        assert reading.faults == ()
        assert [bar.slots[0].chord for bar in reading.chart.sections[0].bars] == chords
        assert parse(write_chart(reading.chart)) == reading.chart


@pytest.mark.parametrize("bar", ["I | ", "V/V", "(I ", "/", "| ", "VII"], ids=ascii)
def test_a_hostile_sheet_is_read_in_good_time(bar):
    """Ten thousand of anything take no more than some seconds."""
    start = time.process_time()
    read_letter_chart("T\n| I | V |\n| " + bar * 10_000, "f")
    assert time.process_time() - start < 8
