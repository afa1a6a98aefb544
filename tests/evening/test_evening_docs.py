"""The page about evenings shows an evening that is read, and names what is known."""

import re
from pathlib import Path

from fifthwise.evening import SHOWS, part_of, read_evening
from fifthwise.strings import LEVELS

PAGE = (Path(__file__).parents[2] / "docs" / "evening.md").read_text("utf-8")


def test_the_example_is_a_sound_evening():
    """It is read without a fault, with two singers and three players."""
    [example] = re.findall(r"^```yaml\n(.*?)^```", PAGE, re.DOTALL | re.MULTILINE)
    evening = read_evening(example)
    assert [len(evening.singers), len(evening.players), len(evening.songs)] == [2, 3, 3]


def test_the_instruments_levels_and_shows_are_known():
    """Every word that the tables give as a value is one."""
    [row] = re.findall(r"^\| `instrument` \| (.*) \|$", PAGE, re.MULTILINE)
    for name in re.findall(r"`([^`]+)`", row):
        assert part_of(name)
    assert all(f"`{word}`" in PAGE for word in (*SHOWS, *LEVELS))
