"""Which pitches an instrument has at a level, and a note in every octave there."""

from collections.abc import Iterable
from functools import lru_cache
from itertools import pairwise, product

from fifthwise.strings.errors import LevelFault
from fifthwise.strings.frame import LEVELS, Level
from fifthwise.strings.hand import nearest_hand
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.place import Place
from fifthwise.theory import NoteName, SpelledPitch

__all__ = ["octaves_of", "reached", "together"]

SEMITONES = 12


@lru_cache(maxsize=64)
def reached(instrument: Instrument, level: Level) -> frozenset[int]:
    """The MIDI numbers that a hand of the level reaches.

    Raises
    ------
    LevelFault
        The level is not known.
    """
    if level not in LEVELS:
        raise LevelFault(f"'{level}' is no level", "level", f"Write {', '.join(LEVELS)}")
    return frozenset(
        own.midi + stop
        for string, own in enumerate(instrument.strings)
        for stop in range(instrument.highest + 1)
        if nearest_hand(instrument, Place(string, stop), level) is not None
    )


@lru_cache(maxsize=64)
def together(instrument: Instrument, level: Level) -> frozenset[tuple[int, int]]:
    """Pairs of MIDI numbers, low and high, that may be stopped together; all others are out of reach.

    They lie on neighbouring strings and no further apart than the widest shape of a hand.
    """
    frame = instrument.frame
    shapes = [(centre, shape) for centre in frame.centres(level) for shape in frame.shapes(centre)]
    top = max(centre + reach.offset for centre, shape in shapes for reach in shape.reaches)
    widest = max(
        one.offset - other.offset for _, shape in shapes for one, other in product(shape.reaches, repeat=2)
    )
    stops = range(min(top, instrument.highest) + 1)
    return frozenset(
        (min(low.midi + one, high.midi + other), max(low.midi + one, high.midi + other))
        for low, high in pairwise(instrument.strings)
        for one, other in product(stops, stops)
        if 0 in (one, other) or abs(one - other) <= widest
    )


def octaves_of(note: NoteName, sounds: Iterable[int]) -> tuple[SpelledPitch, ...]:
    """A note in every octave that is among some MIDI numbers, low to high."""
    base = SpelledPitch(note.fifths, 0)
    found = (divmod(sound - base.midi, SEMITONES) for sound in sorted(sounds))
    return tuple(SpelledPitch(note.fifths, octave) for octave, rest in found if rest == 0)
