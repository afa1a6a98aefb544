"""Where a time lies in its bar, in any metre.

A pickup is the end of a bar, so its beats are counted from the bar line that it leads to. Where an uneven
metre names its groups, a beat of the hand is a group: eighths alone say nothing about weight.
"""

from bisect import bisect_right
from fractions import Fraction
from functools import lru_cache
from itertools import accumulate

from fifthwise.chart import PlayedBar, Timeline
from fifthwise.theory import Metre

__all__ = ["Bars", "bar_label", "beat_starts", "on_beat", "strong_beats", "within"]

EIGHTH = Fraction(1, 2)


@lru_cache(maxsize=64)
def beat_starts(metre: Metre) -> tuple[Fraction, ...]:
    """Where the felt beats of a full bar begin, in quarters; the groups of an uneven metre."""
    if metre.groups:
        return tuple(EIGHTH * start for start in accumulate(metre.groups[:-1], initial=0))
    return tuple(metre.beat * beat for beat in range(metre.beats))


def strong_beats(metre: Metre) -> tuple[Fraction, ...]:
    """The beats that weigh: the first, the middle of an even bar of four or more; every named group."""
    starts = beat_starts(metre)
    if metre.groups:
        return starts
    return (starts[0], starts[len(starts) // 2]) if len(starts) >= 4 and len(starts) % 2 == 0 else starts[:1]


def within(bar: PlayedBar, at: Fraction) -> Fraction:
    """Quarters from the bar line, as if the bar were full."""
    return at - bar.start + bar.metre.length - bar.length


def on_beat(bar: PlayedBar, at: Fraction) -> bool:
    """Whether a time lies on a felt beat of its bar."""
    into = within(bar, at)
    if bar.metre.groups:
        return into in beat_starts(bar.metre)
    return (into / bar.metre.beat).denominator == 1


def bar_label(bar: PlayedBar) -> str:
    """How a fault names a bar: ``bar 12`` or ``bar 12 (chorus)``; a pickup before everything is ``bar 0``."""
    return f"bar {bar.number} ({bar.section_name})" if bar.section_name else f"bar {bar.number}"


class Bars:
    """The bars of a timeline, found by time; a pickup over another bar is passed over."""

    def __init__(self, timeline: Timeline) -> None:
        self.played = tuple(bar for bar in timeline.bars if not bar.overlays)
        self._starts = [bar.start for bar in self.played]

    def at(self, when: Fraction) -> PlayedBar:
        """The bar that a time lies in; the first for what sounds before the song."""
        return self.played[max(0, bisect_right(self._starts, when) - 1)]
