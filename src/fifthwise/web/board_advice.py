"""What is said of a chord under a fingerboard: the notes to land on, and the scale that goes over it."""

import re
from dataclasses import dataclass
from functools import lru_cache

from fifthwise.page import printed, printed_prose
from fifthwise.strings.advice import landing, scales
from fifthwise.theory import Key, LetterChord, NumberChord, Numbering

__all__ = ["ChordAdvice", "chord_advice"]

MOST_NOTES = 2
DEGREE_SIGNS = re.compile(r"(?<!\w)(?:bb|##|b|#)(?=[1-9])")


@dataclass(frozen=True, slots=True)
class ChordAdvice:
    """Advice for a chord in short lines.

    Attributes
    ----------
    land : tuple of str
        The notes to land on, best first, each with the way there from the chord before.
    scale : str
        The scale that goes over it best.
    """

    land: tuple[str, ...]
    scale: str


@lru_cache(maxsize=512)
def chord_advice(
    chord: NumberChord, key: Key, numbering: Numbering, before: LetterChord | None
) -> ChordAdvice:
    """What to play over a chord that comes after another."""
    notes = landing(chord, key, numbering, before)[:MOST_NOTES]
    best = scales(chord, key, numbering)[0]
    return ChordAdvice(tuple(_signs(note.words) for note in notes), _signs(best.words))


def _signs(words: str) -> str:
    """Print note names and degrees with true accidentals."""
    return DEGREE_SIGNS.sub(lambda match: printed(match[0]), printed_prose(words))
