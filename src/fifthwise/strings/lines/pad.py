"""Long tones under the song: each held over as many chords as it belongs to."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from fifthwise.chart import Chart, Timeline
from fifthwise.strings.fingering import COSTS, Costs, Fingering, Line, LineNote, finger_line
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.changes import Change, changes_of
from fifthwise.strings.lines.faults import fingered
from fifthwise.strings.lines.result import ChartLine, groups_of
from fifthwise.strings.lines.single import one_voice
from fifthwise.strings.lines.tones import chord_roles
from fifthwise.strings.lines.voice import Register
from fifthwise.strings.lines.weights import PAD, ToneWeights

__all__ = ["pad"]

# A change of tone outweighs everything else, so that there are as few as can be.
FEWEST = 1e6
MOTION = 0.1
Groups = Sequence[Sequence[Change]]


def pad(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    level: Level = "first",
    *,
    register: Register | None = None,
    weights: ToneWeights = PAD,
    costs: Costs = COSTS,
) -> ChartLine:
    """Find long tones: the fewest there can be, and of those the best by their weights, motion and fingers.

    A silence, an NC or a ``.stop`` ends a tone. Between silences the tones are searched; the line that they
    make is then given the best fingers, which is what its cost tells.

    Raises
    ------
    LineFault
        The song has no chords.
    Unplayable
        A chord has no tone under the hand; names the bar and the chord.
    """
    groups = groups_of(changes_of(chart, timeline))
    fewest = replace(costs, change=FEWEST, motion=MOTION)
    held: list[tuple[LineNote, Change]] = []
    for stretch in _stretches(groups):
        found = one_voice(timeline, stretch, instrument, level, register, chord_roles, weights, fewest)
        held.extend(_held(found, stretch))
    line = Line(tuple(note for note, _ in held), timeline.bars[0].tempo_bpm)
    fingering = fingered(
        lambda: finger_line(line, instrument, level, costs=costs), [change.where for _, change in held]
    )
    return ChartLine(fingering, tuple(change.bar for _, change in held))


def _stretches(groups: Groups) -> Iterator[Groups]:
    """The chords between silences."""
    start = 0
    for at in range(1, len(groups) + 1):
        if at == len(groups) or not _goes_on(groups[at - 1][-1], groups[at][0]):
            yield groups[start:at]
            start = at


def _goes_on(before: Change, after: Change) -> bool:
    return before.end == after.starts_at and not before.stopped


def _held(fingering: Fingering, groups: Groups) -> Iterator[tuple[LineNote, Change]]:
    """Each tone as one note, with the chord on which it begins."""
    played = zip(fingering.notes, groups, strict=True)
    for _, members in groupby(played, key=lambda each: each[0].note.pitches):
        held = list(members)
        first = held[0][0].note
        yield replace(first, length=held[-1][1][-1].end - first.starts_at, cost=0.0), held[0][1][0]
