"""A line to be fingered: what sounds when, and what the player has settled beforehand."""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.theory import Degree, SpelledPitch

__all__ = ["Line", "LineNote"]


@dataclass(frozen=True, slots=True)
class LineNote:
    """One note of a line, or several sounded together.

    Attributes
    ----------
    pitches : tuple of SpelledPitch
        Low to high; two for a double stop.
    starts_at, length : Fraction
        Quarters from the start of the line. What lies between two notes is a rest.
    slur : bool
        Whether the bow goes on to the next note.
    on_beat : bool
        Whether it begins on a felt beat.
    phrase_start : bool
        Whether a phrase begins here.
    pins : tuple of str
        One a pitch, or none: ``A2`` (string and finger), ``D0`` (open), ``2`` (finger alone), ``A`` (string
        alone) or ``.`` (free).
    degrees : tuple of Degree
        What the pitches are in their key, one a pitch; empty where no key is known.
    cost : float
        What choosing it costs, where it is one of several.
    """

    pitches: tuple[SpelledPitch, ...]
    starts_at: Fraction
    length: Fraction
    slur: bool = False
    on_beat: bool = True
    phrase_start: bool = False
    pins: tuple[str, ...] = ()
    degrees: tuple[Degree, ...] = ()
    cost: float = 0.0


@dataclass(frozen=True, slots=True)
class Line:
    """Notes in order of time, at a tempo.

    Attributes
    ----------
    tempo_bpm : Fraction
        Quarters a minute.
    """

    notes: tuple[LineNote, ...]
    tempo_bpm: Fraction = Fraction(100)
