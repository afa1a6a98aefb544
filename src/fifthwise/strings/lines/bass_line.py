"""A bass for the song: the chord's bass on every change, fifths and approach notes between.

Roots on the changes, the fifth in a two-beat and a waltz, chord tones in a walk, and in walk and waltz a
semitone or a step of the scale into the next chord: common practice, no source. The search weighs all of it
together with the fingers.
"""

from collections.abc import Iterator

from fifthwise.chart import Chart, Timeline
from fifthwise.strings.errors import Unplayable
from fifthwise.strings.fingering import LEVEL_NAMES, Costs, LineNote, finger_choices
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.bass_beats import BassBeat, BassStyle, bass_beats
from fifthwise.strings.lines.changes import Change, changes_of
from fifthwise.strings.lines.faults import fingered
from fifthwise.strings.lines.reach import octaves_of, reached
from fifthwise.strings.lines.result import ChartLine
from fifthwise.strings.lines.tones import chord_roles
from fifthwise.strings.lines.weights import BASS, BASS_COSTS, BassWeights
from fifthwise.theory import NoteName, Numbering

__all__ = ["bass_line"]

# Places on the line of fifths from a note to the one a semitone below it, above it, and its fifth.
HALF_BELOW, HALF_ABOVE, FIFTH = 5, -5, 1
FIRM = ("root", "fifth")
Costly = dict[NoteName, float]


def bass_line(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    level: Level = "first",
    *,
    style: BassStyle | None = None,
    weights: BassWeights = BASS,
    costs: Costs = BASS_COSTS,
) -> ChartLine:
    """Find a bass line for a song.

    Parameters
    ----------
    style : {'two-beat', 'waltz', 'walking', 'held'}, optional
        How the bass plays; without it each bar has what its feel and metre ask for.

    Raises
    ------
    LineFault
        The song has no chords.
    Unplayable
        A bass note is out of reach; names the bar and the chord.
    """
    changes = changes_of(chart, timeline)
    beats = bass_beats(timeline, changes, style)
    sounds = reached(instrument, level)
    low = min(string.midi for string in instrument.strings)
    places = []
    for at, beat in enumerate(beats):
        after = changes[beats[at + 1].change] if beat.leads else None
        notes = _offered(chart.numbering, changes[beat.change], beat, after, weights)
        choices = tuple(_choices(changes[beat.change], beat, notes, sounds, low, weights.height))
        if not choices:
            raise _out_of_reach(changes[beat.change], level)
        places.append(choices)
    fingering = fingered(
        lambda: finger_choices(tuple(places), timeline.bars[0].tempo_bpm, instrument, level, costs=costs),
        [changes[beat.change].where for beat in beats],
    )
    return ChartLine(fingering, tuple(beat.bar for beat in beats))


def _offered(
    numbering: Numbering, change: Change, beat: BassBeat, after: Change | None, weights: BassWeights
) -> Costly:
    """The notes that a beat offers, each with its cost."""
    if beat.on_change:
        return {change.bass: 0.0}
    tones = [tone for tone in chord_roles(change) if beat.walks or tone.role in FIRM]
    costs = {tone.note: float(getattr(weights, tone.role)) for tone in tones}
    costs[change.bass] = min(weights.root, costs.get(change.bass, weights.root))
    if after is None:
        return costs
    costs = {note: cost + weights.no_approach for note, cost in costs.items()}
    costs.pop(after.bass, None)  # the next note would come too early
    for note, cost in _approaches(numbering, after, weights):
        costs[note] = min(cost, costs.get(note, cost))
    return costs


def _approaches(
    numbering: Numbering, after: Change, weights: BassWeights
) -> Iterator[tuple[NoteName, float]]:
    """Notes that lead to a bass."""
    goal = after.bass
    yield NoteName(goal.fifths + HALF_BELOW), weights.half_below
    yield NoteName(goal.fifths + HALF_ABOVE), weights.half_above
    yield NoteName(goal.fifths + FIFTH), weights.fifth_of_next
    step = after.degree(goal).step
    for degree in numbering.scale(after.key):
        if (degree.step - step) % 7 in (1, 6):
            yield NoteName(degree.fifths + after.one.fifths), weights.scale_step


def _choices(
    change: Change, beat: BassBeat, notes: Costly, sounds: frozenset[int], low: int, height: float
) -> Iterator[LineNote]:
    for note, cost in notes.items():
        for pitch in octaves_of(note, sounds):
            yield LineNote(
                (pitch,),
                beat.at,
                beat.length,
                on_beat=beat.on_beat,
                degrees=(change.degree(note),),
                cost=cost + height * (pitch.midi - low),
            )


def _out_of_reach(change: Change, level: Level) -> Unplayable:
    what = f"its bass, {change.bass}, is out of reach in {LEVEL_NAMES[level]}"
    return Unplayable(what, change.where, "Choose a wider level, or another instrument for the bass")
