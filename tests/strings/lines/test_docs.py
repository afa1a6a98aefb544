"""The page about lines says what the program does."""

import re
from dataclasses import fields
from pathlib import Path

import pytest

from fifthwise.strings.lines import BASS, COMP, GUIDE, HARMONY, PAD, SECTION
from fifthwise.strings.lines.weights import BASS_COSTS, COMP_COSTS, GUIDE_COSTS, HARMONY_COSTS
from tests.cli.running import run

PAGE = (Path(__file__).parents[3] / "docs" / "lines.md").read_text("utf-8")
PARTS = dict(re.findall(r"^### ([^\n]+)\n\n(.*?)(?=\n###|\n\n[A-Z]|\Z)", PAGE, re.MULTILINE | re.DOTALL))


def weights(values):
    """Names and values in order."""
    return [(field.name, getattr(values, field.name)) for field in fields(values)]


@pytest.mark.parametrize(
    ("title", "values"), [("Comp", COMP), ("Bass", BASS), ("Second voice", HARMONY), ("Section", SECTION)]
)
def test_the_tables_of_weights_are_those_in_use(title, values):
    """Every weight stands under its line's heading, in order, with its value."""
    rows = re.findall(r"^\| `(\w+)` \| (\d+\.\d+) \|", PARTS[title], re.MULTILINE)
    assert [(name, float(value)) for name, value in rows] == weights(values)


def test_the_table_of_single_tones_is_the_one_in_use():
    """Two columns, guide line and pad."""
    rows = re.findall(r"^\| `(\w+)` \| (\d+\.\d+) \| (\d+\.\d+) \|", PARTS["Single tones"], re.MULTILINE)
    assert [(name, float(value)) for name, value, _ in rows] == weights(GUIDE)
    assert [(name, float(value)) for name, _, value in rows] == weights(PAD)


def test_what_motion_costs_is_as_the_page_says():
    """Comp, guide line, second voice and bass, and a repeated bass note."""
    said = re.search(
        r"costs ([\d.]+) in a comp, ([\d.]+) in a guide line, ([\d.]+) beside a tune and ([\d.]+)", PAGE
    )
    motions = [costs.motion for costs in (COMP_COSTS, GUIDE_COSTS, HARMONY_COSTS, BASS_COSTS)]
    assert [float(value) for value in said.groups()] == motions
    assert f"pays {BASS_COSTS.repeat:g} for a note that is repeated" in PAGE


def test_the_command_on_the_page_prints_what_the_page_says():
    """Its first bars stand below it."""
    (command, shown) = re.search(r"```\n\$ fifthwise (.*?)\n(.*?)```", PAGE, re.DOTALL).groups()
    assert run(*command.split()).out.startswith(shown)
