"""What a search for fingers gives: a finger for each note, and the reason for each shift."""

from dataclasses import dataclass

from fifthwise.strings.fingering.line import LineNote

__all__ = ["FingeredNote", "Fingering", "Shift", "Stop"]


@dataclass(frozen=True, slots=True)
class Stop:
    """One pitch under one finger.

    Attributes
    ----------
    string : int
        Counted from the lowest, which is 0.
    stop : int
        Semitones above the open string; where a harmonic is touched, to the nearest.
    finger : int
        1 to 4; 0 is open, -1 the thumb.
    harmonic : int
        The partial that sounds; 0 where the string is stopped or open.
    """

    string: int
    stop: int
    finger: int
    harmonic: int = 0


@dataclass(frozen=True, slots=True)
class FingeredNote:
    """A note with its fingers.

    Attributes
    ----------
    stops : tuple of Stop
        One a pitch, in the order of the note's pitches.
    centre : int
        Where the hand lies, in semitones above the open string.
    shape : str
        The shape of the hand, as the frame names it.
    """

    note: LineNote
    stops: tuple[Stop, ...]
    centre: int
    shape: str


@dataclass(frozen=True, slots=True)
class Shift:
    """The hand moves before a note.

    Attributes
    ----------
    note : int
        Index of the note that is reached.
    start, end : int
        Hand centres.
    reason : str
        Why, in words a player reads: ``E5 is out of reach in first position``.
    """

    note: int
    start: int
    end: int
    reason: str


@dataclass(frozen=True, slots=True)
class Fingering:
    """A line with its fingers, what it costs and where the hand shifts."""

    notes: tuple[FingeredNote, ...]
    cost: float
    shifts: tuple[Shift, ...]
