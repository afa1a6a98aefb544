"""The finger pattern that a key gives on each string: how far apart the fingers stand in one position."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise

from fifthwise.strings.degrees import degree_places
from fifthwise.strings.frame import THUMB, HandShape
from fifthwise.strings.instrument import Instrument
from fifthwise.theory import Key, Numbering

__all__ = ["FingerPattern", "finger_patterns"]

CLOSE, WIDE = 1, 3
STRETCHED = "extended"


@dataclass(frozen=True, slots=True)
class FingerPattern:
    """Where the fingers of one hand stand on a string to play a key's scale.

    Attributes
    ----------
    string : int
        Counted from the lowest, which is 0.
    fingers, stops : tuple of int
        Each finger that has a note of the scale, with its stop in semitones.
    shape : str
        The shape of the hand, as the frame names it.
    words : str
        What the hand feels: ``2 and 3 touch``, ``all apart``. On cello and bass, whose fingers are not named
        low and high, the fingers themselves: ``1 3 4``, ``1 2 4, extended``.
    """

    string: int
    fingers: tuple[int, ...]
    stops: tuple[int, ...]
    shape: str
    words: str

    @property
    def gaps(self) -> tuple[int, ...]:
        """Semitones from finger to finger: (2, 1, 2)."""
        return tuple(high - low for low, high in pairwise(self.stops))


def _words(fingers: tuple[int, ...], stops: tuple[int, ...], shape: str, instrument: Instrument) -> str:
    """Which fingers touch, on violin and viola; elsewhere which fingers have notes, and a stretched hand."""
    names = " ".join("thumb" if finger == THUMB else str(finger) for finger in fingers)
    if not instrument.frame.plain or len(fingers) == 1:
        return f"{names}, {shape}" if shape.startswith(STRETCHED) else names
    pairs = zip(pairwise(fingers), pairwise(stops), strict=True)
    told = [(low, high, above - below) for (low, high), (below, above) in pairs if high - low == 1]
    words = [f"{low} and {high} touch" for low, high, gap in told if gap == CLOSE]
    words += [f"{low} and {high} wide" for low, high, gap in told if gap >= WIDE]
    return ", ".join(words) or "all apart"


def finger_patterns(
    instrument: Instrument,
    key: Key,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
    *,
    centre: int = 2,
) -> tuple[FingerPattern, ...]:
    """The pattern of each string from the lowest, for a hand's centre (2 is first position).

    The hand takes the shape that plays most notes of the scale in a row, then the one with the least reach.
    A string on which the hand has no note of the scale is left out.
    """
    places = degree_places(instrument, numbering.scale(key), numbering.one(key), centre=centre)
    found = []
    for string in range(len(instrument.strings)):
        stops = [each.place.stop for each in places if each.place.string == string and each.place.stop]
        ways = [
            (-len(way), cost, way, shape.name)
            for shape in _shapes(instrument, centre)
            for cost, way in _ways(shape, stops, centre)
        ]
        if ways:
            _, _, way, shape_name = min(ways)
            fingers, reached = zip(*way, strict=True)
            words = _words(fingers, reached, shape_name, instrument)
            found.append(FingerPattern(string, fingers, reached, shape_name, words))
    return tuple(found)


def _shapes(instrument: Instrument, centre: int) -> tuple[HandShape, ...]:
    """The shapes of single stops; with the thumb on the string only where there is no other."""
    shapes = tuple(shape for shape in instrument.frame.shapes(centre) if not shape.double)
    free = tuple(s for s in shapes if all(reach.finger != THUMB for reach in s.reaches))
    return free or shapes


def _ways(
    shape: HandShape, stops: list[int], centre: int
) -> Iterator[tuple[float, tuple[tuple[int, int], ...]]]:
    """Fingers in order on stops that follow each other in the scale, with the cost of their reach."""
    fingers = {
        stop: [(reach.finger, reach.cost) for reach in shape.reaches if reach.offset == stop - centre]
        for stop in stops
    }
    ways: list[tuple[float, tuple[tuple[int, int], ...]]] = []
    for stop in stops:
        longer = [
            (cost + more, (*way, (finger, stop)))
            for cost, way in ways
            for finger, more in fingers[stop]
            if finger > way[-1][0]
        ]
        ways = [(shape.cost + cost, ((finger, stop),)) for finger, cost in fingers[stop]] + longer
        yield from ways
