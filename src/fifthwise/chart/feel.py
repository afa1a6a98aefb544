"""Feels: which words of a song's ``feel`` are known, and which of them swing."""

import re
from fractions import Fraction

from fifthwise.theory import Metre

__all__ = ["FEELS", "groove", "late_by", "push_by", "swings"]

# The trade's words for grooves, and the groove each stands for.
FEELS = {
    "straight": "straight", "sixteenth": "sixteenths", "sixteenths": "sixteenths", "half-time": "half-time",
    "halftime": "half-time", "shuffle": "shuffle", "swing": "swing", "swung": "swing", "train": "train",
    "two-step": "two-step", "waltz": "waltz", "ballad": "ballad", "blues": "blues", "stomp": "stomp",
    "reel": "straight", "jig": "straight", "march": "straight", "rock": "straight", "funk": "sixteenths",
}  # fmt: skip
WORD = re.compile(r"[a-z]+(?:-[a-z]+)*")
SWINGING = frozenset({"shuffle", "swing"})
EIGHTH = Fraction(1, 2)
EIGHTHS = 8
# In swing the off-beat is the last third of the beat (common practice, no source).
SWUNG_EARLY, SWUNG_LATE = Fraction(1, 3), Fraction(2, 3)


def groove(feel: str) -> str:
    """The groove that a feel's first known word picks; ``straight`` where none is known."""
    for word in WORD.findall(feel.lower()):
        if word in FEELS:
            return FEELS[word]
    return "straight"


def swings(feel: str) -> bool:
    """Whether the feel's eighths are uneven."""
    return groove(feel) in SWINGING


def push_by(feel: str, metre: Metre | None = None) -> Fraction:
    """Quarters by which ``.push`` comes early: an eighth, or the swung off-beat."""
    return SWUNG_EARLY if _is_uneven(feel, metre) else EIGHTH


def late_by(feel: str, metre: Metre | None = None) -> Fraction:
    """Quarters by which ``.late`` comes late: an eighth, or the swung off-beat."""
    return SWUNG_LATE if _is_uneven(feel, metre) else EIGHTH


def _is_uneven(feel: str, metre: Metre | None) -> bool:
    """A metre in eighths writes a shuffle's triplets out, so its eighths are even."""
    return swings(feel) and not (metre and metre.unit == EIGHTHS)
