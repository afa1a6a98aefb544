import pytest

from fifthwise.page import lay_out
from tests.page.songs import lantern, long_song, song


def columns(sheet, section=0):
    """The columns of every row of a section."""
    return [[bar.column for bar in row.bars] for row in sheet.sections[section].rows]


def test_a_line_of_the_text_is_a_row():
    """A line end is a bar line and is kept on the page."""
    assert columns(lay_out(song("1 | 4\n5 | 1 | 4"))) == [[0, 1], [0, 1, 2]]


def test_a_narrow_page_goes_on_in_the_next_row():
    """With two columns a line of four bars fills two rows."""
    assert columns(lay_out(song("1 | 4 | 5 | 1"), columns=2)) == [[0, 1], [0, 1]]


def test_a_wide_page_puts_short_lines_together():
    """With eight columns two lines of four bars share a row, and a third does not."""
    chart = song("1 | 4 | 5 | 1\n4 | 4 | 5 | 5\n1 | 1 | 1 | 1")
    assert columns(lay_out(chart, columns=8)) == [list(range(8)), [0, 1, 2, 3]]


@pytest.mark.parametrize(("line", "expected"), [("1 | 4 | 5", 3), ("1 | 4 | 5 | 1 | 5", 5), ("1 | 4", 4)])
def test_the_usual_columns_are_those_of_the_text(line, expected):
    """A song written in lines of three, five or six bars is printed so; any other in fours."""
    assert lay_out(song(line)).columns == expected


def test_a_second_ending_stands_under_the_first():
    """It begins in the first one's column, and only the first comes down at its end."""
    rows = lay_out(lantern()).sections[2].rows
    assert [[bar.column for bar in row.bars] for row in rows] == [[0, 1, 2, 3], [0, 1, 2, 3], [2, 3]]
    first, second = rows[1].brackets[0], rows[2].brackets[0]
    assert (first.label, first.first, first.last, first.closes) == ("1.", 2, 3, True)
    assert (second.label, second.first, second.last, second.closes) == ("2.", 2, 3, False)


def test_an_ending_without_room_begins_a_row():
    """An ending of three bars is not broken after its first."""
    sheet = lay_out(song("|: 1 | 4 | [1.] 5 | 5 | 1 :| [2.] 1 ||"))
    assert columns(sheet) == [[0, 1], [0, 1, 2], [0]]


def test_a_longer_second_ending_moves_left():
    """It stays whole, beginning as near under the first as it can."""
    sheet = lay_out(song("|: 1 | 4 | 5 | [1.] 1 :| [2.] 1 | 4 | 1 ||"))
    assert columns(sheet) == [[0, 1, 2, 3], [1, 2, 3]]


def test_three_endings_of_different_lengths():
    """All stand under the first, each with its own number."""
    sheet = lay_out(song("|: 1 | 4 | [1.] 5 | 5 :| [2.] 4 :| [3.] 1 | 1 ||"))
    assert columns(sheet) == [[0, 1, 2, 3], [2], [2, 3]]
    assert [row.brackets[0].label for row in sheet.sections[0].rows] == ["1.", "2.", "3."]


def test_a_pickup_hangs_before_the_first_column():
    """It takes no column, even where it has a line of the text to itself."""
    row = lay_out(lantern()).sections[1].rows[0]
    assert row.pickup is not None
    assert row.pickup.column == -1
    assert [bar.column for bar in row.bars] == [0, 1, 2, 3]


@pytest.mark.parametrize("wide", [1, 2, 3, 4, 5, 8])
def test_every_bar_is_laid_down_once(wide):
    """Whatever the width, each bar of each section stands on the page once, within the columns."""
    for chart in (lantern(), long_song(37)):
        sheet = lay_out(chart, columns=wide)
        for written, section in zip(chart.sections, sheet.sections, strict=True):
            laid = [b for row in section.rows for b in ((row.pickup,) if row.pickup else ()) + row.bars]
            assert [bar.bar for bar in laid] == list(range(len(written.bars)))
            assert all(bar.column < wide for bar in laid)
