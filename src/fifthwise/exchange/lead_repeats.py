"""Repeats as a chart writes them: each ``:|`` with the ``|:`` that it goes back to."""

from collections.abc import Sequence
from dataclasses import replace

from fifthwise.exchange.lead_sheet import LeadBar

__all__ = ["inside_repeats", "with_starts"]


def with_starts(bars: Sequence[LeadBar]) -> tuple[LeadBar, ...]:
    """Open each repeat that a file leaves open.

    A ``:|`` without a ``|:`` goes back to the bar after the last repeat, or to the first bar.
    """
    found = list(bars)
    opened, back = False, 0
    for at, bar in enumerate(bars):
        opened, back = (True, at) if bar.repeat_start else (opened, back)
        if bar.repeat_end and not opened:
            found[back] = replace(found[back], repeat_start=True)
            opened = True
        if bar.ends_ending if not bar.repeat_end else not _ending_follows(bars, at):
            opened, back = False, at + 1
    return tuple(found)


def inside_repeats(bars: Sequence[LeadBar]) -> list[bool]:
    """Whether at each bar a repeat has begun before it and has not ended, its endings included."""
    found, opened = [], False
    for at, bar in enumerate(bars):
        found.append((opened and not bar.repeat_start) or (bool(bar.endings) and bar.endings[0] > 1))
        opened = opened or bar.repeat_start
        if bar.ends_ending if not bar.repeat_end else not _ending_follows(bars, at):
            opened = False
    return found


def _ending_follows(bars: Sequence[LeadBar], at: int) -> bool:
    return at + 1 < len(bars) and bool(bars[at + 1].endings)
