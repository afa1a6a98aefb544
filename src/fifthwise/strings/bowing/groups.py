"""Where a bar is strong: its counts in groups of two and three."""

from fractions import Fraction
from itertools import accumulate

from fifthwise.theory import Metre

__all__ = ["group_starts", "groups_of", "plain_metre"]

TWO, THREE = 2, 3
MOST_PLAIN = 12  # 12/8 is the longest metre whose groups of three go without saying


def groups_of(metre: Metre) -> tuple[int, ...]:
    """The counts of a bar in groups of 1, 2 and 3.

    A group that is named longer is split. Without names, counts that divide by three go in threes, an odd
    number begins with a three, the rest is twos. Common practice, no source.

    Examples
    --------
    >>> groups_of(Metre(5, 4))
    (3, 2)
    """
    if metre.groups:
        return tuple(part for group in metre.groups for part in _split(group))
    if metre.count % THREE == 0:
        return (THREE,) * (metre.count // THREE)
    return _split(metre.count)


def _split(count: int) -> tuple[int, ...]:
    if count == 1:
        return (1,)
    odd = count % TWO
    return (THREE,) * odd + (TWO,) * ((count - THREE * odd) // TWO)


def group_starts(metre: Metre) -> tuple[Fraction, ...]:
    """Where the groups of a bar begin, in quarters."""
    counts = accumulate(groups_of(metre), initial=0)
    return tuple(Fraction(4 * count, metre.unit) for count in counts)[:-1]


def plain_metre(metre: Metre) -> Metre:
    """The metre without names for groups that go without saying: ``6/8 3+3`` is 6/8."""
    goes_without = metre.groups and set(metre.groups) == {THREE} and metre.count <= MOST_PLAIN
    return Metre(metre.count, metre.unit) if goes_without else metre
