"""Repeats, endings and jumps of other people's files, mended where a chart could not follow them.

Brackets without their ``:|``, endings without the others, repeats that are never closed and jumps without
their signs are common in files that were only ever looked at.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fifthwise.chart import Bar, repeat_groups
from fifthwise.exchange.lead_lengths import metre_of
from fifthwise.exchange.lead_sheet import LeadBar

__all__ = ["sound_roads", "without_faults", "without_jumps", "without_pickups", "without_repeats"]

ENDINGS = "an ending that stands alone is played every time"
UNCLOSED = "a repeat that is never closed is left out"
JUMPS = "a jump without its sign is left out"
SIGNS = "a sign that no jump leads to is left out"
TWICE = "a sign that stands twice is left out the second time"


@dataclass(slots=True)
class _Bracket:
    """An ending's bracket: its numbers, first and last bar."""

    numbers: tuple[int, ...]
    start: int
    end: int


def sound_roads(bars: Sequence[LeadBar]) -> tuple[tuple[LeadBar, ...], tuple[str, ...]]:
    """Mend what a chart could not follow.

    Returns
    -------
    tuple of LeadBar, tuple of str
        And what was mended, each said once.
    """
    found, told = list(bars), dict[str, None]()
    for group in _groups(found):
        _mend_endings(found, group, told)
    _drop_unclosed(found, told)
    _mend_signs(found, told)
    return tuple(found), tuple(told)


def _groups(bars: Sequence[LeadBar]) -> list[list[_Bracket]]:
    """Brackets that follow one another without a gap."""
    groups: list[list[_Bracket]] = []
    for at, bar in enumerate(bars):
        if bar.endings:
            bracket = _Bracket(bar.endings, at, _end(bars, at))
            if groups and groups[-1][-1].end + 1 == at and min(bar.endings) > 1:
                groups[-1].append(bracket)
            else:
                groups.append([bracket])
    return groups


def _end(bars: Sequence[LeadBar], start: int) -> int:
    for at in range(start, len(bars)):
        last = at + 1 == len(bars) or bars[at + 1].endings or bars[at + 1].repeat_start
        if bars[at].repeat_end or bars[at].ends_ending or last:
            return at
    return start


def _mend_endings(bars: list[LeadBar], group: list[_Bracket], told: dict[str, None]) -> None:
    numbers = sorted(number for bracket in group for number in bracket.numbers)
    after = group[-1].end + 1
    if numbers == [1] and bars[after - 1].repeat_end and after < len(bars) and not bars[after].repeat_start:
        # The last time needs no bracket on paper; here the bar after the ``:|`` has it.
        group.append(_Bracket((2,), after, after))
        bars[after] = replace(bars[after], endings=(2,), ends_ending=True)
        numbers = [1, 2]
    if numbers != list(range(1, len(numbers) + 1)) or len(group) < 2:
        told.setdefault(ENDINGS)
        _drop_brackets(bars, group)
        return
    for bracket in group:
        bar = bars[bracket.end]
        goes_back = bool(bar.repeat_end) or max(bracket.numbers) < numbers[-1]
        bars[bracket.end] = replace(bar, repeat_end=2 if goes_back else 0, ends_ending=True)


def _drop_brackets(bars: list[LeadBar], group: Sequence[_Bracket]) -> None:
    """Play bars every time; a lone bracket says how often that is."""
    for bracket in group:
        bars[bracket.start] = replace(bars[bracket.start], endings=())
        last = bars[bracket.end]
        times = max(last.repeat_end, len(bracket.numbers)) if last.repeat_end and len(group) == 1 else 0
        bars[bracket.end] = replace(last, ends_ending=False, repeat_end=times or last.repeat_end)


def _drop_unclosed(bars: list[LeadBar], told: dict[str, None]) -> None:
    """Drop each ``|:`` that another one follows before its ``:|``."""
    opened: int | None = None
    for at, bar in enumerate(bars):
        if bar.repeat_start:
            _drop_start(bars, opened, told)
            opened = at
        if bar.repeat_end:
            opened = None
    _drop_start(bars, opened, told)


def _drop_start(bars: list[LeadBar], at: int | None, told: dict[str, None]) -> None:
    if at is not None:
        told.setdefault(UNCLOSED)
        bars[at] = replace(bars[at], repeat_start=False)


def _mend_signs(bars: list[LeadBar], told: dict[str, None]) -> None:
    _drop_seconds(bars, told)
    segno = next((at for at, bar in enumerate(bars) if bar.segno), None)
    coda = any(bar.coda for bar in bars)
    for at, bar in enumerate(bars):
        if bar.jump is None:
            continue
        target = segno if bar.jump.startswith("ds") else 0
        met = target is not None and any(
            each.to_coda if bar.jump.endswith("coda") else each.fine for each in bars[target:]
        )
        if not met or (bar.jump.endswith("coda") and not coda):
            told.setdefault(JUMPS)
            bars[at] = replace(bar, jump=None)
    _drop_signs(bars, told)


def _drop_seconds(bars: list[LeadBar], told: dict[str, None]) -> None:
    segno = coda = False
    for at, bar in enumerate(bars):
        if (segno and bar.segno) or (coda and bar.coda):
            told.setdefault(TWICE)
            bars[at] = replace(bar, segno=bar.segno and not segno, coda=bar.coda and not coda)
        segno, coda = segno or bar.segno, coda or bar.coda


def _drop_signs(bars: list[LeadBar], told: dict[str, None]) -> None:
    """Signs of a coda need a jump to it, and each other."""
    jumps = any(bar.jump and bar.jump.endswith("coda") for bar in bars)
    coda, to_coda = any(bar.coda for bar in bars), any(bar.to_coda for bar in bars)
    if (jumps and coda and to_coda) or not (coda or to_coda):
        return
    told.setdefault(SIGNS)
    bars[:] = [replace(bar, coda=False, to_coda=False) for bar in bars]


def without_jumps(bars: Iterable[LeadBar]) -> tuple[LeadBar, ...]:
    """Bars played from first to last, with their repeats."""
    return tuple(replace(bar, segno=False, coda=False, to_coda=False, fine=False, jump=None) for bar in bars)


def without_pickups(bars: Iterable[LeadBar]) -> tuple[LeadBar, ...]:
    """Bars with each short one in a metre as short, so that none leads into the next."""
    return tuple(_whole(bar) if bar.length < bar.metre.length else bar for bar in bars)


def _whole(bar: LeadBar) -> LeadBar:
    metre = metre_of(bar.length)
    return replace(bar, metre=metre, length=metre.length)


def without_repeats(bars: Iterable[LeadBar]) -> tuple[LeadBar, ...]:
    """Bars played once each."""
    return tuple(
        replace(bar, repeat_start=False, repeat_end=0, endings=(), ends_ending=False) for bar in bars
    )


def without_faults(bars: tuple[Bar, ...]) -> tuple[Bar, ...]:
    """The bars of a section, without repeats where these contradict each other."""
    if not repeat_groups(bars)[1]:
        return bars
    return tuple(replace(bar, repeat_start=False, repeat_end=None, endings=()) for bar in bars)
