"""A small evening on disk, for the commands."""

from pathlib import Path

__all__ = ["SONG", "small_evening"]

SONG = """---
title: Rope Walk
key: C
octave: 4
---
# verse
1 | 4 | 5/7 | 1
tune: 1 2 3 - | 4 - 6 - | 5 4 3 2 | 1' - - 0
words: down the rope walk in the early dark we go
"""
SECOND = """---
title: Slow Bell
key: A minor
meter: 3/4
---
6- | 4 | 1 | 5
"""
EVENING = """evening: Small night
date: 2026-12-05
singers:
  Wenke: {usable: F3-D5, comfort: A3-Bb4}
players:
  Isa: {instrument: violin}
  Ole: {instrument: guitar, capo: yes}
  Lotte: {instrument: trumpet in Bb}
songs:
  - {chart: rope.chart.md, singer: Wenke, counts-in: Isa}
  - {chart: bell.chart.md}
"""


def small_evening(folder: Path) -> Path:
    """Write the evening and its two songs; returns the evening's file."""
    (folder / "rope.chart.md").write_text(SONG, "utf-8")
    (folder / "bell.chart.md").write_text(SECOND, "utf-8")
    (folder / "small.set.yaml").write_text(EVENING, "utf-8")
    return folder / "small.set.yaml"
