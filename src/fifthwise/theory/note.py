"""Note names, spelled pitches and intervals on the line of fifths.

The line of fifths runs … Bb F C G D A E B F# …; C is 0, G is 1, F is -1. A sharp is seven places up,
a flat seven down, so a name and its accidental are one integer and transposing is addition.
Written octaves follow scientific pitch notation: octave 4 begins at middle C (and B#3 sounds as C4).
"""

import re
from dataclasses import dataclass
from functools import lru_cache

from fifthwise.theory.errors import NoteFault

__all__ = [
    "Interval",
    "NoteName",
    "SpelledPitch",
    "accidentals",
    "between",
    "nearest_interval",
    "note_at",
    "plain_accidentals",
    "read_note",
    "read_pitch",
    "transpose",
]

LETTERS = "FCGDAEB"
SIGNS = str.maketrans({"♭": "b", "♯": "#", "𝄫": "bb", "𝄪": "##", "♮": ""})
NOTE = re.compile(r"([A-Ga-g])(bb|##|b|#|x)?\Z")
PITCH = re.compile(r"([A-Ga-g](?:bb|##|b|#|x)?)(-?\d)\Z")


def plain_accidentals(text: str) -> str:
    """Write ♭ ♯ 𝄫 𝄪 as b # bb ##."""
    return text.translate(SIGNS)


def accidentals(alter: int) -> str:
    """Spell an alteration in semitones: -2 is ``bb``, 1 is ``#``."""
    return "#" * alter if alter > 0 else "b" * -alter


@dataclass(frozen=True, slots=True, order=True)
class NoteName:
    """A note without an octave: a place on the line of fifths."""

    fifths: int

    @property
    def letter(self) -> str:
        """The letter, ``A`` to ``G``."""
        return LETTERS[(self.fifths + 1) % 7]

    @property
    def alter(self) -> int:
        """Semitones by which the letter is altered: Bb is -1."""
        return (self.fifths + 1) // 7

    @property
    def pitch_class(self) -> int:
        """Semitones above C, 0 to 11: for sound alone, never for a name."""
        return self.fifths * 7 % 12

    def __str__(self) -> str:
        return _spelled(self.fifths)


@lru_cache(maxsize=256)
def note_at(fifths: int) -> NoteName:
    """The note at a place on the line of fifths, made once."""
    return NoteName(fifths)


@lru_cache(maxsize=256)
def _spelled(fifths: int) -> str:
    note = NoteName(fifths)
    return note.letter + accidentals(note.alter)


@dataclass(frozen=True, slots=True, order=True)
class Interval:
    """The difference of two spelled pitches: ``fifths`` places and ``octaves`` octaves.

    The perfect fifth is (1, 0), the octave (0, 1), the major second (2, -1), the major third (4, -2).
    """

    fifths: int
    octaves: int

    @property
    def semitones(self) -> int:
        """Size in equal-tempered semitones."""
        return 7 * self.fifths + 12 * self.octaves

    @property
    def steps(self) -> int:
        """Size in steps of a scale: a third is 2."""
        return 4 * self.fifths + 7 * self.octaves

    def __add__(self, other: "Interval") -> "Interval":
        return Interval(self.fifths + other.fifths, self.octaves + other.octaves)

    def __neg__(self) -> "Interval":
        return Interval(-self.fifths, -self.octaves)


@dataclass(frozen=True, slots=True)
class SpelledPitch:
    """A pitch as written: F#4 and Gb4 sound alike and are two pitches."""

    fifths: int
    octave: int

    @property
    def name(self) -> NoteName:
        """The note without its octave."""
        return NoteName(self.fifths)

    @property
    def midi(self) -> int:
        """MIDI note number: A4 is 69."""
        return 12 + 7 * self.fifths + 12 * _raw_octave(self)

    @property
    def frequency_hz(self) -> float:
        """Frequency in equal temperament with A4 = 440 Hz (ISO 16)."""
        return float(440.0 * 2.0 ** ((self.midi - 69) / 12.0))

    def __str__(self) -> str:
        return f"{self.name}{self.octave}"


def _raw_octave(pitch: SpelledPitch) -> int:
    """Octaves left over once the pitch is counted in pure fifths from C."""
    return pitch.octave - (4 * pitch.fifths) // 7


def transpose(pitch: SpelledPitch, by: Interval) -> SpelledPitch:
    """Move a pitch by an interval; the spelling follows."""
    fifths = pitch.fifths + by.fifths
    return SpelledPitch(fifths, _raw_octave(pitch) + by.octaves + (4 * fifths) // 7)


def between(low: SpelledPitch, high: SpelledPitch) -> Interval:
    """The interval that leads from ``low`` to ``high``."""
    return Interval(high.fifths - low.fifths, _raw_octave(high) - _raw_octave(low))


def nearest_interval(fifths: int) -> Interval:
    """The smallest interval to a note so many fifths away, up at a tritone, in its simplest spelling."""
    place = (fifths + 5) % 12 - 5
    semitones = (7 * place + 5) % 12 - 5
    return Interval(place, (semitones - 7 * place) // 12)


def read_note(text: str) -> NoteName:
    """Read a note name such as ``Eb``, ``F♯`` or ``C##``.

    Raises
    ------
    NoteFault
        The text is no note name.
    """
    match = NOTE.match(plain_accidentals(text.strip()))
    if not match:
        raise NoteFault(f"'{text}' is no note name", "note", "Write a letter A to G with b or #, as in 'Eb'")
    sign = match[2] or ""
    alter = 2 if sign == "x" else sign.count("#") - sign.count("b")
    return NoteName(LETTERS.index(match[1].upper()) - 1 + 7 * alter)


def read_pitch(text: str) -> SpelledPitch:
    """Read a pitch such as ``A3`` or ``Bb4`` (octave 4 begins at middle C).

    Raises
    ------
    NoteFault
        The text is no pitch with an octave from -1 to 9.
    """
    match = PITCH.match(plain_accidentals(text.strip()))
    if not match:
        raise NoteFault(f"'{text}' is no pitch", "pitch", "Write a note and its octave, as in 'A3' or 'Bb4'")
    return SpelledPitch(read_note(match[1]).fifths, int(match[2]))
