"""A lead sheet's chords as what stands in a chart's bars."""

from collections.abc import Iterator
from dataclasses import replace
from fractions import Fraction

from fifthwise.chart import Slot
from fifthwise.exchange.lead_sheet import LeadBar, LeadChord
from fifthwise.theory import LetterChord, NoteName, NumberChord, to_letters, to_number

__all__ = ["SlotMaker"]

Chord = LetterChord | NumberChord | None
GRID = 12  # chords are written in twelfths of a quarter at the finest


class SlotMaker:
    """Makes the slots of one bar after another; a bar without a chord strikes the one that holds."""

    def __init__(self) -> None:
        self.sounding: LetterChord | None = None  # in letters, since a new key counts it anew
        self.begun = False

    def bar(self, bar: LeadBar, one: NoteName, *, pickup: bool) -> tuple[Slot, ...]:
        """The slots of one bar, as long as the bar."""
        chords = list(_within(bar.chords, bar.length)) if bar.chords else []
        if pickup and not chords:
            return (Slot("rest", bar.length),)
        if not chords or chords[0].at > 0:
            chords.insert(0, LeadChord(Fraction(0), self.sounding))
        ends = [chord.at for chord in chords[1:]] + [bar.length]
        self.sounding = _letters(chords[-1].chord, one)
        return tuple(_slot(chord, end - chord.at, one) for chord, end in zip(chords, ends, strict=True))


def _letters(chord: Chord, one: NoteName) -> LetterChord | None:
    return to_letters(chord, one) if isinstance(chord, NumberChord) else chord


def _slot(chord: LeadChord, length: Fraction, one: NoteName) -> Slot:
    if chord.chord is None:
        return Slot("nc", length)
    number = chord.chord if isinstance(chord.chord, NumberChord) else to_number(chord.chord, one)
    return Slot("chord", length, number, chord.marks)


def _within(chords: tuple[LeadChord, ...], length: Fraction) -> Iterator[LeadChord]:
    """Chords in order, at times that a bar can be written in, the last of several at one time."""
    found: dict[Fraction, LeadChord] = {}
    for chord in sorted(chords, key=lambda each: each.at):
        at = Fraction(round(chord.at * GRID), GRID)
        if at < length:
            found[at] = replace(chord, at=at)
    yield from found.values()
