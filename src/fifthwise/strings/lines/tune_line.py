"""A chart's tune as a line for the fingers: pitches, bows, beats, phrases and pins.

Chops have no pitch and are left out, as are grace notes; slides are fingered as plain notes. A phrase begins
with the first note, with a section, and after a rest of a felt beat.
"""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart import Chart, NoteEvent, PlayedBar, Timeline, TunePitch, one_pitch
from fifthwise.strings.errors import LineFault, Unplayable
from fifthwise.strings.fingering import COSTS, Costs, Fingering, Line, LineNote, finger_line
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.beat import bar_label, on_beat
from fifthwise.strings.lines.faults import fingered
from fifthwise.theory import SpelledPitch, degree_interval, transpose

__all__ = ["FittedTune", "fitted_tune", "in_best_octave", "sounding", "tune_line", "tune_wheres"]

SEMITONES = 12
FREE = "."


@dataclass(frozen=True, slots=True)
class FittedTune:
    """A tune in the octave that suits an instrument, with its fingers.

    Attributes
    ----------
    octave : int
        Of the unmarked 1.
    moved : int
        Octaves from where the chart writes it; 0 where the tune floats.
    """

    line: Line
    fingering: Fingering
    octave: int
    moved: int = 0


def tune_line(chart: Chart, timeline: Timeline, octave: int) -> Line:
    """Take the tune of a song, as played, with its unmarked 1 in an octave.

    Parameters
    ----------
    chart : Chart
        Says what 1 is, and whence numbers count.
    timeline : Timeline
        Of the chart, unfolded.
    octave : int
        Octave of the unmarked 1 in the home key; 4 begins at middle C.

    Raises
    ------
    LineFault
        The song has no tune.
    """
    events = sounding(timeline)
    if not events:
        raise LineFault("the song has no tune", chart.title or "tune", "Write its tune in 'tune:' lines")
    ones = {key: one_pitch(chart, key, octave) for key in {event.key for event in events}}
    notes = tuple(
        _note(event, timeline.bars[event.bar], ones[event.key], starts)
        for event, starts in zip(events, _phrase_starts(timeline, events), strict=True)
    )
    return Line(notes, timeline.bars[events[0].bar].tempo_bpm)


def tune_wheres(timeline: Timeline) -> tuple[str, ...]:
    """The bar of each note of ``tune_line`` and its place there, as a fault names them."""
    told: Counter[int] = Counter()
    wheres = []
    for event in sounding(timeline):
        told[event.bar] += 1
        wheres.append(f"{bar_label(timeline.bars[event.bar])}, note {told[event.bar]}")
    return tuple(wheres)


def fitted_tune(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    level: Level = "first",
    *,
    octave: int | None = None,
    costs: Costs = COSTS,
    harmonics: bool = False,
) -> FittedTune:
    """Finger a song's tune in the octave asked for, the one it is written in, or the best one.

    Parameters
    ----------
    octave : int, optional
        Of the unmarked 1. Without it the tune stays in the chart's octave where the instrument can play it
        there; where it cannot, or where the tune floats, it goes to the octave whose fingers cost least.

    Raises
    ------
    LineFault
        The song has no tune, a pin cannot be read, or more than two notes sound at once.
    Unplayable
        No octave can be played; says why in the one that comes nearest.
    """
    wheres = tune_wheres(timeline)

    def _finger(line: Line) -> Fingering:
        return finger_line(line, instrument, level, costs=costs, harmonics=harmonics)

    def fit(chosen: int) -> Fingering:
        line = tune_line(chart, timeline, chosen)
        return fingered(lambda: _finger(line), wheres)

    fitted, fingering = in_best_octave(chart, timeline, instrument, octave, fit)
    moved = 0 if chart.octave is None else fitted - chart.octave
    return FittedTune(tune_line(chart, timeline, fitted), fingering, fitted, moved)


def in_best_octave(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    octave: int | None,
    fit: Callable[[int], Fingering],
) -> tuple[int, Fingering]:
    """Finger a tune, or what goes with it, in the octave asked for, the chart's, or the cheapest one.

    Parameters
    ----------
    fit : callable
        Fingers it with the unmarked 1 in an octave; raises ``Unplayable`` where it cannot be played.
    """
    line = tune_line(chart, timeline, 0)
    if octave is not None:
        return octave, fit(octave)
    if chart.octave is not None:
        try:
            return chart.octave, fit(chart.octave)
        except Unplayable:
            pass
    return _cheapest(fit, _octaves(line, instrument))


def _cheapest(fit: Callable[[int], Fingering], octaves: Iterable[int]) -> tuple[int, Fingering]:
    """The octave that costs least; of equal ones, and of the faults, the first."""
    found: list[tuple[int, Fingering]] = []
    fault: Unplayable | None = None
    for octave in octaves:
        try:
            found.append((octave, fit(octave)))
        except Unplayable as each:
            fault = fault or each
    if found:
        return min(found, key=lambda each: each[1].cost)
    assert fault
    raise fault


def _octaves(line: Line, instrument: Instrument) -> list[int]:
    """Octaves in which the tune lies on the strings, the most central first; the nearest where none does."""
    sounds = [pitch.midi for note in line.notes for pitch in note.pitches]
    low, high = min(sounds), max(sounds)
    opens = [string.midi for string in instrument.strings]
    bottom, top = min(opens), max(opens) + instrument.highest
    centre = (bottom + max(opens)) // 2
    ordered = sorted(range(-2, 10), key=lambda octave: abs((low + high) / 2 + SEMITONES * octave - centre))
    lying = [o for o in ordered if bottom <= low + SEMITONES * o and high + SEMITONES * o <= top]
    return lying or ordered[:1]


def sounding(timeline: Timeline) -> tuple[NoteEvent, ...]:
    """The notes of the tune that have a pitch."""
    return tuple(event for event in timeline.notes if event.note.pitches)


def _phrase_starts(timeline: Timeline, events: tuple[NoteEvent, ...]) -> Iterator[bool]:
    ended, visit = Fraction(0), -1
    for event in events:
        bar = timeline.bars[event.bar]
        yield bar.visit != visit or event.starts_at - ended >= bar.metre.tempo_unit
        ended, visit = event.starts_at + event.length, bar.visit


def _note(event: NoteEvent, bar: PlayedBar, one: SpelledPitch, phrase_start: bool) -> LineNote:
    written = event.note
    pins = written.fingers or (FREE,) * len(written.pitches)
    rows = sorted(
        ((_pitch(one, pitch), pitch.degree, pin) for pitch, pin in zip(written.pitches, pins, strict=True)),
        key=lambda row: row[0].midi,
    )
    return LineNote(
        tuple(row[0] for row in rows),
        event.starts_at,
        event.length,
        slur=written.slur,
        on_beat=on_beat(bar, event.starts_at),
        phrase_start=phrase_start,
        pins=tuple(row[2] for row in rows) if written.fingers else (),
        degrees=tuple(row[1] for row in rows),
    )


def _pitch(one: SpelledPitch, pitch: TunePitch) -> SpelledPitch:
    return transpose(one, degree_interval(pitch.degree, pitch.octave))
