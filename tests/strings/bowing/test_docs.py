import contextlib
import io
import re
import textwrap
from pathlib import Path

import pytest

from fifthwise.strings.bowing import bowing_named, bowing_text, sign_of
from fifthwise.theory import read_metre

PAGE = (Path(__file__).parents[3] / "docs" / "bowing.md").read_text("utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)
LETTERS = {"down-bow": "down", "up-bow": "up", "same bow": "slurred"}


def test_the_example_on_the_page_prints_what_the_page_says():
    """The code of docs/bowing.md runs, and its output stands below it."""
    place = [language for language, _ in BLOCKS].index("python")
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        exec(BLOCKS[place][1], {})
    assert out.getvalue() == BLOCKS[place + 1][1]


@pytest.mark.parametrize(
    ("block", "name", "metre"),
    [
        (0, "simple shuffle", "4/4"),
        (0, "slur three, bow one", "4/4"),
        (0, "bow and chop", "4/4"),
        (0, "two and one", "6/8"),
        (1, "down on each group", "7/8 2+2+3"),
    ],
)
def test_the_patterns_on_the_page_are_those_of_the_table(block, name, metre):
    """Each pattern stands there under its counts, behind its name."""
    text = textwrap.indent(bowing_text(bowing_named(name, read_metre(metre))), " " * 21)
    assert name.ljust(21) + text.removeprefix(" " * 21) in BLOCKS[block][1]


def test_the_signs_on_the_page_have_the_letters_of_the_table():
    """Strokes of the first table are written with their own letters."""
    rows = re.findall(r"^\| ([a-z -]+) \| .* \| `(.)` \|", PAGE, re.MULTILINE)
    assert len(rows) == 6
    assert all(
        sign_of(LETTERS.get(stroke, stroke.removeprefix("hard "))).text == letter for stroke, letter in rows
    )
