"""Registers: where a line may lie, and where the singer sings most."""

from fractions import Fraction

from fifthwise.chart import Chart, Timeline, TunePitch, one_pitch, tune_range
from fifthwise.strings.lines.tune_line import tune_line
from fifthwise.theory import SpelledPitch, degree_interval, transpose

__all__ = ["Register", "sung_register", "within_register"]

Register = tuple[SpelledPitch, SpelledPitch]


def sung_register(chart: Chart, timeline: Timeline) -> Register | None:
    """Where the middle half of the sung time lies; the tune's ends where only they are known.

    Returns
    -------
    (SpelledPitch, SpelledPitch) or None
        ``None`` where the tune floats or the song has none.
    """
    span = tune_range(chart, timeline)
    if span is None or chart.octave is None:
        return None
    if span.lies_from is None:
        return _placed(chart, span.lowest, chart.octave), _placed(chart, span.highest, chart.octave)
    notes = tune_line(chart, timeline, chart.octave).notes
    heard = sorted(((note.pitches[-1], note.length) for note in notes), key=lambda sung: sung[0].midi)
    total = sum((length for _, length in heard), Fraction(0))
    return _at(heard, total / 4), _at(heard, total * 3 / 4)


def within_register(sounds: frozenset[int], register: Register | None) -> frozenset[int]:
    """The MIDI numbers that a register leaves."""
    if register is None:
        return sounds
    low, high = register
    return frozenset(sound for sound in sounds if low.midi <= sound <= high.midi)


def _placed(chart: Chart, pitch: TunePitch, octave: int) -> SpelledPitch:
    return transpose(one_pitch(chart, chart.key, octave), degree_interval(pitch.degree, pitch.octave))


def _at(heard: list[tuple[SpelledPitch, Fraction]], when: Fraction) -> SpelledPitch:
    """The pitch that is reached when so much of the time is counted from the lowest up."""
    for pitch, length in heard:
        when -= length
        if when <= 0:
            return pitch
    return heard[-1][0]
