"""How long notes are: lengths, tuplets, broken rhythm.

References
----------
The abc music standard 2.1, 4.3 "Note lengths", 4.4 "Broken rhythm", 4.13 "Duplets, triplets, quadruplets,
etc."; from memory.
"""

from fractions import Fraction
from functools import lru_cache

from fifthwise.exchange.abc.tokens import factor_of

__all__ = ["broken_parts", "note_length", "tuplet_of"]

TWO_FOR = {2: 3, 3: 2, 4: 3, 6: 2, 8: 3}
LONGEST = 256  # quarters that are believed of one note


@lru_cache(maxsize=4096)
def note_length(text: str, unit: Fraction) -> Fraction | None:
    """Quarters that a note lasts; ``None`` where its length is none that can be read."""
    factor = factor_of(text)
    if factor is None or factor * unit > LONGEST:
        return None
    return factor * unit


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
