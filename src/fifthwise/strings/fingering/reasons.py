"""Why the hand shifts: told by what would have been without the shift."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from fifthwise.strings.fingering.hands import Hand
from fifthwise.strings.fingering.layers import Layers
from fifthwise.strings.fingering.line import LineNote
from fifthwise.strings.fingering.result import FingeredNote, Shift
from fifthwise.strings.fingering.search import Path
from fifthwise.strings.frame import OPEN
from fifthwise.strings.naming import position_name

__all__ = ["shifts_of"]


def shifts_of(layers: Layers, path: Path, notes: tuple[FingeredNote, ...]) -> tuple[Shift, ...]:
    """Find where the hand of a path shifts, and why."""
    found = [at for at in range(1, len(notes)) if notes[at].centre != notes[at - 1].centre]
    ends = [*found[1:], len(notes)]
    return tuple(
        Shift(start, notes[start - 1].centre, notes[start].centre, _reason(layers, path, notes, start, end))
        for start, end in zip(found, ends, strict=False)  # no shifts, no ends
    )


def _reason(layers: Layers, path: Path, notes: tuple[FingeredNote, ...], start: int, end: int) -> str:
    """Why the hand moves at ``start`` and stays until ``end``."""
    old = notes[start - 1].centre
    for at in range(start, end):
        if not _rows_there(layers, path, at, old).size:
            pitches = " with ".join(str(pitch) for pitch in notes[at].note.pitches)
            ahead = "" if at == start else f" {_ahead(at - start)}"
            pinned = " as pinned" if _free_rows_there(layers, notes[at].note, old) else ""
            return f"{pitches}{ahead}{pinned} is out of reach in {position_name(old)} position"
    stayed = _stayed(layers, path, start, end, old)
    if stayed is None:
        return f"the fingers would cross in {position_name(old)} position"
    home = layers.neck.instrument.frame.home
    back = f"back to {position_name(notes[start].centre)} position"
    return _gain(layers, path, stayed, start, end) or (back if notes[start].centre in home else "less work")


def _ahead(notes: int) -> str:
    return "next" if notes == 1 else f"{notes} notes on"


def _rows_there(
    layers: Layers, path: Path, at: int, centre: int
) -> "np.ndarray[tuple[int, ...], np.dtype[np.intp]]":
    """Rows of a layer that play what the path plays with the hand at a centre."""
    hands = layers.hands(at)
    same = hands.choices == hands.choices[path.rows[at]]
    return np.flatnonzero(same & (hands.centres == centre))


def _free_rows_there(layers: Layers, note: LineNote, centre: int) -> bool:
    """Whether a hand at a centre could play a note but for its pins."""
    if not note.pins:
        return False
    neck = layers.neck
    free = neck.number((replace(note, pins=()),), long=False, where="")
    return bool((neck.hands[free].centres == centre).any())


def _stayed(layers: Layers, path: Path, start: int, end: int, centre: int) -> list[int] | None:
    """The best rows from ``start`` to ``end`` with the hand left where it was; ``None`` if there are none."""
    before = np.array([path.rows[start - 1]])
    totals, came = np.zeros(1), []
    for at in range(start, end):
        rows = _rows_there(layers, path, at, centre)
        ways = totals[:, None] + layers.moves(at)[np.ix_(before, rows)]
        best = ways.argmin(axis=0)
        came.append((before, best))
        totals = ways[best, np.arange(rows.size)] + layers.hands(at).costs[rows]
        before = rows
    if not np.isfinite(totals).any():
        return None
    at, rows_back = int(totals.argmin()), []
    for rows, best in [*reversed(came)]:
        rows_back.append(int(before[at]))
        before, at = rows, int(best[at])
    return rows_back[::-1]


@dataclass(frozen=True, slots=True)
class _Work:
    """What a stretch of a line asks of the hands."""

    fourths: float
    crossings: float
    hops: float
    opens: float


def _work(hands: list[Hand]) -> _Work:
    fingers = [[stop.finger for stop in hand.stops] for hand in hands[1:]]
    return _Work(
        sum(each.count(4) for each in fingers),
        sum(abs(_bow(new) - _bow(old)) for old, new in pairwise(hands)),
        sum(_hops(old, new) for old, new in pairwise(hands)),
        sum(each.count(OPEN) for each in fingers),
    )


def _bow(hand: Hand) -> float:
    return sum(stop.string for stop in hand.stops) / len(hand.stops)


def _hops(old: Hand, new: Hand) -> int:
    return sum(
        a.finger == b.finger != OPEN and abs(a.string - b.string) == 1 for a in old.stops for b in new.stops
    )


def _gain(layers: Layers, path: Path, stayed: list[int], start: int, end: int) -> str:
    """What the shift spares, in words; empty where it is nothing that a player would name."""
    first = layers.hands(start - 1).hands[path.rows[start - 1]]
    taken = _work([first, *(layers.hands(at).hands[path.rows[at]] for at in range(start, end))])
    left = _work(
        [first, *(layers.hands(at).hands[row] for at, row in zip(range(start, end), stayed, strict=True))]
    )
    spared = dict(_spared(layers, taken, left))
    best = max(spared, key=lambda words: spared[words], default="")
    return best if best and spared[best] > 0 else ""


def _spared(layers: Layers, taken: _Work, left: _Work) -> Iterator[tuple[str, float]]:
    costs = layers.neck.costs
    crossings = left.crossings - taken.crossings
    yield "spares the fourth finger", costs.fourth * (left.fourths - taken.fourths)
    yield "stays on one string" if crossings >= 1 else "fewer string crossings", costs.crossing * crossings
    yield "no finger hops to the next string", costs.hop * (left.hops - taken.hops)
    yield "a stopped note, not an open string", costs.long_open * (left.opens - taken.opens)
