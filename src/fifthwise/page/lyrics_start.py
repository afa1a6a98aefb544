"""The note that the singer starts on, and how far the tune reaches, in words."""

from collections.abc import Sequence

from fifthwise.chart import Chart, Timeline
from fifthwise.page.text_signs import printed
from fifthwise.theory import SpelledPitch, transpose
from fifthwise.voice import NoTune, SungNote, SungTune, sung_pitch, sung_tune

__all__ = ["reach_words", "start_words"]


def start_words(chart: Chart, timeline: Timeline, one: SpelledPitch | None = None) -> str:
    """``Starts on E♭4, the 1``; without an octave where the tune floats, empty where none is written."""
    tune = _tune(chart, timeline)
    if tune is None or not tune.timed:
        return ""
    note = tune.notes[0]
    tonic = _tonic(tune, one)
    pitch = sung_pitch(note, chart.key, tonic or SpelledPitch(chart.key.tonic.fifths, 4))
    return f"Starts on {printed(pitch if tonic else pitch.name)}, the {printed(note.degree)}"


def reach_words(chart: Chart, timeline: Timeline, one: SpelledPitch | None = None) -> str:
    """``Reaches B♭3 to C5``; empty where the tune floats or there is none."""
    tune = _tune(chart, timeline)
    tonic = None if tune is None else _tonic(tune, one)
    if tune is None or tonic is None:
        return ""
    low, high = _end(tune.notes, tune.low), _end(tune.notes, tune.high)
    ends = (printed(sung_pitch(note, chart.key, tonic)) for note in (low, high))
    return f"Reaches {' to '.join(ends)}"


def _tune(chart: Chart, timeline: Timeline) -> SungTune | None:
    try:
        return sung_tune(chart, timeline)
    except NoTune:
        return None


def _tonic(tune: SungTune, one: SpelledPitch | None) -> SpelledPitch | None:
    return tune.written if one is None else transpose(one, -tune.one)


def _end(notes: Sequence[SungNote], semitones: int) -> SungNote:
    return next(note for note in notes if note.above_home.semitones == semitones)
