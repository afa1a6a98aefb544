import contextlib
import io
import re
from dataclasses import fields
from pathlib import Path

import pytest

from fifthwise.strings import LEVELS, instrument_of
from fifthwise.strings.fingering import COSTS, LONG_S, SHORT_S
from fifthwise.strings.fingering.pins import read_pin
from tests.cli.running import run

PAGE = (Path(__file__).parents[3] / "docs" / "fingering.md").read_text("utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", PAGE, re.MULTILINE | re.DOTALL)


def test_the_table_of_weights_is_the_one_in_use():
    """Every weight stands on the page once, in order, with its value."""
    rows = re.findall(r"^\| `(\w+)` \| (\d+\.\d+) \|", PAGE, re.MULTILINE)
    assert [(name, float(value)) for name, value in rows] == [
        (field.name, getattr(COSTS, field.name)) for field in fields(COSTS)
    ]


def test_long_and_short_are_as_the_page_says():
    """The two lengths stand there in seconds."""
    assert f"A long note is one of {LONG_S:g} s or more, a short one of less\nthan {SHORT_S:g} s." in PAGE


def test_the_table_of_levels_is_the_violins():
    """Every level with its centres."""
    rows = re.findall(r"^\| `(\w+)` \| ([\d to]+) \|", PAGE, re.MULTILINE)
    frame = instrument_of("violin").frame
    centres = [frame.centres(level) for level in LEVELS]
    said = [f"{each[0]} to {each[-1]}" if len(each) > 1 else str(each[0]) for each in centres]
    assert [row for row in rows if row[0] in LEVELS] == list(zip(LEVELS, said, strict=True))


@pytest.mark.parametrize("pin", re.findall(r"^\| `([A-GT\d.]+)` \| [a-z]", PAGE, re.MULTILINE))
def test_the_pins_on_the_page_can_be_read(pin):
    """Each is a pin on a violin."""
    assert read_pin(pin, instrument_of("violin"), "pin") is not None


def test_the_code_on_the_page_prints_what_the_page_says():
    """The example runs, and its output stands below it."""
    place = [language for language, _ in BLOCKS].index("python")
    out = io.StringIO()
    with contextlib.redirect_stdout(out):
        exec(BLOCKS[place][1], {})
    assert out.getvalue() == BLOCKS[place + 1][1]


def test_the_command_on_the_page_prints_what_the_page_says():
    """Its answer stands below it."""
    (command, shown) = re.search(r"```\n\$ fifthwise (.*?)\n(.*?)```", PAGE, re.DOTALL).groups()
    words = re.findall(r'"([^"]*)"|(\S+)', command)
    assert run(*(quoted or plain for quoted, plain in words)).out == shown
