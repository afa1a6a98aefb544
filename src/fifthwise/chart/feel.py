"""Feels: which words of a song's ``feel`` are known, and which of them swing."""

from fractions import Fraction

__all__ = ["FEELS", "groove", "late_by", "push_by", "swings"]

# The trade's words for grooves, and the groove each stands for.
FEELS = {
    "straight": "straight", "sixteenth": "sixteenths", "sixteenths": "sixteenths", "half-time": "half-time",
    "halftime": "half-time", "shuffle": "shuffle", "swing": "swing", "swung": "swing", "train": "train",
    "two-step": "two-step", "waltz": "waltz", "ballad": "ballad", "blues": "blues", "stomp": "stomp",
    "reel": "straight", "jig": "straight", "march": "straight", "rock": "straight", "funk": "sixteenths",
}  # fmt: skip
SWINGING = frozenset({"shuffle", "swing"})
EIGHTH = Fraction(1, 2)
# In swing the off-beat is the last third of the beat (common practice, no source).
SWUNG_EARLY, SWUNG_LATE = Fraction(1, 3), Fraction(2, 3)


def groove(feel: str) -> str:
    """The groove that a feel's first known word picks; ``straight`` where none is known."""
    for word in feel.lower().replace(",", " ").split():
        if word in FEELS:
            return FEELS[word]
    return "straight"


def swings(feel: str) -> bool:
    """Whether the feel's eighths are uneven."""
    return groove(feel) in SWINGING


def push_by(feel: str) -> Fraction:
    """Quarters by which ``.push`` comes early: an eighth, or the swung off-beat."""
    return SWUNG_EARLY if swings(feel) else EIGHTH


def late_by(feel: str) -> Fraction:
    """Quarters by which ``.late`` comes late: an eighth, or the swung off-beat."""
    return SWUNG_LATE if swings(feel) else EIGHTH
