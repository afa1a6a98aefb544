"""Fingers for a line: the best ones, and the next best."""

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from fifthwise.strings.fingering.alternatives import best_paths
from fifthwise.strings.fingering.check import check_level, check_places
from fifthwise.strings.fingering.costs import COSTS, LONG_S, SHORT_S, Costs
from fifthwise.strings.fingering.layers import Layers
from fifthwise.strings.fingering.line import Line, LineNote
from fifthwise.strings.fingering.moves import Link
from fifthwise.strings.fingering.neck import Neck, neck_of
from fifthwise.strings.fingering.reasons import shifts_of
from fifthwise.strings.fingering.result import FingeredNote, Fingering
from fifthwise.strings.fingering.search import Path, best_path
from fifthwise.strings.fingering.unplayable import barred_fault, no_hand_fault
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument

__all__ = ["finger_choices", "finger_line", "fingerings"]

Choices = tuple[LineNote, ...]


def finger_line(
    line: Line,
    instrument: Instrument,
    level: Level = "first",
    *,
    costs: Costs = COSTS,
    harmonics: bool = False,
) -> Fingering:
    """Find the best fingers for a line.

    Parameters
    ----------
    level : str
        Where the hand may lie: ``first`` position, ``half`` and first, up to ``third``, ``all``.
    costs : Costs
        What makes a fingering dear.
    harmonics : bool
        Whether natural harmonics may be used.

    Raises
    ------
    Unplayable
        A note lies beyond the strings or the level; says which, and the nearest way.
    LineFault
        More than two notes at once, notes out of order, or a pin that cannot be read.
    LevelFault
        The level is not known.

    References
    ----------
    Sayegh, Computer Music Journal 13(3), 1989: the optimum path (from memory).
    """
    places = tuple((note,) for note in line.notes)
    return finger_choices(places, line.tempo_bpm, instrument, level, costs=costs, harmonics=harmonics)


def finger_choices(
    places: tuple[Choices, ...],
    tempo_bpm: Fraction,
    instrument: Instrument,
    level: Level = "first",
    *,
    costs: Costs = COSTS,
    harmonics: bool = False,
) -> Fingering:
    """Find the best notes and fingers where each place of a line offers several notes.

    Parameters
    ----------
    places : tuple of tuple of LineNote
        The notes that each place offers; they share their time. What choosing one costs is its ``cost``.
    tempo_bpm : Fraction
        Quarters a minute.

    Raises
    ------
    Unplayable, LineFault, LevelFault
        As ``finger_line``.
    """
    check_level(level)
    if not places:
        return Fingering((), 0.0, ())
    layers = _layers(places, tempo_bpm, instrument, level, costs, harmonics=harmonics)
    path = best_path(layers)
    if path is None:
        raise barred_fault(layers, places)
    return _fingering(layers, places, path)


def fingerings(
    line: Line,
    instrument: Instrument,
    level: Level = "first",
    count: int = 3,
    *,
    costs: Costs = COSTS,
    harmonics: bool = False,
) -> tuple[Fingering, ...]:
    """Find the best fingerings of a line, each different from the others, in order of cost.

    Parameters
    ----------
    count : int
        How many at most; there are fewer where the hand has no other way.

    Raises
    ------
    Unplayable, LineFault, LevelFault
        As ``finger_line``.
    """
    check_level(level)
    if not line.notes:
        return (Fingering((), 0.0, ()),)[:count]
    places = tuple((note,) for note in line.notes)
    layers = _layers(places, line.tempo_bpm, instrument, level, costs, harmonics=harmonics)
    found = tuple(_fingering(layers, places, path) for path in best_paths(layers, count))
    if count > 0 and not found:
        raise barred_fault(layers, places)
    return found


def _layers(
    places: tuple[Choices, ...],
    tempo_bpm: Fraction,
    instrument: Instrument,
    level: Level,
    costs: Costs,
    *,
    harmonics: bool,
) -> Layers:
    check_places(places, tempo_bpm)
    neck = neck_of(instrument, level, costs, harmonics=harmonics)
    numbers = tuple(_numbers(neck, places, tempo_bpm))
    return Layers(neck, numbers, tuple(_links(places, tempo_bpm)))


def _numbers(neck: Neck, places: tuple[Choices, ...], tempo_bpm: Fraction) -> Iterator[int]:
    """The hands of each place; a place that no hand reaches is a fault."""
    longest = _quarters(LONG_S, tempo_bpm)
    for at, choices in enumerate(places):
        where = f"note {at + 1}"
        number = neck.number(choices, long=choices[0].length >= longest, where=where)
        if not neck.hands[number].hands:
            raise no_hand_fault(neck, choices, where)
        yield number


def _quarters(seconds: float, tempo_bpm: Fraction) -> Fraction:
    # Exact as it is written, and quicker to compare with a length than a float.
    return Fraction(str(seconds)) * tempo_bpm / 60


def _links(places: tuple[Choices, ...], tempo_bpm: Fraction) -> Iterator[Link]:
    """How each place is joined to the one before."""
    shortest = _quarters(SHORT_S, tempo_bpm)
    yield Link()
    for before, after in pairwise(places):
        old, new = before[0], after[0]
        rested = new.starts_at > old.starts_at + old.length
        short = new.starts_at - old.starts_at < shortest
        yield Link(old.slur and not rested, rested, short, new.on_beat or new.phrase_start)


def _fingering(layers: Layers, places: tuple[Choices, ...], path: Path) -> Fingering:
    notes = []
    for at, row in enumerate(path.rows):
        hands = layers.hands(at)
        hand = hands.hands[row]
        notes.append(
            FingeredNote(places[at][int(hands.choices[row])], hand.stops, hand.centre, hand.shape.name)
        )
    return Fingering(tuple(notes), path.cost, shifts_of(layers, path, tuple(notes)))
