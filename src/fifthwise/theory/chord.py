"""Chords as numbers and as letters, and the way between them.

A number chord counts from the note called 1; a letter chord from C. The two share their quality, so
the way between them is one addition on the line of fifths.
"""

from dataclasses import dataclass

from fifthwise.theory.degree import Degree, degree_at
from fifthwise.theory.note import Interval, NoteName, note_at
from fifthwise.theory.quality import MAJOR, Quality

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

# bb4 and ##7, the outermost degrees with two accidentals.
LOWEST, HIGHEST = -15, 19


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
    bass = None if chord.bass is None else note_at(chord.bass.fifths + one.fifths)
    return LetterChord(note_at(chord.root.fifths + one.fifths), chord.quality, bass)


def to_number(chord: LetterChord, one: NoteName) -> NumberChord:
    """Count a letter chord from ``one``.

    A chord so far out that a degree would need three accidentals is respelled as a whole.
    """
    root = chord.root.fifths - one.fifths
    if chord.bass is None:
        return NumberChord(degree_at(root + _turn(root, root)), chord.quality)
    bass = chord.bass.fifths - one.fifths
    turn = _turn(min(root, bass), max(root, bass))
    return NumberChord(degree_at(root + turn), chord.quality, degree_at(bass + turn))


def _turn(lowest: int, highest: int) -> int:
    """Twelve fifths up or down where that keeps both ends within two accidentals."""
    if lowest < LOWEST:
        return 12
    return -12 if highest > HIGHEST else 0


def recount(chord: NumberChord, by: int) -> NumberChord:
    """Count the same chord from a 1 that lies ``by`` fifths lower."""
    bass = None if chord.bass is None else degree_at(chord.bass.fifths + by)
    return NumberChord(degree_at(chord.root.fifths + by), chord.quality, bass)


def chord_tones(chord: LetterChord | NumberChord) -> tuple[Interval, ...]:
    """The chord's tones as intervals above its root."""
    return chord.quality.tones


def chord_notes(chord: LetterChord) -> tuple[NoteName, ...]:
    """The spelled tones from the root up, a bass that is no chord tone first."""
    notes = tuple([note_at(chord.root.fifths + t.fifths) for t in chord.quality.tones])
    return notes if chord.bass is None or chord.bass in notes else (chord.bass, *notes)


def chord_degrees(chord: NumberChord) -> tuple[Degree, ...]:
    """The chord's tones as degrees of the key, from the root up, a strange bass first."""
    degrees = tuple([degree_at(chord.root.fifths + t.fifths) for t in chord.quality.tones])
    return degrees if chord.bass is None or chord.bass in degrees else (chord.bass, *degrees)


def pitch_classes(chord: LetterChord) -> frozenset[int]:
    """What sounds, as pitch classes 0 to 11, the bass included."""
    return frozenset(note.pitch_class for note in chord_notes(chord))
