"""One bar of bowing: its strokes at exact places.

Onsets and lengths are quarters as written: in swing an off-beat eighth stands half a quarter after its beat.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, get_args

from fifthwise.theory import Metre

__all__ = ["STROKES", "Bowing", "Stroke", "StrokeKind"]

StrokeKind = Literal["down", "up", "chop", "soft chop", "ghost", "rest", "slurred"]
STROKES: tuple[StrokeKind, ...] = get_args(StrokeKind)


@dataclass(frozen=True, slots=True)
class Stroke:
    """One stroke of the bow, or a silence.

    Attributes
    ----------
    onset, length : Fraction
        Place in the bar, and how long it lasts or rings, in quarters.
    kind : str
        One of ``STROKES``; ``slurred`` is a new note in the bow that goes on.
    accent : bool
        Whether it is heavier than its neighbours.
    """

    onset: Fraction
    length: Fraction
    kind: StrokeKind
    accent: bool = False


@dataclass(frozen=True, slots=True)
class Bowing:
    """A pattern for one bar.

    Attributes
    ----------
    name, words : str
        What it is called, and how it is played.
    feels : tuple of str
        The grooves that it is meant for.
    metre : Metre
        The bar's.
    strokes : tuple of Stroke
        They fill the bar. One that begins ``slurred`` is the last bow of the bar before, going on.
    """

    name: str
    words: str
    feels: tuple[str, ...]
    metre: Metre
    strokes: tuple[Stroke, ...]
