"""Bars that are shorter or longer than their metre: pickups, bars parted by a repeat, odd bars.

A file may part a bar where a repeat ends, three beats before the sign and the pickup after it. A chart writes
the bar full, its end silent, and lays the pickup over that end.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.exchange.lead_repeats import inside_repeats
from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote
from fifthwise.theory import Metre

__all__ = ["SettledBar", "metre_of", "settle_bars"]

MOST_BEATS = 32
LONGEST = Fraction(64)  # quarters; 32 halves are the longest bar that a chart may have


@dataclass(frozen=True, slots=True)
class SettledBar:
    """A bar as a chart can hold it.

    Attributes
    ----------
    bar : LeadBar
        Its length is that of the metre, of ``once``, or of the pickup.
    pickup : bool
        Whether it lies over the end of the bar before.
    once : Metre or None
        The metre of this bar alone.
    """

    bar: LeadBar
    pickup: bool = False
    once: Metre | None = None


def settle_bars(bars: Sequence[LeadBar]) -> tuple[tuple[SettledBar, ...], tuple[str, ...]]:
    """Give every bar a length that a chart can hold.

    Returns
    -------
    tuple of SettledBar, tuple of str
        And what was made of bars that fit nowhere, in words.
    """
    joined = _joined(bars)
    pickups = _pickups(joined)
    settled: list[SettledBar] = []
    told: list[str] = []
    filling = (
        {joined[0].length} if joined and pickups[0] else set()
    )  # lengths of pickups that a repeat leads to
    for at, bar in enumerate(joined):
        if bar.repeat_start and pickups[at]:
            filling.add(bar.length)
        after = {joined[at + 1].length} if at + 1 < len(joined) and pickups[at + 1] else set()
        found = _settled(bar, pickups[at], filling | after)
        if found.once is not None:
            told.append(f"bar {at + 1} lasts {_quarters(bar.length)}; it is a bar of {found.once}")
        settled.append(found)
    return tuple(settled), tuple(told)


def _settled(bar: LeadBar, is_pickup: bool, filling: set[Fraction]) -> SettledBar:
    whole = bar.metre.length
    if bar.length == whole:
        return SettledBar(bar)
    if bar.length < whole and is_pickup:
        return SettledBar(bar, pickup=True)
    if bar.length < whole and whole - bar.length in filling:
        return SettledBar(replace(bar, length=whole))
    metre = metre_of(bar.length)
    return SettledBar(replace(bar, metre=metre, length=metre.length), once=metre)


def _pickups(bars: Sequence[LeadBar]) -> list[bool]:
    """Which bars lead into the next: a short first one, or what a parted bar left for later.

    Inside a repeat none can, since a chart has pickups at the start of a section alone.
    """
    found: list[bool] = []
    for at, inside in enumerate(inside_repeats(bars)):
        bar = bars[at]
        if at == 0:
            found.append(bar.length < bar.metre.length and len(bars) > 1)
        else:
            found.append(not inside and not found[-1] and _leads_on(bars[at - 1], bar))
    return found


def _leads_on(before: LeadBar, bar: LeadBar) -> bool:
    return before.length + bar.length == before.metre.length and _is_parted(before, bar)


def _is_parted(before: LeadBar, after: LeadBar) -> bool:
    return bool(
        before.repeat_end or before.ends_ending or before.fine or before.jump
        or after.repeat_start or after.endings or after.section or after.segno or after.coda
    )  # fmt: skip


def _joined(bars: Sequence[LeadBar]) -> list[LeadBar]:
    """Bars with those put together that a plain bar line parts in the middle."""
    found: list[LeadBar] = []
    is_pickup = False  # the last one found
    for at, bar in enumerate(bars):
        if at > 1 and not is_pickup and _belong(found[-1], bar):
            found[-1] = _join(found[-1], bar)
            continue
        is_pickup = at == 0 or (not is_pickup and _leads_on(found[-1], bar))
        found.append(bar)
    return found


def _belong(last: LeadBar, bar: LeadBar) -> bool:
    short = last.length < last.metre.length and bar.length < bar.metre.length
    return short and last.length + bar.length == last.metre.length and not _is_parted(last, bar)


def _join(last: LeadBar, bar: LeadBar) -> LeadBar:
    later = last.length
    chords = tuple(LeadChord(each.at + later, each.chord) for each in bar.chords)
    notes = tuple(replace(each, at=each.at + later) for each in bar.notes)
    return replace(
        last,
        length=later + bar.length,
        chords=last.chords + chords,
        notes=_end_to_end(last.notes + notes),
        repeat_end=bar.repeat_end,
        ends_ending=bar.ends_ending,
        to_coda=bar.to_coda,
        fine=bar.fine,
        jump=bar.jump,
        words=last.words + bar.words,
    )


def _end_to_end(notes: tuple[LeadNote, ...]) -> tuple[LeadNote, ...]:
    return tuple(sorted(notes, key=lambda note: note.at))


def metre_of(length: Fraction) -> Metre:
    """The metre of a bar that lasts so long; what is finer than an eighth is filled up."""
    length = min(max(length, Fraction(1, 2)), LONGEST)
    if length.denominator == 1 and length <= MOST_BEATS:
        return Metre(int(length), 4)
    if length.denominator == 1:
        return Metre(-(-int(length) // 2), 2)
    eighths = -(-length.numerator * 2 // length.denominator)
    if eighths > MOST_BEATS:
        return metre_of(Fraction(-(-eighths // 2)))
    return Metre(eighths, 8, _groups(eighths))


def _groups(eighths: int) -> tuple[int, ...]:
    if eighths < 2:
        return (eighths,)
    twos, three = divmod(eighths, 2)
    return (2,) * (twos - three) + (3,) * three


def _quarters(length: Fraction) -> str:
    return "1 quarter" if length == 1 else f"{float(length):g} quarters"
