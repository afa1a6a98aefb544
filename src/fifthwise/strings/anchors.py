"""From one place to 1, 5, 4 and 6-: the fastest way on any instrument, in any key.

In fifths the same finger has the 5 one string up and the 4 below one string down; in fourths the 4 lies one
string up and the 5 below one string down. The 6- is a whole step above the 5. None of this is assumed: each
place is looked for, and what lies under the same finger is found to be the least effort.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from fifthwise.strings.degrees import DegreePlace, degree_places
from fifthwise.strings.frame import LEVELS, OPEN, Frame, Level
from fifthwise.strings.hand import REACH_IN_STEPS, HeldFinger, fingers_at, nearest_hands
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.place import Place
from fifthwise.theory import Degree, Key, NoteName, NumberChord, Numbering, called_chords

__all__ = ["Anchor", "AnchorRoute", "anchor_routes"]

Relation = Literal["start", "same finger", "above the 5", "elsewhere"]
WHOLE_STEP = 2
# Prices, ours: a place away from the start's finger, each string between, a shift of the hand and each step.
ELSEWHERE, STRING, SHIFT, STEP = 0.5, 0.5, 1.0, 0.5


@dataclass(frozen=True, slots=True)
class Anchor:
    """The root of one of the four chords at its place.

    Attributes
    ----------
    chord : NumberChord
        ``1``, ``5``, ``4`` or ``6-``; in a minor key with home 1- the scale's own.
    relation : {'start', 'same finger', 'above the 5', 'elsewhere'}
        How it is found: from the 1, or from the 5 a whole step above it on its string.
    """

    chord: NumberChord
    at: DegreePlace
    finger: HeldFinger
    relation: Relation


@dataclass(frozen=True, slots=True)
class AnchorRoute:
    """A way from one place of the 1 to the 5, the 4 and the 6-, in this order.

    Attributes
    ----------
    centre : int
        The hand's at the start.
    effort : float
        0 is none: in the home position, each under the same finger.
    """

    anchors: tuple[Anchor, ...]
    centre: int
    effort: float


@dataclass(frozen=True, slots=True)
class _Search:
    """What is looked through for one key: each chord's root at its places, in the hand nearest home."""

    instrument: Instrument
    one: NoteName
    level: Level

    def nearest(self, degree: Degree) -> tuple[DegreePlace, ...]:
        """Places of a degree that a hand of the level reaches; where there is none, of the next wider one."""
        for level in LEVELS[LEVELS.index(self.level) :]:
            found = degree_places(self.instrument, (degree,), self.one, level=level)
            reached = tuple(place for place in found if place.fingers)
            if reached:
                return reached
        return ()

    def in_hand(self, degree: Degree, centre: int) -> tuple[DegreePlace, ...]:
        """Places of a degree that one hand reaches."""
        found = degree_places(self.instrument, (degree,), self.one, centre=centre)
        return tuple(place for place in found if place.fingers)


def anchor_routes(
    instrument: Instrument,
    key: Key,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
    *,
    level: Level = "first",
) -> tuple[AnchorRoute, ...]:
    """Every way from a 1 to the 5, the 4 and the 6-, the one of least effort first.

    Parameters
    ----------
    numbering : Numbering
        Decides what is 1, and which four chords a minor key is called in.
    level : Level
        How far the hand may go. Home is preferred, and a middle string, which has a neighbour on each side.

    Returns
    -------
    tuple of AnchorRoute
        One for each place of the 1 that the level reaches; if it reaches none, that a wider one reaches.
    """
    one, four, five, last = called_chords(key, numbering)
    search = _Search(instrument, numbering.one(key), level)
    found = [_best_route(search, start, (one, five, four, last)) for start in search.nearest(one.root)]
    known = [route for route in found if route is not None]
    return tuple(sorted(known, key=lambda route: (route.effort, route.anchors[0].at.place)))


def _best_route(search: _Search, start: DegreePlace, chords: tuple[NumberChord, ...]) -> AnchorRoute | None:
    """The best of the hands that take the start with equal ease."""
    hands = nearest_hands(search.instrument, start.place, search.level) or (start.fingers[0].centre,)
    starts = (_in_hand(search.instrument, start, hand) for hand in hands)
    routes = (_route(search, Anchor(chords[0], at, at.fingers[0], "start"), chords[1:]) for at in starts)
    found = [route for route in routes if route is not None]
    return min(found, key=lambda route: route.effort, default=None)


def _in_hand(instrument: Instrument, at: DegreePlace, centre: int) -> DegreePlace:
    return replace(at, fingers=fingers_at(instrument, at.place, at.pitch, centre))


def _route(search: _Search, first: Anchor, chords: tuple[NumberChord, ...]) -> AnchorRoute | None:
    anchors, effort = [first], _start_effort(search.instrument.frame, first.finger)
    for chord in chords:
        priced = list(_ways(search, chord, first, anchors))
        if not priced:
            return None
        price, anchor = min(priced, key=lambda way: (way[0], way[1].at.place))
        anchors.append(anchor)
        effort += price
    return AnchorRoute(tuple(anchors), first.finger.centre, round(effort, 6))


def _start_effort(frame: Frame, finger: HeldFinger) -> float:
    return min(abs(finger.centre - home) for home in frame.home) + REACH_IN_STEPS * finger.cost


def _ways(
    search: _Search, chord: NumberChord, start: Anchor, found: list[Anchor]
) -> Iterator[tuple[float, Anchor]]:
    """A chord's places with their prices: in the hand of the start, or with a shift where it has none."""
    five = found[1] if len(found) == len("154") else None
    here = search.in_hand(chord.root, start.finger.centre)
    for at in here or search.nearest(chord.root):
        finger = at.fingers[0]
        relation = _relation(at, finger, start, five)
        yield _price(at, finger, relation, start), Anchor(chord, at, finger, relation)


def _relation(at: DegreePlace, finger: HeldFinger, start: Anchor, five: Anchor | None) -> Relation:
    beside = abs(at.place.string - start.at.place.string) == 1
    if beside and at.place.stop == start.at.place.stop and finger.finger == start.finger.finger:
        return "same finger"
    above = None if five is None else Place(five.at.place.string, five.at.place.stop + WHOLE_STEP)
    return "above the 5" if at.place == above else "elsewhere"


def _price(at: DegreePlace, finger: HeldFinger, relation: Relation, start: Anchor) -> float:
    shift = abs(finger.centre - start.finger.centre) if finger.finger != OPEN else 0
    moved = SHIFT + STEP * shift if shift else 0.0
    if relation != "elsewhere":
        return moved
    strings = abs(at.place.string - start.at.place.string)
    reach = REACH_IN_STEPS * finger.cost
    return moved + ELSEWHERE + STRING * strings + reach
