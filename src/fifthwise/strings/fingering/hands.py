"""Every way in which a hand can play one note, as arrays: strings, stops, fingers and where the hand lies.

A row is one way. An open string leaves the hand where it is, so it has a row for every centre. A row of one
note uses one column, a row of a double stop two, in the order of the note's pitches.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from fifthwise.strings.fingering.costs import FOURTH_POSITION, Costs
from fifthwise.strings.fingering.pins import Pin
from fifthwise.strings.fingering.result import Stop
from fifthwise.strings.frame import OPEN, HandShape
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.naming import usual_finger
from fifthwise.strings.place import HARMONICS
from fifthwise.theory import SpelledPitch

__all__ = ["NO_STRING", "Hand", "Hands", "gather", "hands_of"]

Ints = NDArray[np.int64]
Floats = NDArray[np.float64]
NO_STRING = -9  # a column that a row does not use
LOWEST_OFFSET, HIGHEST_OFFSET = -1, 8  # no hand reaches further from its centre, in semitones
HIGHEST_PARTIAL = 4  # higher harmonics are unusual on short strings
# Semitones between two fingers that hold two strings: neighbours a minor third, next but one a major third,
# so that an octave takes first and fourth; the outer two a tenth's. From memory.
WIDEST = {1: 3, 2: 4}
OUTERMOST = 9


@dataclass(frozen=True, slots=True)
class Hand:
    """One way to play one note: its stops, where the hand lies and how, and what holding it costs."""

    stops: tuple[Stop, ...]
    centre: int
    shape: HandShape
    cost: float


@dataclass(frozen=True, slots=True, eq=False)
class Hands:
    """Every way to play one note.

    Attributes
    ----------
    hands : tuple of Hand
        Row by row.
    choices : ndarray, shape (rows,)
        Which of the notes offered for this place a row plays.
    strings, stops, fingers, sounds : ndarray, shape (rows, columns)
        ``NO_STRING`` where a row uses no such column; ``sounds`` are MIDI numbers.
    centres, bows, costs : ndarray, shape (rows,)
        Hand centres; the string that the bow is on (between two for a double stop); costs of holding.
    thumbs : ndarray of bool, shape (rows,)
        Whether the thumb lies on the strings.
    opens : ndarray of bool, shape (rows,)
        Whether nothing is stopped.
    kinds : ndarray, shape (kinds, 3)
        The different stops of all rows: string, stop, finger.
    places : ndarray, shape (rows, columns)
        Which of ``kinds`` stands there.
    """

    hands: tuple[Hand, ...]
    choices: Ints
    strings: Ints
    stops: Ints
    fingers: Ints
    sounds: Ints
    centres: Ints
    bows: Floats
    costs: Floats
    thumbs: NDArray[np.bool_]
    opens: NDArray[np.bool_]
    kinds: Ints
    places: Ints


def hands_of(
    instrument: Instrument,
    centres: range,
    pitches: tuple[SpelledPitch, ...],
    pins: tuple[Pin, ...],
    costs: Costs,
    *,
    long: bool = False,
    harmonics: bool = False,
) -> Iterator[Hand]:
    """Every way to play one pitch or two at once.

    Parameters
    ----------
    centres : range
        Where the hand may lie.
    pins : tuple of Pin
        One a pitch.
    long : bool
        Whether the note is long enough to want vibrato.
    harmonics : bool
        Whether natural harmonics may be used.
    """
    placings = [
        tuple(_placings(instrument, pitch, pin, harmonics=harmonics and len(pitches) == 1))
        for pitch, pin in zip(pitches, pins, strict=True)
    ]
    for placing in product(*placings):
        if _on_neighbours(placing):
            yield from _held(instrument, centres, pitches, placing, pins, costs, long=long)


@dataclass(frozen=True, slots=True)
class _Placing:
    """A pitch on one string."""

    string: int
    stop: int
    harmonic: int = 0


def _placings(
    instrument: Instrument, pitch: SpelledPitch, pin: Pin, *, harmonics: bool
) -> Iterator[_Placing]:
    for string, own in enumerate(instrument.strings):
        above = pitch.midi - own.midi
        if pin.strings is not None and string not in pin.strings:
            continue
        if 0 <= above <= instrument.highest:
            yield _Placing(string, above)
        if harmonics:
            yield from (
                _Placing(string, round(harmonic.touch), harmonic.partial)
                for harmonic in HARMONICS
                if harmonic.sounds == above and harmonic.partial <= HIGHEST_PARTIAL
            )


def _on_neighbours(placing: tuple[_Placing, ...]) -> bool:
    """A bow sounds two strings at once only where they lie side by side."""
    return len(placing) == 1 or abs(placing[0].string - placing[1].string) == 1


def _held(
    instrument: Instrument,
    centres: range,
    pitches: tuple[SpelledPitch, ...],
    placing: tuple[_Placing, ...],
    pins: tuple[Pin, ...],
    costs: Costs,
    *,
    long: bool,
) -> Iterator[Hand]:
    """A placing under every hand that can hold it."""
    if all(place.stop == 0 for place in placing):
        yield from _all_open(instrument, centres, placing, pins, costs, long=long)
        return
    stopped = [place.stop for place in placing if place.stop]
    lowest, highest = max(stopped) - HIGHEST_OFFSET, min(stopped) - LOWEST_OFFSET
    for centre in range(max(centres.start, lowest), min(centres.stop, highest + 1)):
        away = _away(instrument, centre, costs)
        for shape in instrument.frame.shapes(centre):
            if shape.double and len(placing) == 1:
                continue
            for fingers in _fingers(shape, centre, placing, pins):
                stops = tuple(
                    Stop(place.string, place.stop, finger, place.harmonic)
                    for place, (finger, _) in zip(placing, fingers, strict=True)
                )
                held = _holding(instrument, pitches, stops, centre, costs, long=long)
                yield Hand(stops, centre, shape, away + shape.cost + sum(f[1] for f in fingers) + held)


def _all_open(
    instrument: Instrument,
    centres: range,
    placing: tuple[_Placing, ...],
    pins: tuple[Pin, ...],
    costs: Costs,
    *,
    long: bool,
) -> Iterator[Hand]:
    if any(pin.finger not in (None, OPEN) for pin in pins):
        return
    stops = tuple(Stop(place.string, 0, OPEN) for place in placing)
    for centre in centres:
        # The thumb may stay on the strings meanwhile, or behind the neck.
        shapes = {shape.by_thumb: shape for shape in reversed(instrument.frame.shapes(centre))}
        for shape in shapes.values():
            yield Hand(stops, centre, shape, _away(instrument, centre, costs) + costs.long_open * long)


def _fingers(
    shape: HandShape, centre: int, placing: tuple[_Placing, ...], pins: tuple[Pin, ...]
) -> Iterator[tuple[tuple[int, float], ...]]:
    """Fingers and their reaches' costs for each place, in an order that a hand can take."""
    offered = []
    for place, pin in zip(placing, pins, strict=True):
        if place.stop == 0:
            found = [(OPEN, 0.0)]
        else:
            found = [(r.finger, r.cost) for r in shape.reaches if r.offset == place.stop - centre]
        offered.append([each for each in found if pin.finger in (None, each[0])])
    for fingers in product(*offered):
        if len(fingers) == 1 or _can_hold(placing, (fingers[0][0], fingers[1][0])):
            yield fingers


