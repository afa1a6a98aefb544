"""Lines that look like chords and were not understood, and what only follows from a faulty metre."""

import time

import pytest

from fifthwise.exchange import read_letter_chart
from fifthwise.exchange.letter_german import english_name
from tests.exchange.sheets import told

TILDES = "Em ~ G ~ Em*"


@pytest.mark.parametrize("intro", ["| G | C |", "G C"])
def test_a_section_whose_chords_are_not_understood_names_the_line(intro):
    """The first such line, what in it, and how to write it; not that the section has no bars."""
    sheet = f"Song\nKey: G\nIntro\n{intro}\nOutro\n{TILDES}\n"
    what = "'~' is no chord, so this line is not read as bars"
    fix = "Write the chords alone, as in '| Em | G | Em |'"
    assert told(read_letter_chart(sheet, "song.txt").faults) == [f"6:4: {what}. {fix}"]


def test_chords_under_a_section_named_again_are_not_lost():
    """They are a fault too, and not passed over for the bars of the section before."""
    sheet = f"Song\nKey: G\nIntro\n| G | C |\nVerse\n| D |\nIntro\n{TILDES}\n"
    assert [(f.line, f.column) for f in read_letter_chart(sheet, "song.txt").faults] == [(8, 4)]


def test_a_section_of_words_still_has_no_bars():
    """Words do not look like chords."""
    (fault,) = read_letter_chart("Song\nKey: G\n| G |\nOutro\nA day in a town\n", "song.txt").faults
    assert (fault.line, fault.what) == (4, "the section 'Outro' has no bars")


@pytest.mark.parametrize("time_line", ["Time: 7/8", "Time: foo", "Time: 99/4"])
def test_a_faulty_metre_is_told_alone(time_line):
    """How many beats the bars have only follows from it; what else is wrong is told."""
    sheet = f"Song\nKey: G\n{time_line}\n| G C D | am |\n"
    assert [fault.line for fault in read_letter_chart(sheet.replace("am", "Am"), "song.txt").faults] == [3]
    faults = read_letter_chart(sheet, "song.txt").faults
    assert [fault.line for fault in faults] == [3, 4]
    assert faults[1].what == "'am' is no chord"


def test_a_sheet_without_bars_names_the_line_most_like_chords():
    """And the first word of it that is no chord, with its English name where it is German."""
    (fault,) = read_letter_chart("Song\nKey: G\nla la\nH Fis\nla\n", "song.txt").faults
    assert (fault.line, fault.column, fault.mends) == (4, 1, ("B",))
    assert fault.what.startswith("there are no bars of chords; this line looks most like them, but 'H'")
    (fault,) = read_letter_chart(f"Song\nKey: G\n{TILDES}\n", "song.txt").faults
    assert (fault.line, fault.column) == (3, 4)


@pytest.mark.parametrize("chords", ["H Fis G", "E H E", "| G | H | Fis |"])
def test_german_names_beside_chords_are_faults_with_their_english_names(chords):
    """They are neither sung nor passed over."""
    reading = read_letter_chart(f"Song\nKey: G\n{chords}\nla la la\n", "song.txt")
    found = {fault.text[fault.column - 1 :].split()[0]: fault.mends for fault in reading.faults}
    wanted = {name: (english,) for name, english in (("H", "B"), ("Fis", "F#")) if name in chords}
    assert found == wanted


@pytest.mark.parametrize(
    ("german", "english"),
    [("H", "B"), ("Hm7", "Bm7"), ("Fis", "F#"), ("Cism", "C#m"), ("Des7", "Db7"), ("Es", "Eb"), ("As", None),
     ("His", None), ("This", None), ("Hey", None), ("G", None), ("Fish", None)],
)  # fmt: skip
def test_german_names(german, english):
    """DIN names of notes, from memory; what is an English word too is none."""
    assert english_name(german) == english


@pytest.mark.parametrize("hostile", ["G ~ ", "H ", "Outro\nG ~ G\n", "G ~ G\n", "G~" * 3])
def test_many_unread_lines_are_told_in_good_time(hostile):
    """Ten thousand take no more than some seconds."""
    start = time.process_time()
    read_letter_chart(f"Title\nOutro\n{hostile * 10_000}", "song.txt")
    assert time.process_time() - start < 8
