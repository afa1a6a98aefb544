"""How far a tune reaches, and where it lies."""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart.model import Chart, TunePitch
from fifthwise.chart.timeline import Timeline
from fifthwise.theory import Key, degree_interval, nearest_interval

__all__ = ["TuneRange", "tune_range"]


@dataclass(frozen=True, slots=True)
class TuneRange:
    """A tune's ends and its middle half.

    Attributes
    ----------
    lowest, highest : TunePitch
        Its ends, as degrees of the key that holds there: in a last chorus a step up, 5 is higher than
        before.
    lies_from, lies_to : TunePitch or None
        A quarter of the time is spent below, a quarter above; ``None`` where no tune is written.
    quarters : Fraction
        Time sung.
    """

    lowest: TunePitch
    highest: TunePitch
    lies_from: TunePitch | None = None
    lies_to: TunePitch | None = None
    quarters: Fraction = Fraction(0)


def tune_range(chart: Chart, timeline: Timeline) -> TuneRange | None:
    """The range of a song's tune, or of its head where none is written; ``None`` where neither is."""
    lifts = {key: _lift(chart, key) for key in {event.key for event in timeline.notes}}
    heights = (
        (_height(pitch) + lifts[event.key], pitch, event.length)
        for event in timeline.notes
        for pitch in event.note.pitches
    )
    sung = sorted(heights, key=lambda note: note[0])
    if not sung:
        return TuneRange(chart.lowest, chart.highest) if chart.lowest and chart.highest else None
    total = sum((length for _, _, length in sung), Fraction(0))
    low, high = (_at(sung, total * part) for part in (Fraction(1, 4), Fraction(3, 4)))
    return TuneRange(sung[0][1], sung[-1][1], low, high, total)


def _lift(chart: Chart, key: Key) -> int:
    """Semitones from the unmarked 1 of the home key to that of another, the nearest way."""
    numbering = chart.numbering
    return nearest_interval(numbering.one(key).fifths - numbering.one(chart.key).fifths).semitones


def _height(pitch: TunePitch) -> int:
    return degree_interval(pitch.degree, pitch.octave).semitones


def _at(sung: list[tuple[int, TunePitch, Fraction]], when: Fraction) -> TunePitch:
    for _, pitch, length in sung:
        when -= length
        if when <= 0:
            return pitch
    return sung[-1][1]
