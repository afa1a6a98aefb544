"""A bar made ready for the template: its classes, its words, and what each slot draws."""

from collections.abc import Iterator
from dataclasses import dataclass

from fifthwise.page.html_fit import bar_need, shares
from fifthwise.page.html_words import bar_words
from fifthwise.page.layout_bar import SheetBar, SheetSlot
from fifthwise.page.layout_model import Sheet, SheetRow
from fifthwise.page.layout_tune import SheetNote

__all__ = ["BarView", "SlotView", "has_pickup", "row_bars"]

MOST_TICKS = 12


@dataclass(frozen=True, slots=True)
class SlotView:
    """A slot with its share of the bar, its beat ticks and the cue over it."""

    slot: SheetSlot
    share: int
    ticks: int
    half_tick: bool


@dataclass(frozen=True, slots=True)
class BarView:
    """A bar with what the style sheet asks for.

    Attributes
    ----------
    left, right : str
        The bar lines to draw here; empty where the neighbour draws it.
    words : str
        The bar for those who hear it.
    tune : tuple of (SheetNote, int)
        Notes with their shares of the bar.
    """

    bar: SheetBar
    need: int
    slots: tuple[SlotView, ...]
    left: str
    right: str
    words: str
    tune: tuple[tuple[SheetNote, int], ...]


def row_bars(row: SheetRow) -> Iterator[BarView]:
    """The bars of a row, its pickup first; where two bar lines meet, one is drawn."""
    bars = (row.pickup, *row.bars) if row.pickup and _shows(row.pickup) else row.bars
    for place, bar in enumerate(bars):
        before = bars[place - 1] if place and _touch(bars[place - 1], bar) else None
        after = bars[place + 1] if place + 1 < len(bars) and _touch(bar, bars[place + 1]) else None
        left = "" if before is not None and before.right != "bar" and bar.left == "bar" else bar.left
        right = "" if after is not None and bar.right == "bar" else bar.right
        tune = tuple(zip(bar.tune, shares(tuple(note.length for note in bar.tune)), strict=True))
        yield BarView(bar, bar_need(bar), tuple(_slots(bar)), left, right, bar_words(bar), tune)


def has_pickup(sheet: Sheet) -> bool:
    """Whether any row hangs a pickup before its first column."""
    rows = (row for section in sheet.sections for row in section.rows)
    return any(row.pickup and _shows(row.pickup) for row in rows)


def _shows(pickup: SheetBar) -> bool:
    """Whether a pickup has anything to show: its rest alone lets the band play on, and is not drawn."""
    return bool(
        any(slot.shape not in ("rest", "hold") for slot in pickup.slots)
        or (pickup.cues or pickup.tune or pickup.signs or pickup.changes or any(pickup.words))
    )


def _touch(one: SheetBar, next_one: SheetBar) -> bool:
    return one.column + 1 == next_one.column


def _slots(bar: SheetBar) -> Iterator[SlotView]:
    for slot, share in zip(bar.slots, shares(tuple(slot.length for slot in bar.slots)), strict=True):
        whole = min(MOST_TICKS, int(slot.beats)) if bar.uneven else 0
        yield SlotView(slot, share, whole, bar.uneven and slot.beats.denominator != 1)
