"""Pickups as notation writes them: the bar before is as much shorter.

A chart's pickup lies over the end of the bar before it; on paper the two together are one bar's length.
"""

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadNote
from fifthwise.theory import NoteName, NumberChord, Numbering, to_letters, to_number

__all__ = ["parted_by_pickups"]


def parted_by_pickups(
    bars: Sequence[LeadBar], pickups: Sequence[bool], numbering: Numbering
) -> tuple[LeadBar, ...]:
    """Shorten each bar that a pickup follows; chords that begin in what is cut off begin in the pickup.

    Parameters
    ----------
    pickups : sequence of bool
        Which of the bars are pickups over the bar before.
    """
    found = list(bars)
    for at in range(1, len(found)):
        if pickups[at]:
            kept = found[at - 1].length - found[at].length
            found[at] = _with_chords(found[at], found[at - 1], kept, numbering)
            found[at - 1] = _cut(found[at - 1], kept)
    return tuple(bar for bar in found if bar.length > 0)


def _cut(bar: LeadBar, kept: Fraction) -> LeadBar:
    notes = tuple(_clipped(note, kept) for note in bar.notes if note.at < kept)
    return replace(
        bar, length=kept, notes=notes, chords=tuple(chord for chord in bar.chords if chord.at < kept)
    )


def _clipped(note: LeadNote, end: Fraction) -> LeadNote:
    return replace(note, length=min(note.length, end - note.at))


def _with_chords(pickup: LeadBar, before: LeadBar, kept: Fraction, numbering: Numbering) -> LeadBar:
    if pickup.chords:
        return pickup
    was, now = numbering.one(before.key), numbering.one(pickup.key)
    moved = [replace(chord, at=chord.at - kept) for chord in before.chords if chord.at >= kept]
    return replace(pickup, chords=tuple(_counted_from(chord, was, now) for chord in moved))


def _counted_from(chord: LeadChord, was: NoteName, now: NoteName) -> LeadChord:
    """The same chord in the key of the pickup."""
    if was == now or not isinstance(chord.chord, NumberChord):
        return chord
    return replace(chord, chord=to_number(to_letters(chord.chord, was), now))
