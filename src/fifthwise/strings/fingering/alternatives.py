"""The next best fingerings, each different in what the player sees, in order of cost.

What is left after each found fingering is parted by the first note at which another one differs (Lawler,
Management Science 18(7), 1972; from memory). Where the hand lies under an open string is not seen, so
fingerings that differ in that alone are one.
"""

import heapq
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import count as counter

import numpy as np
from numpy.typing import NDArray

from fifthwise.strings.fingering.layers import Layers
from fifthwise.strings.fingering.search import Path, Suffix, suffix_of

__all__ = ["best_paths"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]


@dataclass(frozen=True, slots=True, order=True)
class _Part:
    """Fingerings that go with a found one up to ``note`` and show none of ``barred`` there; its best one."""

    cost: float
    order: int
    note: int = field(compare=False)
    row: int = field(compare=False)
    barred: frozenset[int] = field(compare=False)
    came: list[Ints] = field(compare=False)  # for each note, the row before each of its rows

    def rows(self, suffix: Suffix) -> tuple[int, ...]:
        """The rows of its best fingering."""
        before = [self.row]
        for note in range(self.note, 0, -1):
            before.append(int(self.came[note][before[-1]]))
        return tuple(reversed(before[1:])) + suffix.follow(self.note, self.row)


def best_paths(layers: Layers, count: int) -> Iterator[Path]:
    """Give the cheapest paths that show different fingers, the best first.

    Parameters
    ----------
    count : int
        How many at most; there are fewer where the hand has no other way.
    """
    suffix = suffix_of(layers)
    shown = [_shown(layers, note) for note in range(len(layers))]
    order = counter()
    queue = _whole(suffix, order)
    for _ in range(count):
        if not queue:
            return
        best = heapq.heappop(queue)
        rows = best.rows(suffix)
        yield Path(rows, best.cost)
        for part in _parts(layers, suffix, shown, best, rows, order):
            heapq.heappush(queue, part)


def _shown(layers: Layers, note: int) -> Ints:
    """Number what each row of a layer shows; the two of a unison in either order are one."""
    numbers: dict[object, int] = {}
    hands = layers.hands(note)
    keys = (
        (int(choice), frozenset(hand.stops)) for choice, hand in zip(hands.choices, hands.hands, strict=True)
    )
    return np.array([numbers.setdefault(key, len(numbers)) for key in keys], dtype=np.int64)


def _whole(suffix: Suffix, order: Iterator[int]) -> list[_Part]:
    """All fingerings as one part."""
    row = int(suffix.totals[0].argmin())
    cost = float(suffix.totals[0][row])
    return [_Part(cost, next(order), 0, row, frozenset(), [])] if np.isfinite(cost) else []


def _parts(
    layers: Layers,
    suffix: Suffix,
    shown: list[Ints],
    found: _Part,
    rows: tuple[int, ...],
    order: Iterator[int],
) -> Iterator[_Part]:
    """Part what is left beside a found fingering, by the first note at which others differ from it."""
    came: list[Ints] = []
    totals: Floats = np.zeros(1)
    for note, row in enumerate(rows):
        arriving, before = _arrive(layers, note, totals)
        came.append(before)
        same = shown[note] == shown[note][row]
        if note >= found.note:
            barred = (found.barred if note == found.note else frozenset()) | {int(shown[note][row])}
            ways = np.where(np.isin(shown[note], list(barred)), np.inf, arriving + suffix.totals[note])
            best = int(ways.argmin())
            if np.isfinite(ways[best]):
                yield _Part(float(ways[best]), next(order), note, best, barred, came)
        totals = np.where(same, arriving + layers.hands(note).costs, np.inf)


def _arrive(layers: Layers, note: int, totals: Floats) -> tuple[Floats, Ints]:
    """The cheapest way to each row of a layer, and the row that it comes from."""
    if note == 0:
        rows = layers.hands(0).costs.size
        return np.zeros(rows), np.zeros(rows, dtype=np.int64)
    ways = totals[:, None] + layers.moves(note)
    before = ways.argmin(axis=0)
    return ways[before, np.arange(before.size)], before
