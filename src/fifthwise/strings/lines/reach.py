"""Which pitches an instrument has at a level, and a note in every octave there."""

from collections.abc import Iterable
from functools import lru_cache

from fifthwise.strings.errors import LevelFault
from fifthwise.strings.frame import LEVELS, Level
from fifthwise.strings.hand import nearest_hand
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.place import Place
from fifthwise.theory import NoteName, SpelledPitch

__all__ = ["octaves_of", "reached"]

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


def octaves_of(note: NoteName, sounds: Iterable[int]) -> tuple[SpelledPitch, ...]:
    """A note in every octave that is among some MIDI numbers, low to high."""
    base = SpelledPitch(note.fifths, 0)
    found = (divmod(sound - base.midi, SEMITONES) for sound in sorted(sounds))
    return tuple(SpelledPitch(note.fifths, octave) for octave, rest in found if rest == 0)
