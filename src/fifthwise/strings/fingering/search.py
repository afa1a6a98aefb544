"""The best fingers for a line: an exact shortest path through layers of hands, one layer a note.

The path is found by dynamic programming (Viterbi, IEEE Transactions on Information Theory 13(2), 1967; from
memory).
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fifthwise.strings.fingering.layers import Layers

__all__ = ["Path", "Suffix", "best_path", "suffix_of"]

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]


@dataclass(frozen=True, slots=True)
class Path:
    """A row of each layer, and what they cost together."""

    rows: tuple[int, ...]
    cost: float


@dataclass(frozen=True, slots=True, eq=False)
class Suffix:
    """The best way on from every row of every layer.

    Attributes
    ----------
    totals : list of ndarray
        For each layer, shape (rows,): the cost from there to the end, the row's own included.
    onward : list of ndarray
        For each layer but the last, shape (rows,): the row that comes next.
    """

    totals: list[Floats]
    onward: list[Ints]

    def follow(self, note: int, row: int) -> tuple[int, ...]:
        """The rows from one row of a layer to the end."""
        rows = [row]
        for onward in self.onward[note:]:
            rows.append(int(onward[rows[-1]]))
        return tuple(rows)


def suffix_of(layers: Layers) -> Suffix:
    """Find the best way on from everywhere, the last note first."""
    totals, onward = [layers.hands(len(layers) - 1).costs], []
    for note in range(len(layers) - 1, 0, -1):
        ways = layers.moves(note) + totals[-1]
        best = ways.argmin(axis=1)
        onward.append(best)
        totals.append(ways[np.arange(best.size), best] + layers.hands(note - 1).costs)
    return Suffix(totals[::-1], onward[::-1])


def best_path(layers: Layers) -> Path | None:
    """The cheapest path, or ``None`` where every path is barred.

    Every layer must have a row.
    """
    suffix = suffix_of(layers)
    first = int(suffix.totals[0].argmin())
    cost = float(suffix.totals[0][first])
    return Path(suffix.follow(0, first), cost) if np.isfinite(cost) else None
