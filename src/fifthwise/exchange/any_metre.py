"""Metres of other people's files as one of ours, however they are counted."""

from collections.abc import Sequence
from fractions import Fraction

from fifthwise.theory import Metre

__all__ = ["is_short_enough", "metre_of_groups"]

COMPOUND = (3, 6, 9, 12)
MOST_BEATS = 32
Group = tuple[int, int]  # how many, of which unit: (3, 8) in 2/4+3/8


def is_short_enough(groups: Sequence[Group]) -> bool:
    """Whether a bar of these groups is one that a chart can hold."""
    return 0 < _length(groups) <= 2 * MOST_BEATS


def metre_of_groups(groups: Sequence[Group]) -> tuple[Metre, bool]:
    """A metre counted in eighths, or in quarters or halves where it is too long or too even for that.

    Returns
    -------
    Metre, bool
        And whether it had to be filled up to whole eighths.
    """
    if len(groups) == 1 and _plain(*groups[0]):
        return Metre(*groups[0]), False
    length = _length(groups)
    if length.denominator == 1 and all(unit <= 4 for _, unit in groups):
        count = int(length)
        return Metre(count, 4) if count <= MOST_BEATS else Metre(-(-count // 2), 2), False
    eighths = [Fraction(8 * count, unit) for count, unit in groups]
    if len(eighths) > 1 and all(group.denominator == 1 and group < 10 for group in eighths):
        parts = tuple(int(group) for group in eighths)
    else:
        parts = _twos_and_threes(-(-length.numerator * 2 // length.denominator))
    count = sum(parts)
    metre = Metre(count, 8, parts) if count <= MOST_BEATS else Metre(min(-(-count // 2), MOST_BEATS), 4)
    return metre, count != length * 2


def _length(groups: Sequence[Group]) -> Fraction:
    return sum((Fraction(4 * count, unit) for count, unit in groups), Fraction(0))


def _plain(count: int, unit: int) -> bool:
    return count <= MOST_BEATS and (unit in (2, 4) or (unit == 8 and count in COMPOUND))


def _twos_and_threes(eighths: int) -> tuple[int, ...]:
    if eighths < 2:
        return (1,)
    twos, three = divmod(eighths, 2)
    return (2,) * (twos - three) + (3,) * three
