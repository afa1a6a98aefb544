"""Silence before the first note, and pickups.

Whole bars of silence are left out. A first bar in which nothing sounds before its second half is a pickup.
"""

from collections.abc import Sequence
from fractions import Fraction

from fifthwise.exchange.midi.bars import Span, bar_at

__all__ = ["opened"]

HALF, EIGHTH = 2, Fraction(1, 2)


def opened(spans: Sequence[Span], first: Fraction) -> tuple[tuple[Span, ...], list[str]]:
    """The bars from the first sound on, and what was left out or guessed.

    Parameters
    ----------
    first : Fraction
        The quarter at which the first note, drum or chord stands.
    """
    silent = bar_at(spans, first)
    told = [f"{silent} silent {'bar' if silent == 1 else 'bars'} at the start left out"] if silent else []
    kept = list(spans[silent:])
    start = kept[0].start + (first - kept[0].start) // EIGHTH * EIGHTH
    if len(kept) > 1 and (start - kept[0].start) * HALF >= kept[0].length:
        kept[0] = Span(start, kept[0].end, kept[0].metre)
        told.append("the first notes stand at the end of a bar; they are a pickup")
    return tuple(kept), told
