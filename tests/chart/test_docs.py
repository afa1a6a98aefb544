"""The examples of docs/chart-text.md are what they say."""

import re
from pathlib import Path

import pytest

from fifthwise.chart import parse, read_chart, unfold, write_chart
from fifthwise.chart.head import FIELDS
from fifthwise.chart.model import MARKS

PAGE = (Path(__file__).parents[2] / "docs" / "chart-text.md").read_text(encoding="utf-8")
CHARTS = re.findall(r"^```chart\n(.*?)^```$", PAGE, re.DOTALL | re.MULTILINE)
FAULTS = re.findall(r"^```fault\n(.*?)^=> (.*?)\n```$", PAGE, re.DOTALL | re.MULTILINE)


def test_every_block_of_the_page_is_tested():
    """None is of another kind."""
    assert len(CHARTS) >= 9
    assert len(FAULTS) >= 5
    assert PAGE.count("```") == 2 * (len(CHARTS) + len(FAULTS))


@pytest.mark.parametrize("text", CHARTS)
def test_a_chart_of_the_page_is_sound(text):
    """It is read without a fault or a notice, unfolds, and comes back."""
    reading = read_chart(text)
    assert [str(fault) for fault in (*reading.faults, *reading.notices)] == []
    assert unfold(reading.chart).bars
    assert parse(write_chart(reading.chart)) == reading.chart


@pytest.mark.parametrize(("text", "said"), FAULTS)
def test_a_fault_of_the_page_is_said_in_those_words(text, said):
    """The first fault, what it is and how to mend it."""
    fault = read_chart(text).faults[0]
    assert str(fault).splitlines()[0].endswith(said)


def test_the_page_names_every_field_and_every_mark():
    """Nothing that the reader knows is left out."""
    assert [name for name in FIELDS if f"`{name}`" not in PAGE] == []
    assert [mark for mark in MARKS if f"`.{mark}`" not in PAGE and f".{mark}" not in PAGE] == []
