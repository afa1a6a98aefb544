"""A line as layers of hands: one layer a note, with what every move into it costs."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from fifthwise.strings.fingering.hands import Hands
from fifthwise.strings.fingering.moves import Link, moves_cost
from fifthwise.strings.fingering.neck import Neck

__all__ = ["Layers"]

Table = NDArray[np.float64]


@dataclass(frozen=True, slots=True)
class Layers:
    """The layers of a line.

    Attributes
    ----------
    numbers : tuple of int
        The neck's hands for each note.
    links : tuple of Link
        How each note is joined to the one before; the first is not asked for.
    """

    neck: Neck
    numbers: tuple[int, ...]
    links: tuple[Link, ...]

    def __len__(self) -> int:
        return len(self.numbers)

    def hands(self, note: int) -> Hands:
        """Every way to play a note."""
        return self.neck.hands[self.numbers[note]]

    def moves(self, note: int) -> Table:
        """What every move to a note from the one before costs, shape (rows before, rows)."""
        moves = self.neck.moves(self.numbers[note - 1], self.numbers[note])
        return moves_cost(moves, self.links[note], self.neck.costs)
