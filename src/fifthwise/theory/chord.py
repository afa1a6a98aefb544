"""Chords as numbers and as letters, and the way between them.

A number chord counts from the note called 1; a letter chord from C. The two share their quality, so
the way between them is one addition on the line of fifths.
"""

from dataclasses import dataclass

from fifthwise.theory.degree import Degree
from fifthwise.theory.note import Interval, NoteName
from fifthwise.theory.quality import MAJOR, Quality, quality_tones

__all__ = [
    "LetterChord",
    "NumberChord",
    "chord_degrees",
    "chord_notes",
    "chord_tones",
    "pitch_classes",
    "recount",
    "to_letters",
    "to_number",
]


@dataclass(frozen=True, slots=True)
class NumberChord:
    """A chord on a degree, with a bass degree of the key where it is not the root."""

    root: Degree
    quality: Quality = MAJOR
    bass: Degree | None = None


@dataclass(frozen=True, slots=True)
class LetterChord:
    """A chord on a note, with a bass note where it is not the root."""

    root: NoteName
    quality: Quality = MAJOR
    bass: NoteName | None = None


def to_letters(chord: NumberChord, one: NoteName) -> LetterChord:
    """Spell a number chord strictly, ``one`` being the 1."""
    bass = None if chord.bass is None else NoteName(chord.bass.fifths + one.fifths)
    return LetterChord(NoteName(chord.root.fifths + one.fifths), chord.quality, bass)


def to_number(chord: LetterChord, one: NoteName) -> NumberChord:
    """Count a letter chord from ``one``.

    A chord so far out that a degree would need three accidentals is respelled as a whole.
    """
    away = chord.root.fifths - one.fifths
    bass = None if chord.bass is None else chord.bass.fifths - one.fifths
    turn = _turn(away if bass is None else min(away, bass), away if bass is None else max(away, bass))
    return NumberChord(Degree(away + turn), chord.quality, None if bass is None else Degree(bass + turn))


def _turn(lowest: int, highest: int) -> int:
    """Twelve fifths up or down where that keeps both ends within two accidentals."""
    if Degree(lowest).alter < -2:
        return 12
    return -12 if Degree(highest).alter > 2 else 0


def recount(chord: NumberChord, by: int) -> NumberChord:
    """Count the same chord from a 1 that lies ``by`` fifths lower."""
    bass = None if chord.bass is None else Degree(chord.bass.fifths + by)
    return NumberChord(Degree(chord.root.fifths + by), chord.quality, bass)


def chord_tones(chord: LetterChord | NumberChord) -> tuple[Interval, ...]:
    """The chord's tones as intervals above its root."""
    return quality_tones(chord.quality)


def chord_notes(chord: LetterChord) -> tuple[NoteName, ...]:
    """The spelled tones from the root up, a bass that is no chord tone first."""
    notes = tuple(NoteName(chord.root.fifths + t.fifths) for t in quality_tones(chord.quality))
    return notes if chord.bass is None or chord.bass in notes else (chord.bass, *notes)


def chord_degrees(chord: NumberChord) -> tuple[Degree, ...]:
    """The chord's tones as degrees of the key, from the root up, a strange bass first."""
    degrees = tuple(Degree(chord.root.fifths + t.fifths) for t in quality_tones(chord.quality))
    return degrees if chord.bass is None or chord.bass in degrees else (chord.bass, *degrees)


def pitch_classes(chord: LetterChord) -> frozenset[int]:
    """What sounds, as pitch classes 0 to 11, the bass included."""
    return frozenset(note.pitch_class for note in chord_notes(chord))