def _can_hold(placing: tuple[_Placing, ...], fingers: tuple[int, int]) -> bool:
    """Whether two fingers can stop two strings: the higher one nearer the bridge, and not too far away."""
    if OPEN in fingers:
        return True
    higher, apart = placing[1].stop - placing[0].stop, fingers[1] - fingers[0]
    if higher == 0 or apart == 0:
        return higher == apart
    return apart * higher > 0 and abs(higher) <= WIDEST.get(abs(apart), OUTERMOST)


def _away(instrument: Instrument, centre: int, costs: Costs) -> float:
    """What it costs to be there, whatever is played."""
    home = instrument.frame.home
    high = costs.height * max(0, centre - max(home)) + costs.high * max(0, centre - FOURTH_POSITION)
    return high + (0.0 if centre in home else costs.away)


def _holding(
    instrument: Instrument,
    pitches: tuple[SpelledPitch, ...],
    stops: tuple[Stop, ...],
    centre: int,
    costs: Costs,
    *,
    long: bool,
) -> float:
    """What the fingers cost beyond their reach."""
    frame = instrument.frame
    total = 0.0
    for pitch, stop in zip(pitches, stops, strict=True):
        if stop.finger == 4:
            total += costs.fourth + costs.long_fourth * long
        if stop.finger == OPEN:
            total += costs.long_open * long
        elif frame.plain and centre in frame.home and not stop.harmonic:
            total += costs.spelling * (usual_finger(instrument.strings[stop.string], pitch) != stop.finger)
        if stop.harmonic:
            total += costs.harmonic
    if len(stops) == 2 and stops[0].finger == stops[1].finger != OPEN:
        total += costs.barre
    return total


def gather(found: list[tuple[int, tuple[SpelledPitch, ...], float, Hand]]) -> Hands:
    """Put hands into arrays, each with the note it plays: its index, its pitches and its own cost."""
    columns = max((len(hand.stops) for _, _, _, hand in found), default=1)

    def table(values: list[list[int]]) -> Ints:
        rows = [row + [NO_STRING] * (columns - len(row)) for row in values]
        return np.array(rows, dtype=np.int64).reshape(-1, columns)

    hands = [hand for _, _, _, hand in found]
    kinds: dict[tuple[int, int, int], int] = {(NO_STRING,) * 3: 0}
    numbers = [
        [kinds.setdefault((stop.string, stop.stop, stop.finger), len(kinds)) for stop in hand.stops]
        for hand in hands
    ]
    return Hands(
        tuple(hands),
        np.array([choice for choice, _, _, _ in found], dtype=np.int64),
        table([[stop.string for stop in hand.stops] for hand in hands]),
        table([[stop.stop for stop in hand.stops] for hand in hands]),
        table([[stop.finger for stop in hand.stops] for hand in hands]),
        table([[pitch.midi for pitch in pitches] for _, pitches, _, _ in found]),
        np.array([hand.centre for hand in hands], dtype=np.int64),
        np.array([sum(stop.string for stop in hand.stops) / len(hand.stops) for hand in hands]),
        np.array([hand.cost + cost for _, _, cost, hand in found]),
        np.array([hand.shape.by_thumb for hand in hands], dtype=np.bool_),
        np.array([all(stop.finger == OPEN for stop in hand.stops) for hand in hands], dtype=np.bool_),
        np.array(list(kinds), dtype=np.int64),
        np.array([row + [0] * (columns - len(row)) for row in numbers], dtype=np.int64).reshape(-1, columns),
    )
