import pytest

from fifthwise.chart import LARGEST_TEXT, ChartFaults, Fault, chart_text, parse, read_chart
from fifthwise.errors import FifthwiseError
from tests.chart.texts import song

MANY = """\
---
title: Slipway
key: H
tempoo: 96
---
# verse
1 | 4 5 1 | 6 - | 15
tune: 1 2 3
# chorus
|: 4 | 5.puhs
Some prose here
"""


def test_all_faults_come_at_once_in_text_order():
    """Each with its line and column."""
    found = read_chart(MANY).faults
    assert [(f.line, f.column, f.what) for f in found] == [
        (3, 6, "'H' is no key"),
        (4, 1, "unknown field 'tempoo'"),
        (7, 5, "3 chords cannot share 4 beats of 4/4 evenly"),
        (7, 13, "'6 -' is not clear"),
        (7, 19, "'15' is two numbers or an unknown chord"),
        (8, 1, "1 bar of tune for 4 bars"),
        (10, 1, "the repeat is not closed before its section ends"),
        (10, 9, "'.puhs' is no mark of a chord"),
        (11, 1, "this line is neither bars nor a heading"),
    ]


def test_the_rest_of_a_faulty_chart_stays_readable():
    """Sections, bars and chords are there, and the title."""
    chart = read_chart(MANY).chart
    assert chart.title == "Slipway"
    assert [(s.name, [len(bar.slots) for bar in s.bars]) for s in chart.sections] == [
        ("verse", [1, 0, 0, 0]),
        ("chorus", [1, 1]),
    ]


def test_parse_raises_all_faults_as_one():
    """It is a fifthwise fault, its first named, all of them in its words."""
    with pytest.raises(ChartFaults, match=r"tide\.chart\.md:7:5: 3 chords cannot share") as raised:
        parse(MANY, "tide.chart.md")
    assert isinstance(raised.value, FifthwiseError)
    assert len(raised.value.faults) == 9
    assert raised.value.where == "tide.chart.md, line 3, column 6"
    assert str(raised.value).count("^") >= 9


def test_a_fault_is_said_with_its_file_line_column_text_caret_and_mend():
    """Three lines that a player can read."""
    (fault,) = read_chart(song("1 | 4 5 1 | 6-"), "slipway.chart.md").faults
    assert str(fault) == (
        "slipway.chart.md:5:5: 3 chords cannot share 4 beats of 4/4 evenly. "
        "Say how long each lasts, as in '4 / 5 1'.\n"
        "  1 | 4 5 1 | 6-\n"
        "      ^^^^^"
    )


def test_a_question_keeps_its_mark():
    """No full stop after it."""
    (fault,) = read_chart(song("15")).faults
    assert str(fault).splitlines()[0].endswith("Did you mean '1 5' or '1(5)'?")


def test_a_long_line_is_shown_round_its_fault():
    """The caret still stands under it."""
    (fault,) = read_chart(song("1 | " * 100 + "x | " + "4 | " * 100)).faults
    _, shown, caret = str(fault).splitlines()
    assert fault.column == 401
    assert len(shown) <= 98
    assert shown[caret.index("^")] == "x"


def test_a_fault_at_the_end_of_a_line_is_underlined_no_further():
    """The carets end with the text."""
    fault = Fault("wrong", "Mend it", 1, 3, 50, "1 x", "tide")
    assert str(fault).splitlines()[2] == "    ^"


# Bytes


def test_utf8_with_and_without_a_mark_is_read():
    """Windows writes a mark before the text."""
    assert chart_text(b"\xef\xbb\xbf# \xc3\xb8", "tide") == "# ø"


@pytest.mark.parametrize(
    ("raw", "line", "column", "what", "fix"),
    [
        (b"1\n" * 5_000_000, 1, 1, "the file has 10.0 MB", "A chart may have 1 MB; split it"),
        (b"a" * (LARGEST_TEXT + 1), 1, 1, "the file has 1.0 MB", "A chart may have 1 MB; split it"),
        (b"---\nti\0tle", 2, 3, "the file holds NUL bytes", "Save it as plain UTF-8 text"),
        ("---\nøx\0".encode(), 2, 3, "the file holds NUL bytes", "Save it as plain UTF-8 text"),
        (b"---\ntitle: Bl\xe5", 2, 10, "the file is not UTF-8 text", "encoding UTF-8"),
        ("title: Ebb".encode("utf-16"), 1, 4, "the file holds NUL bytes", "Save it as plain UTF-8 text"),
    ],
)
def test_what_is_no_text_says_so(raw, line, column, what, fix):
    """Too large, NUL bytes, another encoding: with the place."""
    with pytest.raises(ChartFaults) as raised:
        chart_text(raw, "tide.chart.md")
    (fault,) = raised.value.faults
    assert (fault.line, fault.column, fault.what) == (line, column, what)
    assert fix in fault.fix
    assert str(fault).startswith(f"tide.chart.md:{line}:{column}: ")


def test_the_largest_text_is_read():
    """To the byte."""
    assert len(chart_text(b" " * LARGEST_TEXT, "tide")) == LARGEST_TEXT
