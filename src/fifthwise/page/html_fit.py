"""How much room a bar needs, so that the style sheet can size it without wrapping and without a script.

Widths are in ems of the large number and deliberately a little generous. A bar's need becomes a class,
``k7`` for seven halves of an em; a slot's share of the bar's beats becomes one too, ``g3``.
"""

from fractions import Fraction
from functools import lru_cache
from math import ceil, gcd, lcm

from fifthwise.page.layout_bar import Figure, SheetBar, SheetSlot

__all__ = ["bar_need", "shares"]

# The classes that the style sheet has.
LEAST, MOST, MOST_SHARE = 4, 40, 24
RAISED, BASS = 0.52, 0.66
NARROW, WIDE = "♭♮iIl1()/ .’'", "mMWw△𝄪–"
GAP = 0.25
LETTERS = 0.24  # a small letter beneath, where numbers are at their largest


def bar_need(bar: SheetBar) -> int:
    """Half ems that a bar's slots need side by side, within the classes that the style sheet has."""
    need = sum(_slot_ems(slot) for slot in bar.slots) + GAP * max(0, len(bar.slots) - 1)
    return min(MOST, max(LEAST, ceil(2 * need)))


@lru_cache(maxsize=1024)  # most bars are divided as others are
def shares(lengths: tuple[Fraction, ...]) -> tuple[int, ...]:
    """Lengths in the smallest whole numbers: 2 1 1."""
    if not lengths:
        return ()
    unit = lcm(*(length.denominator for length in lengths))
    whole = [int(length * unit) for length in lengths]
    common = gcd(*whole) or 1
    return tuple(min(MOST_SHARE, max(1, share // common)) for share in whole)


def _slot_ems(slot: SheetSlot) -> float:
    ems = 0.75 if slot.main is None else _figure_ems(slot.main)
    ems = ems * 0.66 + 1.0 if slot.held else ems
    letters = LETTERS * len(slot.small.text) if slot.small else 0
    return max(ems + 0.3 * (slot.push or slot.late), letters)


def _figure_ems(figure: Figure) -> float:
    plain = _ems(figure.sign + figure.root + figure.after)
    bass = BASS * _ems("/" + figure.bass) if figure.bass else 0
    return plain + RAISED * _ems(figure.raised) + bass


def _ems(text: str) -> float:
    return sum(0.42 if sign in NARROW else 0.8 if sign in WIDE else 0.63 for sign in text)
