"""Metres, their felt beats and their lengths, in exact fractions of a quarter note."""

import re
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.theory.errors import MetreFault

__all__ = ["Metre", "read_metre"]

METRE = re.compile(r"(\d{1,2})\s*/\s*(\d{1,2})(?:\s+(\d(?:\s*\+\s*\d)*))?\Z")
COMPOUND = (3, 6, 9, 12)
LONGEST_BAR = 32


@dataclass(frozen=True, slots=True, order=True)
class Metre:
    """A time signature: ``count`` notes of ``unit``, in named ``groups`` where it is uneven."""

    count: int
    unit: int
    groups: tuple[int, ...] = ()

    @property
    def length(self) -> Fraction:
        """Length of a bar in quarters."""
        return Fraction(4 * self.count, self.unit)

    @property
    def beat(self) -> Fraction:
        """Length of a felt beat in quarters.

        A half in x/2, a quarter in x/4, a dotted quarter in 3/8, 6/8, 9/8 and 12/8, an eighth where
        the groups are named.
        """
        if self.unit != 8:
            return Fraction(4, self.unit)
        return Fraction(1, 2) if self.groups else Fraction(3, 2)

    @property
    def share(self) -> Fraction:
        """The shortest length, in quarters, that chords sharing a bar evenly may get."""
        return Fraction(1) if self.unit == 2 else self.beat

    @property
    def beats(self) -> int:
        """Felt beats in a bar."""
        return int(self.length / self.beat)

    @property
    def tempo_unit(self) -> Fraction:
        """Length in quarters of the note that the tempo counts."""
        return Fraction(1) if self.groups else self.beat

    def __str__(self) -> str:
        head = f"{self.count}/{self.unit}"
        return f"{head} {'+'.join(map(str, self.groups))}" if self.groups else head


def read_metre(text: str) -> Metre:
    """Read a metre such as ``4/4``, ``6/8`` or ``7/8 2+2+3``.

    Raises
    ------
    MetreFault
        The text is no metre, or an uneven metre does not name its groups.
    """
    match = METRE.match(text.strip())
    if not match:
        raise MetreFault(f"'{text}' is no metre", "metre", "Write it as in '3/4', '6/8' or '7/8 2+2+3'")
    count, unit = int(match[1]), int(match[2])
    groups = tuple(int(part) for part in match[3].split("+")) if match[3] else ()
    _check_size(text, count, unit)
    _check_groups(text, count, unit, groups)
    return Metre(count, unit, groups)


def _check_size(text: str, count: int, unit: int) -> None:
    if unit not in (2, 4, 8):
        raise MetreFault(
            f"'{text}' counts in notes of 1/{unit}", "metre", "Count in halves, quarters or eighths"
        )
    if not 1 <= count <= LONGEST_BAR:
        raise MetreFault(f"'{text}' has {count} notes in a bar", "metre", f"Write 1 to {LONGEST_BAR}")


def _check_groups(text: str, count: int, unit: int, groups: tuple[int, ...]) -> None:
    if groups and unit != 8:
        raise MetreFault(f"'{text}' names groups", "metre", "Leave the groups out: only eighths need them")
    if groups and (sum(groups) != count or 0 in groups):
        total = sum(groups)
        raise MetreFault(f"the groups of '{text}' add up to {total}", "metre", f"Make them add up to {count}")
    if unit == 8 and not groups and count not in COMPOUND:
        raise MetreFault(f"'{text}' does not say how its eighths are grouped", "metre", _group_hint(count))


def _group_hint(count: int) -> str:
    twos, threes = (count // 2, 0) if count % 2 == 0 else ((count - 3) // 2, 1)
    shown = "+".join(["2"] * twos + ["3"] * threes) if count > 1 else "1"
    return f"Name the groups, as in '{count}/8 {shown}'"
