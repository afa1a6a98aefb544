"""Where a song moves to another key, section by section.

The cheapest road through the sections is taken: each section speaks for its tonics, and each move costs.
A move to the relative key or by a fifth is not looked for, since those keys share six or seven notes: a verse
that opens on the 6- has not left the key.
"""

from collections.abc import Sequence

__all__ = ["tonics_by_section"]

MOVE = 9.0  # what a move costs, in the unit of the scores
NEVER = float("inf")
SHARED = (0, 3, 5, 7, 9)  # semitones to keys that are not told apart, and to the key itself


def tonics_by_section(scores: Sequence[Sequence[float]], first: int, move: float = MOVE) -> list[int]:
    """The tonic of each section, as a pitch class.

    Parameters
    ----------
    scores : sequence of sequences of float
        How much each section speaks for each of the twelve tonics.
    first : int
        The tonic of the first section.
    move : float
        What a move costs.
    """
    best = [NEVER] * 12
    best[first] = 0.0
    came_from: list[list[int]] = []
    for section in scores[1:]:
        back = [_cheapest(best, tonic, move) for tonic in range(12)]
        best = [best[back[tonic]] + _cost(back[tonic], tonic, move) - section[tonic] for tonic in range(12)]
        came_from.append(back)
    road = [min(range(12), key=lambda tonic: best[tonic])]
    for back in reversed(came_from):
        road.append(back[road[-1]])
    return road[::-1] if scores else []


def _cheapest(best: Sequence[float], tonic: int, move: float) -> int:
    return min(range(12), key=lambda other: (best[other] + _cost(other, tonic, move), other != tonic))


def _cost(before: int, after: int, move: float) -> float:
    if before == after:
        return 0.0
    return NEVER if (after - before) % 12 in SHARED else move
