"""Bars' chords as slots to draw: marks, held chords tied over bar lines, beats."""

from collections.abc import Iterable, Iterator
from fractions import Fraction

from fifthwise.chart import Bar, Slot
from fifthwise.page.layout_bar import SheetSlot
from fifthwise.page.layout_reader import Reader
from fifthwise.theory import Key

__all__ = ["bar_slots", "is_uneven", "tied_bars"]

TiedBars = dict[int, tuple[bool, bool]]


def tied_bars(bars: Iterable[Bar]) -> TiedBars:
    """For each bar of a section: whether a diamond is tied into it, and whether one is tied out of it."""
    bars = list(bars)
    held, into = False, []
    for bar in bars:
        into.append(held and _goes_on(bar))
        for slot in bar.slots:
            if slot.kind != "hold":
                held = "hold" in slot.marks
    return {i: (into[i], i + 1 < len(bars) and into[i + 1]) for i in range(len(bars))}


def _goes_on(bar: Bar) -> bool:
    return bool(bar.slots) and bar.slots[0].kind == "hold"


def is_uneven(bar: Bar) -> bool:
    """Whether a bar's slots differ in length, or share it in parts such as a beat and a half."""
    if bar.copied or len(bar.slots) < 2:
        return False
    beats = {slot.length / bar.metre.beat for slot in bar.slots}
    return len(beats) > 1 or any(part > 1 and part.denominator > 1 for part in beats)


def bar_slots(bar: Bar, reader: Reader, key: Key, tied: tuple[bool, bool]) -> tuple[SheetSlot, ...]:
    """A bar's slots; a repeated bar is one sign, and a bar that could not be read is a question."""
    beats = bar.length / bar.metre.beat
    if not bar.slots:
        return (SheetSlot("unread", Fraction(0), bar.length, beats),)
    if bar.copied:
        return (SheetSlot("same", Fraction(0), bar.length, beats),)
    return tuple(_slots(bar, reader, key, tied))


def _slots(bar: Bar, reader: Reader, key: Key, tied: tuple[bool, bool]) -> Iterator[SheetSlot]:
    at = Fraction(0)
    for i, slot in enumerate(bar.slots):
        last = i == len(bar.slots) - 1
        yield _slot(
            slot, at, slot.length / bar.metre.beat, reader, key, (tied[0] and i == 0, tied[1] and last)
        )
        at += slot.length


def _slot(
    slot: Slot, at: Fraction, beats: Fraction, reader: Reader, key: Key, tied: tuple[bool, bool]
) -> SheetSlot:
    if slot.chord is None:
        return SheetSlot(
            "chord" if slot.kind == "chord" else slot.kind,
            at,
            slot.length,
            beats,
            tied=tied[1],
            tie_from=tied[0],
        )
    marks = slot.marks
    return SheetSlot(
        "chord", at, slot.length, beats,
        reader.main(slot.chord, key), reader.small(slot.chord, key),
        push="push" in marks or "push16" in marks, sixteenth="push16" in marks, late="late" in marks,
        stop="stop" in marks, accent="accent" in marks, held="hold" in marks, tied=tied[1],
    )  # fmt: skip
