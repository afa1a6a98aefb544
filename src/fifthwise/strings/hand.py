"""A finger for a place: which a hand would take there, and which hand would go there."""

from dataclasses import dataclass

from fifthwise.strings.frame import OPEN, Frame, Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import finger_name, position_steps
from fifthwise.strings.place import Place
from fifthwise.theory import SpelledPitch, between

__all__ = ["HeldFinger", "fingers_at", "nearest_hand", "nearest_hands"]

# What a step of the hand away from home is worth against the cost of a reach: a low first finger stays at
# home, a fourth finger stretched by a semitone moves up.
REACH_IN_STEPS = 3.0


@dataclass(frozen=True, slots=True)
class HeldFinger:
    """One finger of a hand at a place.

    Attributes
    ----------
    finger : int
        1 to 4; 0 is open, -1 the thumb.
    centre : int
        Where the hand lies, in semitones above the open string.
    name : str
        ``1``, ``low 2``, ``high 3``; ``open``, ``thumb``.
    cost : float
        Of the reach and of the hand's shape.
    shape : str
        The shape of the hand that reaches with least cost, as the frame names it; empty for an open string.
    """

    finger: int
    centre: int
    name: str
    cost: float = 0.0
    shape: str = ""


def fingers_at(
    instrument: Instrument, place: Place, pitch: SpelledPitch, centre: int
) -> tuple[HeldFinger, ...]:
    """The fingers that a hand has for a place, the most natural first; none where it does not reach.

    On violin and viola spelling decides: the letters above the open string choose the finger where they can,
    so that in first position Db on the G string is a low fourth finger and C# a high third. Elsewhere, and
    where that finger does not reach, the cheapest comes first.

    Parameters
    ----------
    pitch : SpelledPitch
        What sounds there, as the key spells it.
    centre : int
        Of the hand, in semitones above the open string.
    """
    if place.stop == 0:
        return (HeldFinger(OPEN, centre, "open"),)
    frame, offset = instrument.frame, place.stop - centre
    costs = _costs(frame, centre, offset)
    spelled = _spelled_finger(instrument.strings[place.string], pitch, centre) if frame.plain else None
    ordered = sorted(costs, key=lambda finger: (finger != spelled, costs[finger][0], finger))
    return tuple(HeldFinger(f, centre, finger_name(frame, f, offset), *costs[f]) for f in ordered)


def _costs(frame: Frame, centre: int, offset: int) -> dict[int, tuple[float, str]]:
    """Each finger that reaches an offset, in its cheapest shape; double stops have shapes of their own."""
    found: dict[int, tuple[float, str]] = {}
    for shape in frame.shapes(centre):
        if shape.double:
            continue
        for reach in shape.reaches:
            if reach.offset == offset:
                way = (shape.cost + reach.cost, shape.name)
                found[reach.finger] = min(way, found.get(reach.finger, way))
    return found


def _spelled_finger(open_string: SpelledPitch, pitch: SpelledPitch, centre: int) -> int:
    """The finger whose letter a pitch is in a position; 0 or less, or above 4, where it is none's."""
    return between(open_string, pitch).steps - position_steps(centre) + 1


def nearest_hand(instrument: Instrument, place: Place, level: Level = "all") -> int | None:
    """The hand of a level that takes a place with the least trouble: near home, without a stretch.

    Returns
    -------
    int or None
        Its centre; None where no hand of the level reaches the place. An open string is at home.
    """
    return next(iter(nearest_hands(instrument, place, level)), None)


def nearest_hands(instrument: Instrument, place: Place, level: Level) -> tuple[int, ...]:
    """The centres of all hands that take a place with equally little trouble, the lowest first."""
    frame = instrument.frame
    if place.stop == 0:
        return tuple(sorted(home for home in frame.home if home in frame.centres(level)))
    efforts = {centre: _effort(frame, centre, place.stop) for centre in frame.centres(level)}
    reached = {centre: effort for centre, effort in efforts.items() if effort is not None}
    least = min(reached.values(), default=0.0)
    return tuple(centre for centre, effort in reached.items() if effort == least)


def _effort(frame: Frame, centre: int, stop: int) -> float | None:
    """Steps of the hand from home, and its cheapest reach; None out of reach."""
    costs = _costs(frame, centre, stop - centre)
    if not costs:
        return None
    reach, _ = min(costs.values())
    return min(abs(centre - home) for home in frame.home) + REACH_IN_STEPS * reach
