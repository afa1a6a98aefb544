import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.chart import ChartFaults, phrase_chart, tune_bar_text, unfold
from fifthwise.theory import Numbering, read_key

TOKENS = st.sampled_from(
    ("1", "2", "b3", "5,", "6'", "#4", "(1 2)", "(1 b3, 2)", "3&5", "{2}3", "/5_", "x", "0")
)
C = read_key("C")


@given(st.lists(TOKENS, min_size=1, max_size=12))
def test_a_phrase_is_read_as_a_chart_reads_its_tune(tokens):
    """What is typed is what a bar of tune would hold, token for token."""
    bar = phrase_chart(" ".join(tokens), C).sections[0].lines[0].bars[0]
    assert tune_bar_text(bar).split() == " ".join(tokens).split()
    assert bar.length == len(tokens) or tokens == ["0"]


def test_bars_may_be_of_any_length():
    """A bar line parts the phrase; a bar lasts as many quarters as it has tokens."""
    chart = phrase_chart("| 5, 6, | 1 - - (3 2) 1 |", C)
    assert [bar.length for bar in chart.sections[0].bars] == [2, 5]
    assert [note.starts_at for note in unfold(chart).notes] == [0, 1, 2, 5, 5.5, 6]


def test_a_natural_minor_phrase_lowers_its_three():
    """In natural numbering a plain 3 of a minor key is the low one, as in a chart."""
    bar = phrase_chart("3", read_key("Am"), Numbering(minor="natural")).sections[0].bars[0]
    assert bar.tune is not None
    assert str(bar.tune[0].pitches[0].degree) == "b3"


@pytest.mark.parametrize(
    ("text", "column", "what"),
    [
        ("", 1, "empty"),
        ("5 9x", 3, "'9x' is no note of a tune"),
        ("5 (1 2", 3, "not closed"),
        ("- 1", 1, "nothing sounds before"),
        ("1 | | 2", 4, "empty"),
    ],
)
def test_a_fault_says_where_it_is(text, column, what):
    """Each fault of a phrase names its column and what is wrong."""
    with pytest.raises(ChartFaults, match=what) as caught:
        phrase_chart(text, C)
    assert caught.value.faults[0].column == column
