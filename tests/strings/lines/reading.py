"""Lines as short texts, and what a brute force over choices gives."""

import itertools

import numpy as np

from tests.strings.fingering.reference import every_hand, every_path, move

__all__ = ["cheapest", "line_fingers", "line_pitches"]


def line_pitches(line):
    """The pitches of a chart line: two at once are joined by a plus sign."""
    return " ".join("+".join(map(str, note.note.pitches)) for note in line.fingering.notes)


def line_fingers(line):
    """The fingers of a chart line, low to high: ``3,1 2,0``."""
    return " ".join(",".join(str(stop.finger) for stop in note.stops) for note in line.fingering.notes)


def cheapest(places, instrument, level, costs, tempo):
    """The least that any choice of notes with any fingers costs, by trying every one.

    The costs of hands and moves are those of ``tests/strings/fingering/reference.py``.
    """
    rows = [
        [(note, hand) for note in choices for hand in every_hand(note, instrument, level, costs, tempo)]
        for choices in places
    ]
    layers = [[_Cost(hand.cost + note.cost) for note, hand in row] for row in rows]
    moves = [
        np.array([[move(a, b, old, new, costs, tempo) for new, b in after] for old, a in before], dtype=float)
        for before, after in itertools.pairwise(rows)
    ]
    return float(every_path(layers, moves).min())


class _Cost:
    """A row with its cost."""

    def __init__(self, cost):
        self.cost = cost
