"""A timeline's tune and chords as notes that are struck and let go, in quarters."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from fifthwise.chart import Chart, Entry, NoteEvent, Timeline
from fifthwise.exchange.chart_tune import FLOATING_OCTAVE
from fifthwise.exchange.lead_tune import one_in
from fifthwise.exchange.midi.voicing import voiced
from fifthwise.theory import NumberChord, degree_interval, to_letters, transpose

__all__ = ["Strike", "chord_strikes", "tune_strikes"]

GRACE = Fraction(1, 16)  # quarters of a grace note, taken from what is before it
STOPPED = Fraction(1, 2)  # quarters that a stopped chord rings
SEMITONES, HIGHEST = 12, 127


@dataclass(frozen=True, slots=True)
class Strike:
    """Notes that begin and end together."""

    start: Fraction
    end: Fraction
    midis: tuple[int, ...]


def tune_strikes(chart: Chart, timeline: Timeline) -> list[Strike]:
    """The tune; grace notes come before the beat, and from it where there is no room."""
    found: list[Strike] = []
    for event in timeline.notes:
        if event.note.kind == "note":
            _add(found, event, chart)
    return found


def _add(found: list[Strike], event: NoteEvent, chart: Chart) -> None:
    start, end = event.starts_at, event.starts_at + event.length
    graces = _midis(chart, event, grace=True)
    size = GRACE * len(graces)
    begin = start - size
    free = found[-1].start if found else Fraction(-1)
    if graces and (begin <= free or begin < 0):
        begin = start
        start = min(start + size, end - event.length / 2)
        size = start - begin
    if found and found[-1].end > begin:
        found[-1] = replace(found[-1], end=begin)
    for at, midi in enumerate(graces):
        found.append(Strike(begin + size * at / len(graces), begin + size * (at + 1) / len(graces), (midi,)))
    found.append(Strike(start, end, _midis(chart, event)))


def _midis(chart: Chart, event: NoteEvent, *, grace: bool = False) -> tuple[int, ...]:
    octave = FLOATING_OCTAVE if chart.octave is None else chart.octave
    one = one_in(chart.numbering, chart.key, event.key, octave)
    pitches = event.note.grace if grace else event.note.pitches
    found = [_in_range(transpose(one, degree_interval(p.degree, p.octave)).midi) for p in pitches]
    return tuple(found) if grace else tuple(sorted(set(found)))


def _in_range(midi: int) -> int:
    """A MIDI number, moved by octaves where there is none so low or high."""
    if 0 <= midi <= HIGHEST:
        return midi
    return midi % SEMITONES + (0 if midi < 0 else HIGHEST // SEMITONES * SEMITONES - SEMITONES)


def chord_strikes(chart: Chart, timeline: Timeline) -> list[Strike]:
    """Each chord as long as it rings: to the next one, or cut short where it is stopped."""
    entries = sorted(timeline.entries, key=lambda entry: entry.sounds_at)
    ends = [later.sounds_at for _, later in pairwise(entries)]
    return list(_struck(chart, entries, [*ends, timeline.length]))


def _struck(chart: Chart, entries: Sequence[Entry], ends: Sequence[Fraction]) -> Iterator[Strike]:
    for entry, until in zip(entries, ends, strict=True):
        start = max(entry.sounds_at, Fraction(0))
        end = min(entry.written_at + entry.length, until)
        if "stop" in entry.marks:
            end = min(end, start + STOPPED)
        if isinstance(entry.chord, NumberChord) and end > start:
            yield Strike(start, end, voiced(to_letters(entry.chord, chart.numbering.one(entry.key))))
