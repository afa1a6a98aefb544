"""Approach notes: a half step below a chord tone, or the step of the key's scale above it."""

from dataclasses import dataclass

from fifthwise.strings.advice.roles import COUNTED, chord_tones_of, degree_text
from fifthwise.theory import Degree, Key, NumberChord, Numbering

__all__ = ["Approach", "approaches"]

TARGETS = ("root", "third", "fifth", "seventh")
HALF_BELOW = 5  # on the line of fifths: B to C, F# to G
OCTAVE, STEP = 12, 2


@dataclass(frozen=True, slots=True)
class Approach:
    """The notes that lead to a chord tone, all counted from the key's 1.

    Attributes
    ----------
    words : str
        ``To 3: #2 from below, 4 from above``.
    """

    target: Degree
    below: Degree
    above: Degree
    words: str


def approaches(chord: NumberChord, key: Key, numbering: Numbering = COUNTED) -> tuple[Approach, ...]:
    """Tell what leads to each of a chord's root, third, fifth and seventh."""
    scale = numbering.scale(key)
    found = []
    for tone in chord_tones_of(chord):
        if tone.role in TARGETS:
            below, above = _below(tone.degree, scale), _above(tone.degree, scale)
            to, low, high = (degree_text(each, key, numbering) for each in (tone.degree, below, above))
            found.append(Approach(tone.degree, below, above, f"To {to}: {low} from below, {high} from above"))
    return tuple(found)


def _below(target: Degree, scale: tuple[Degree, ...]) -> Degree:
    """The half step below, as the scale spells it where it has it: 4 below #4, not #3."""
    half = Degree(target.fifths + HALF_BELOW)
    return next((degree for degree in scale if degree.semitones == half.semitones), half)


def _above(target: Degree, scale: tuple[Degree, ...]) -> Degree:
    """The scale's note a step or a half step above, one with another number before one with the same."""
    near = [degree for degree in scale if 0 < (degree.semitones - target.semitones) % OCTAVE <= STEP]
    return min(
        near, key=lambda degree: (degree.step == target.step, (degree.semitones - target.semitones) % OCTAVE)
    )
