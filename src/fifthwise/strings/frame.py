"""How a hand lies on the strings: shapes of the hand, region by region, read from ``frames.toml``.

A hand's centre is where the first finger lies at its plain place, in semitones above the open string: 2 in
first position. Every finger's place is an offset from it.
"""

import tomllib
from dataclasses import dataclass
from functools import cache
from typing import Any, Literal, get_args

from fifthwise.strings.table import table_text

__all__ = ["LEVELS", "OPEN", "THUMB", "Frame", "HandShape", "Level", "Reach", "Region", "frame_of"]

Level = Literal["first", "half", "third", "all"]
LEVELS: tuple[Level, ...] = get_args(Level)
OPEN, THUMB = 0, -1


@dataclass(frozen=True, slots=True)
class Reach:
    """A place that a finger reaches: ``offset`` semitones above the hand's centre, at a cost."""

    finger: int
    offset: int
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class HandShape:
    """One shape of the hand.

    Attributes
    ----------
    name : str
        ``closed``, ``extended back`` …
    reaches : tuple of Reach
        In order of finger, then offset. Both notes of a double stop take one shape.
    cost : float
        Of the shape itself, whatever it stops.
    double : bool
        Whether the hand takes it for double stops alone.
    """

    name: str
    reaches: tuple[Reach, ...]
    cost: float = 0.0
    double: bool = False

    @property
    def by_thumb(self) -> bool:
        """Whether the thumb lies on the strings."""
        return self.reaches[0].finger == THUMB


@dataclass(frozen=True, slots=True)
class Region:
    """Hand centres ``low`` to ``high`` and the shapes that a hand may take there."""

    low: int
    high: int
    shapes: tuple[HandShape, ...]


@dataclass(frozen=True, slots=True)
class Frame:
    """How the hand lies on one family of instruments.

    Attributes
    ----------
    levels : tuple of (Level, (int, int))
        The lowest and the highest hand centre of each level.
    home : frozenset of int
        Centres at which a hand needs no reason to be.
    plain : tuple of (int, int)
        Fingers and their plain places above the centre, from which low and high are named; empty where
        fingers are not so named.
    """

    name: str
    levels: tuple[tuple[Level, tuple[int, int]], ...]
    home: frozenset[int]
    regions: tuple[Region, ...]
    plain: tuple[tuple[int, int], ...] = ()

    def centres(self, level: Level) -> range:
        """The hand centres of a level, in semitones above the open string."""
        low, high = dict(self.levels)[level]
        return range(low, high + 1)

    def shapes(self, centre: int) -> tuple[HandShape, ...]:
        """The shapes that a hand may take at a centre."""
        return tuple(s for r in self.regions if r.low <= centre <= r.high for s in r.shapes)


@cache
def _frames() -> dict[str, Frame]:
    text = table_text("frames.toml")
    return {name: _frame(name, row) for name, row in tomllib.loads(text).items()}


def frame_of(name: str) -> Frame:
    """The frame that an instrument's table names."""
    return _frames()[name]


def _frame(name: str, row: dict[str, Any]) -> Frame:
    levels = tuple((level, (row["levels"][level][0], row["levels"][level][1])) for level in LEVELS)
    regions = tuple(
        Region(region["from"], region["to"], tuple(_shape(shape) for shape in region["shape"]))
        for region in row["region"]
    )
    plain = tuple((int(finger), int(offset)) for finger, offset in row.get("plain", {}).items())
    return Frame(name, levels, frozenset(row["home"]), regions, plain)


def _shape(row: dict[str, Any]) -> HandShape:
    reaches = (
        Reach(int(finger), int(offset), float(cost))
        for finger, offsets in row.items()
        if finger not in ("name", "cost", "double")
        for offset, cost in offsets.items()
    )
    ordered = sorted(reaches, key=lambda reach: (reach.finger, reach.offset))
    return HandShape(row["name"], tuple(ordered), float(row.get("cost", 0.0)), row.get("double", False))
