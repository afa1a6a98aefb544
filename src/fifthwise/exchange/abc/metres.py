"""``M:``, ``L:`` and ``Q:``: metres, the unit of the notes, tempos.

References
----------
The abc music standard 2.1, 3.1.6 "M: - meter", 3.1.7 "L: - unit note length", 3.1.8 "Q: - tempo"; from
memory.
"""

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from fifthwise.exchange.abc.texts import words_of
from fifthwise.exchange.any_metre import is_short_enough, metre_of_groups
from fifthwise.theory import Metre

__all__ = ["Tempo", "is_compound", "is_free", "read_metre_field", "read_tempo", "read_unit", "usual_unit"]

PIECE = re.compile(r"(\d{1,3})(?:/(\d{1,2}))?\Z")
UNITS = (1, 2, 4, 8, 16, 32, 64)
UNIT = re.compile(r"\s*(\d{1,2})\s*(?:/\s*(\d{1,3}))?")
WORDS = re.compile(r'"([^"]*)"')
BEATS = re.compile(r"(\d{1,2})/(\d{1,3})")
OLD_BEATS = re.compile(r"[Cc](\d{0,2})\s*\Z")
NUMBER = re.compile(r"\d{1,4}(?:\.\d{1,6})?")
SLOWEST, FASTEST = 5, 2000  # quarters a minute that are taken for a tempo
FINEST_TEMPO = 200  # parts of a quarter a minute
COMMON, CUT = Metre(4, 4), Metre(2, 2)
EIGHTH, SIXTEENTH = Fraction(1, 2), Fraction(1, 4)


@dataclass(frozen=True, slots=True)
class Tempo:
    """Quarters a minute, where a number is said, and what is said in words."""

    quarters_bpm: Fraction | None
    words: str = ""


def is_free(text: str) -> bool:
    """Whether a metre field says that there is none."""
    return text.strip().lower() in ("none", "")


@lru_cache(maxsize=256)
def read_metre_field(text: str) -> Metre | None:
    """Read a metre; ``None`` where it is none that can be read."""
    text = text.strip()
    if text in ("C", "c"):
        return COMMON
    if text in ("C|", "c|"):
        return CUT
    pieces = [PIECE.match(piece) for piece in re.sub(r"[()\s]", "", text).split("+")]
    if not pieces or len(pieces) > 16 or not all(pieces):
        return None
    groups: list[tuple[int, int]] = []
    unit = 0
    for piece in reversed(pieces):
        assert piece is not None
        unit = int(piece[2]) if piece[2] else unit
        if unit not in UNITS or int(piece[1]) == 0:
            return None
        groups.insert(0, (int(piece[1]), unit))
    return metre_of_groups(groups)[0] if is_short_enough(groups) else None


def usual_unit(metre: Metre | None) -> Fraction:
    """The unit of a tune that names none, in quarters: a sixteenth in metres shorter than 3/4."""
    return SIXTEENTH if metre is not None and metre.length < 3 else EIGHTH


def is_compound(metre: Metre | None) -> bool:
    """Whether tuplets of 5, 7 and 9 stand for three notes."""
    return metre is not None and metre.unit == 8 and metre.count % 3 == 0 and not metre.groups


@lru_cache(maxsize=64)
def read_unit(text: str) -> Fraction | None:
    """Read the unit of the notes, in quarters; ``None`` where it is none."""
    match = UNIT.match(text)
    if not match or int(match[1]) == 0:
        return None
    parts = int(match[2] or 1)
    return Fraction(4 * int(match[1]), parts) if parts & (parts - 1) == 0 and 0 < parts <= 512 else None


@lru_cache(maxsize=256)
def read_tempo(text: str, unit: Fraction) -> Tempo:
    """Read a tempo; a number alone, as older files have it, counts units of the notes."""
    words = words_of(" ".join(WORDS.findall(text)))
    beats, equals, number = WORDS.sub("", text).rpartition("=")
    found = NUMBER.search(number)
    if not found:
        return Tempo(None, words)
    length = unit
    if equals:
        length = sum((_length(*each) for each in BEATS.findall(beats)[:16]), Fraction(0))
        old = OLD_BEATS.match(beats.strip())
        length = unit * int(old[1] or 1) if old else length
    bpm = length * Fraction(found[0])
    sane = bpm.limit_denominator(FINEST_TEMPO) if SLOWEST <= bpm <= FASTEST else None
    return Tempo(sane, words)


def _length(count: str, parts: str) -> Fraction:
    return Fraction(4 * int(count), int(parts)) if int(parts) else Fraction(0)
