"""How long notes are: lengths, tuplets, broken rhythm.

References
----------
The abc music standard 2.1, 4.3 "Note lengths", 4.4 "Broken rhythm", 4.13 "Duplets, triplets, quadruplets,
etc."; from memory.
"""

from fractions import Fraction
from functools import lru_cache

from fifthwise.exchange.abc.tokens import factor_of

__all__ = ["Lengths", "broken_parts", "note_length", "place_after", "times", "tuplet_of"]

TWO_FOR = {2: 3, 3: 2, 4: 3, 6: 2, 8: 3}
LONGEST = 256  # quarters that are believed of one note


@lru_cache(maxsize=4096)
def note_length(text: str, unit: Fraction) -> Fraction | None:
    """Quarters that a note lasts; ``None`` where its length is none that can be read."""
    factor = factor_of(text)
    if factor is None or factor * unit > LONGEST:
        return None
    return factor * unit


class Lengths(dict[str, Fraction | None]):
    """What ``note_length`` finds with one unit, by its text."""

    def __init__(self, unit: Fraction) -> None:
        super().__init__()
        self.unit = unit

    def __missing__(self, text: str) -> Fraction | None:
        found = self[text] = note_length(text, self.unit)
        return found


def place_after(at: Fraction, length: Fraction) -> Fraction:
    """Where what begins at ``at`` ends: their sum, which is known from other bars as a rule."""
    return _sum(at.as_integer_ratio(), length.as_integer_ratio())


def times(length: Fraction, factor: Fraction) -> Fraction:
    """A length that a tuplet or broken rhythm changes, known as a rule."""
    return _product(length.as_integer_ratio(), factor.as_integer_ratio())


@lru_cache(maxsize=4096)
def _product(one: tuple[int, int], other: tuple[int, int]) -> Fraction:
    return Fraction(*one) * Fraction(*other)


@lru_cache(maxsize=4096)
def _sum(one: tuple[int, int], other: tuple[int, int]) -> Fraction:
    return Fraction(*one) + Fraction(*other)


@lru_cache(maxsize=16)
def broken_parts(sign: str) -> tuple[Fraction, Fraction]:
    """By what the notes before and after a sign such as ``>`` or ``<<`` are changed."""
    short = Fraction(1, 2 ** len(sign))
    return (2 - short, short) if sign[0] == ">" else (short, 2 - short)


@lru_cache(maxsize=256)
def tuplet_of(p: str, qr: str, is_compound: bool) -> tuple[Fraction, int]:
    """By what ``(p:q:r`` changes notes, and how many."""
    said = [int(part) if part else 0 for part in qr.split(":")[1:]]
    q, r = (*said, 0, 0)[:2]
    count = int(p)
    return Fraction(q or TWO_FOR.get(count, 3 if is_compound else 2), count), r or count
