"""Number sheets with a letter alone on a line, which is a key or a part, and numbers in sheets of letters."""

import time

import pytest

from fifthwise.chart import write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.exchange.file_kinds import kind_of_text
from fifthwise.exchange.numbers import read_number_sheet


def body(reading):
    """The lines of a chart after its head."""
    return [line for line in write_chart(reading.chart).split("---\n")[2].split("\n") if line]


@pytest.mark.parametrize(
    ("letter", "key"), [("Em", "E minor"), ("G", "G"), ("Bb", "Bb"), ("F#m", "F# minor")]
)
def test_a_letter_under_the_title_is_the_key(letter, key):
    """The lines of numbers are bars, and the key is told."""
    sheet = f"Long road\n{letter}\n\n1 1 4 4\n5 5 1 1\n"
    assert kind_of_text(sheet, "road.txt") == "numbers"
    read = read_number_sheet(sheet, "road.txt")
    assert read.faults == ()
    assert (read.chart.title, str(read.chart.key)) == ("Long road", key)
    assert len(body(read.reading)) == 2
    assert f"line 2: '{letter}' is taken as the key" in read.told


def test_letters_between_lines_of_numbers_are_parts():
    """``V1`` and ``C`` alone on a line are headings, and no chords."""
    sheet = "Q\nV1\n1  4  6-  5\nC\n1 57 4 5\nV2\n1 4 1 4\n"
    assert kind_of_text(sheet, "q.txt") == "numbers"
    read = read_number_sheet(sheet, "q.txt")
    assert read.faults == ()
    assert [section.name for section in read.chart.sections] == ["V1", "C", "V2"]
    assert [len(section.bars) for section in read.chart.sections] == [4, 4, 4]


def test_parts_lettered_from_the_start_are_no_keys():
    """``A`` above the first bars is a part where ``B`` comes later."""
    read = read_number_sheet("Reel\nA\n1 4 5 1\nB\n4 4 1 5\n", "reel.txt")
    assert [section.name for section in read.chart.sections] == ["A", "B"]


def test_a_letter_in_brackets_is_a_part():
    """As the notice of a letter that is taken as the key says."""
    sheet = "Song\n[Em]\n1 4 5 1\nSolo\n4 4 1 1\n"
    assert kind_of_text(sheet, "song.txt") == "numbers"
    read = read_number_sheet(sheet, "song.txt")
    assert read.faults == ()
    assert [section.name for section in read.chart.sections] == ["Em", "Solo"]


def test_a_key_letter_between_bars_changes_the_key():
    """No part is called ``G``: the key changes there, and is told."""
    read = read_number_sheet("Reel\nKey: C\n1 4 5 1\nG\n4 4 1 5\n", "reel.txt")
    assert read.faults == ()
    assert "line 4: 'G' is taken as a new key" in read.told
    assert any("[key G" in line for line in body(read.reading))


def test_numbers_that_cannot_be_read_are_faulted_as_numbers():
    """A sheet of nothing but numbers is a number sheet however many are wrong."""
    sheet = "Q\nV1\n1---  4---  6-  5\nC\n1b7 4 5\n"
    assert kind_of_text(sheet, "q.txt") == "numbers"
    faults = read_number_sheet(sheet, "q.txt").faults
    assert (5, 1) in [(fault.line, fault.column) for fault in faults]
    assert {fault.line for fault in faults} <= {3, 5}


@pytest.mark.parametrize("bars", ["G C\nla la\nD G\n", "| G | C |\nla | la\n| D | G |\n"])
def test_numbers_among_letters_are_never_sung(bars):
    """They are left out and told."""
    sheet = f"Title\nKey: G\n{bars}1 1 4 4\n"
    assert kind_of_text(sheet, "song.txt") == "letters"
    reading = read_letter_chart(sheet, "song.txt")
    assert "the numbers '1 1 4 4' are left out" in [notice.what for notice in reading.notices]
    assert "1 1 4 4" not in write_chart(reading.chart)


def test_words_that_hold_a_number_are_sung():
    """Only a line of nothing but numbers is none."""
    reading = read_letter_chart("Title\nKey: G\n| G | C |\n1 lamp, 2 roads\n", "song.txt")
    assert "1 lamp, 2 roads" in write_chart(reading.chart)


@pytest.mark.parametrize("hostile", ["C\n", "V\n", "V1\n", "1", "1 ", "1-\n", "A\n1\n"])
def test_many_lone_lines_are_read_in_good_time(hostile):
    """Ten thousand take no more than some seconds."""
    sheet = f"Title\n1 4 5 1\n{hostile * 10_000}x"
    start = time.process_time()
    kind_of_text(sheet, "song.txt")
    read_letter_chart(f"Title\n| G |\n{sheet}", "song.txt")
    assert time.process_time() - start < 8
