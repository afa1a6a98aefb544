"""A second voice to a tune: thirds and sixths, of the key and the chord, with chord tones on strong beats.

The second voice stays on its side of the tune, a third to a sixth away, so that there are neither seconds
nor unisons to run in parallel. A scale's step gives way to the chord's own tone on that step.
"""

from collections.abc import Iterator
from dataclasses import replace
from typing import Literal

from fifthwise.chart import Chart, NoteEvent, Timeline
from fifthwise.strings.errors import LineFault, Unplayable
from fifthwise.strings.fingering import Costs, Fingering, LineNote, finger_choices
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.beat import strong_beats, within
from fifthwise.strings.lines.changes import Change, change_at, changes_of
from fifthwise.strings.lines.faults import fingered
from fifthwise.strings.lines.reach import octaves_of, reached
from fifthwise.strings.lines.result import ChartLine
from fifthwise.strings.lines.tones import chord_roles
from fifthwise.strings.lines.tune_line import in_best_octave, sounding, tune_line, tune_wheres
from fifthwise.strings.lines.weights import HARMONY, HARMONY_COSTS, HarmonyWeights
from fifthwise.theory import Degree, NoteName, SpelledPitch, between

__all__ = ["Side", "harmony"]

Side = Literal["below", "above"]
Second = tuple[SpelledPitch, Degree, float]
FREE = "."
TRITONE = 6
# Steps of the scale to the tune, and the semitones that such an interval may have.
INTERVALS = {2: "third", 3: "fourth", 4: "fifth", 5: "sixth"}
NARROWEST, WIDEST = 3, 9


def harmony(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    level: Level = "first",
    *,
    side: Side = "below",
    with_tune: bool = True,
    octave: int | None = None,
    weights: HarmonyWeights = HARMONY,
    costs: Costs = HARMONY_COSTS,
) -> ChartLine:
    """Find a second voice to a song's tune.

    Parameters
    ----------
    side : {'below', 'above'}
        Where it lies.
    with_tune : bool
        Whether one player has both voices as double stops, or the second voice alone.
    octave : int, optional
        Of the tune's unmarked 1. Without it the chart's where that can be played, otherwise the octave that
        costs least.

    Raises
    ------
    LineFault
        The song has no tune.
    Unplayable
        No second voice lies under the hand; names the bar. In double stops such a note is left alone.
    """
    events = sounding(timeline)
    wheres = tune_wheres(timeline)
    held = _held(chart, timeline, events)
    sounds = reached(instrument, level)

    def fit(chosen: int) -> Fingering:
        tune = tune_line(chart, timeline, chosen)
        places = []
        for note, change, event, where in zip(tune.notes, held, events, wheres, strict=True):
            scale = _scale(chart, event, change)
            strong = _is_strong(timeline, event)
            seconds = tuple(_seconds(note, scale, change, strong, sounds, side, weights))
            choices = _double(note, seconds, side, weights) if with_tune else _single(note, seconds)
            if not choices:
                raise _none(note, side, where)
            places.append(choices)
        return fingered(
            lambda: finger_choices(tuple(places), tune.tempo_bpm, instrument, level, costs=costs), wheres
        )

    fitted, found = in_best_octave(chart, timeline, instrument, octave, fit)
    return ChartLine(found, tuple(event.bar for event in events), fitted)


def _held(chart: Chart, timeline: Timeline, events: tuple[NoteEvent, ...]) -> list[Change | None]:
    """The chord under each note."""
    try:
        changes = changes_of(chart, timeline)
    except LineFault:  # a tune alone is harmonised in its key
        return [None] * len(events)
    return [change_at(changes, event.starts_at) for event in events]


def _is_strong(timeline: Timeline, event: NoteEvent) -> bool:
    bar = timeline.bars[event.bar]
    return within(bar, event.starts_at) in strong_beats(bar.metre)


def _scale(chart: Chart, event: NoteEvent, change: Change | None) -> dict[NoteName, Degree]:
    """The key's notes, each step as the chord has it."""
    steps = {degree.step: degree for degree in chart.numbering.scale(event.key)}
    if change is not None:
        steps |= {tone.degree.step: tone.degree for tone in chord_roles(change)}
    one = chart.numbering.one(event.key)
    return {NoteName(degree.fifths + one.fifths): degree for degree in steps.values()}


def _seconds(
    note: LineNote,
    scale: dict[NoteName, Degree],
    change: Change | None,
    strong: bool,
    sounds: frozenset[int],
    side: Side,
    weights: HarmonyWeights,
) -> Iterator[Second]:
    """Every pitch that the second voice may take, with what it costs."""
    tune = note.pitches[0] if side == "below" else note.pitches[-1]
    sign = -1 if side == "below" else 1
    near = frozenset(tune.midi + sign * apart for apart in range(NARROWEST, WIDEST + 1))
    chord = None if change is None else {tone.note for tone in chord_roles(change)}
    for name, degree in scale.items():
        for pitch in octaves_of(name, near & sounds):
            steps = abs(between(tune, pitch).steps)
            if steps not in INTERVALS:
                continue
            cost = float(getattr(weights, INTERVALS[steps]))
            cost += weights.tritone * (abs(pitch.midi - tune.midi) == TRITONE)
            if chord is not None and name not in chord:
                cost += weights.off_chord_strong if strong else weights.off_chord_weak
            yield pitch, degree, cost


def _double(
    note: LineNote,
    seconds: tuple[Second, ...],
    side: Side,
    weights: HarmonyWeights,
) -> tuple[LineNote, ...]:
    """The tune with each second voice, and alone; two notes of the tune at once stay as they are."""
    if len(note.pitches) > 1:
        return (note,)
    return (*(_joined(note, second, side) for second in seconds), replace(note, cost=weights.alone))


def _joined(note: LineNote, second: Second, side: Side) -> LineNote:
    pitch, degree, cost = second
    order = 1 if side == "below" else -1
    return replace(
        note,
        pitches=(pitch, *note.pitches)[::order],
        degrees=(degree, *note.degrees)[::order],
        pins=(FREE, *note.pins)[::order] if note.pins else (),
        cost=cost,
    )


def _single(note: LineNote, seconds: tuple[Second, ...]) -> tuple[LineNote, ...]:
    return tuple(
        replace(note, pitches=(pitch,), degrees=(degree,), pins=(), cost=cost)
        for pitch, degree, cost in seconds
    )


def _none(note: LineNote, side: Side, where: str) -> Unplayable:
    pitch = note.pitches[0] if side == "below" else note.pitches[-1]
    other = "above" if side == "below" else "below"
    what = f"no second voice {side} {pitch} lies under the hand"
    return Unplayable(what, where, f"Lay it {other} the tune, or choose another octave, level or instrument")
