"""Places on the strings: a string, and a stop in semitones above it; open is 0."""

from dataclasses import dataclass

from fifthwise.strings.instrument import Instrument
from fifthwise.theory import SpelledPitch

__all__ = ["HARMONICS", "Harmonic", "Place", "harmonics_of", "midi_at", "places_of", "stop_mm"]


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """Where a string is stopped.

    Attributes
    ----------
    string : int
        Counted from the lowest, which is 0.
    stop : int
        Semitones above the open string; 0 is open.
    """

    string: int
    stop: int


@dataclass(frozen=True, slots=True)
class Harmonic:
    """A natural harmonic: the string is touched there, not stopped.

    Attributes
    ----------
    partial : int
        2 is the octave of the string.
    touch : float
        Where it is touched, in equal-tempered semitones above the open string.
    sounds : int
        Semitones above the open string, to the nearest.
    """

    partial: int
    touch: float
    sounds: int


# Nodes of the partials 2 to 6 nearest to the nut, and the second one of the fifth. The node at k/n of the
# length is touched where a stop of -12 log2(1 - k/n) semitones lies; the partial n sounds 12 log2(n) above
# the open string. Source: physics of an ideal string.
HARMONICS = (
    Harmonic(2, 12.0, 12),
    Harmonic(3, 7.02, 19),
    Harmonic(4, 4.98, 24),
    Harmonic(5, 3.86, 28),
    Harmonic(5, 8.84, 28),
    Harmonic(6, 3.16, 31),
)


def stop_mm(length_mm: float, stop: float) -> float:
    """The distance of a stop from the nut: ``L(1 - 2^(-n/12))``, equal temperament.

    Parameters
    ----------
    length_mm : float
        Sounding length of the string.
    stop : float
        Semitones above the open string.
    """
    return float(length_mm * (1 - 2 ** (-stop / 12)))


def midi_at(instrument: Instrument, place: Place) -> int:
    """The MIDI note number that sounds at a place."""
    return instrument.strings[place.string].midi + place.stop


def places_of(instrument: Instrument, pitch: SpelledPitch) -> tuple[Place, ...]:
    """Every place at which a pitch can be stopped or is open, lowest string first."""
    stops = ((string, pitch.midi - own.midi) for string, own in enumerate(instrument.strings))
    return tuple(Place(string, stop) for string, stop in stops if 0 <= stop <= instrument.highest)


def harmonics_of(
    instrument: Instrument, pitch: SpelledPitch, highest: int = 4
) -> tuple[tuple[int, Harmonic], ...]:
    """The natural harmonics that sound a pitch, each with its string, up to the partial ``highest``."""
    return tuple(
        (string, harmonic)
        for string, own in enumerate(instrument.strings)
        for harmonic in HARMONICS
        if harmonic.partial <= highest and own.midi + harmonic.sounds == pitch.midi
    )
