"""A line over a chart with its fingers, and lines whose repeated chords are searched as one."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fifthwise.chart import Timeline
from fifthwise.strings.fingering import FingeredNote, Fingering
from fifthwise.strings.lines.beat import Bars, on_beat
from fifthwise.strings.lines.changes import Change

__all__ = ["ChartLine", "groups_of", "spread"]


@dataclass(frozen=True, slots=True)
class ChartLine:
    """A line over a chart.

    Attributes
    ----------
    fingering : Fingering
        Its notes in order of time, with fingers, cost and shifts.
    bars : tuple of int
        For each note, the index of its bar in the timeline: a push belongs to the bar that it leads to.
    octave : int or None
        Of the tune's unmarked 1, where a tune is played.
    """

    fingering: Fingering
    bars: tuple[int, ...]
    octave: int | None = None


def groups_of(changes: Sequence[Change]) -> tuple[tuple[Change, ...], ...]:
    """Each chord together with its repetitions, which keep its shape."""
    groups: list[list[Change]] = []
    for change in changes:
        if change.again and groups:
            groups[-1].append(change)
        else:
            groups.append([change])
    return tuple(map(tuple, groups))


def spread(timeline: Timeline, fingering: Fingering, groups: Sequence[Sequence[Change]]) -> ChartLine:
    """Give each repetition of a chord the notes and fingers of its group, at its own time."""
    found = Bars(timeline)
    notes: list[FingeredNote] = []
    firsts = []
    for note, group in zip(fingering.notes, groups, strict=True):
        firsts.append(len(notes))
        notes.extend(_repeated(found, note, group))
    shifts = tuple(replace(shift, note=firsts[shift.note]) for shift in fingering.shifts)
    bars = tuple(change.bar for group in groups for change in group)
    return ChartLine(Fingering(tuple(notes), fingering.cost, shifts), bars)


def _repeated(bars: Bars, note: FingeredNote, group: Sequence[Change]) -> Iterator[FingeredNote]:
    for change in group:
        beat = on_beat(bars.at(change.starts_at), change.starts_at)
        timed = replace(note.note, starts_at=change.starts_at, length=change.length, on_beat=beat)
        yield replace(note, note=timed)
