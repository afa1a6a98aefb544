"""Scale degrees: places on the line of fifths counted from the note that is called 1.

Degrees count from the major scale: b3 is a semitone below the major third, #4 and b5 differ.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from fifthwise.theory.errors import NoteFault
from fifthwise.theory.note import Interval, NoteName, accidentals, plain_accidentals

__all__ = ["Degree", "degree_at", "degree_interval", "degree_of", "interval_name", "note_of", "read_degree"]

STEPS = "4152637"
DEGREE = re.compile(r"(bb|##|b|#)?([1-7])\Z")


@dataclass(frozen=True, slots=True, order=True)
class Degree:
    """A degree of the scale: 1 is 0, 5 is 1, 4 is -1, b7 is -2."""

    fifths: int

    @property
    def step(self) -> int:
        """The number without its accidental, 1 to 7."""
        return int(STEPS[(self.fifths + 1) % 7])

    @property
    def alter(self) -> int:
        """Semitones above the major scale's degree: b3 is -1."""
        return (self.fifths + 1) // 7

    @property
    def semitones(self) -> int:
        """Semitones above 1, 0 to 11."""
        return self.fifths * 7 % 12

    def __str__(self) -> str:
        return _written(self.fifths)


@lru_cache(maxsize=256)
def degree_at(fifths: int) -> Degree:
    """The degree at a place on the line of fifths, made once."""
    return Degree(fifths)


@lru_cache(maxsize=256)
def _written(fifths: int) -> str:
    degree = Degree(fifths)
    return f"{accidentals(degree.alter)}{degree.step}"


def degree_from(step: int, alter: int) -> Degree:
    """Make a degree of its step (1 to 7) and its alteration in semitones."""
    return Degree(STEPS.index(str(step)) - 1 + 7 * alter)


def read_degree(text: str) -> Degree:
    """Read a degree such as ``5``, ``b7`` or ``♯4``.

    Raises
    ------
    NoteFault
        The text is no degree.
    """
    match = DEGREE.match(plain_accidentals(text.strip()))
    if not match:
        raise NoteFault(f"'{text}' is no degree", "degree", "Write 1 to 7, with b or # before it, as in 'b7'")
    sign = match[1] or ""
    return degree_from(int(match[2]), sign.count("#") - sign.count("b"))


def note_of(degree: Degree, one: NoteName) -> NoteName:
    """Name the note of a degree when ``one`` is the 1."""
    return NoteName(one.fifths + degree.fifths)


def degree_of(note: NoteName, one: NoteName) -> Degree:
    """Count a note from ``one``."""
    return Degree(note.fifths - one.fifths)


def degree_interval(degree: Degree, octave: int = 0) -> Interval:
    """The interval from the 1 up to a degree, ``octave`` octaves higher.

    The octave is counted by the number, so b1 lies below 1 and #7 above 7 in the same octave.
    """
    steps = degree.step - 1 + 7 * octave
    return Interval(degree.fifths, (steps - 4 * degree.fifths) // 7)


def interval_name(interval: Interval) -> str:
    """Name an interval above a root as chords do: ``b3``, ``5``, ``#11``."""
    number = interval.steps + 1
    alter = (interval.fifths + 1) // 7
    return f"{accidentals(alter)}{number}"
