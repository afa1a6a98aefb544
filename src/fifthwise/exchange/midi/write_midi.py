"""A chart played out as a Standard MIDI File of format 1.

Repeats, endings, jumps and the form are unfolded: the file has every bar in the order in which it is played.
"""

from fractions import Fraction
from io import BytesIO
from math import lcm
from typing import TYPE_CHECKING, Any

from fifthwise.chart import Chart, Timeline, rekey, unfold
from fifthwise.exchange.midi.signs import Sign, chord_signs, road_signs, word_signs
from fifthwise.exchange.midi.strikes import Strike, chord_strikes, tune_strikes
from fifthwise.theory import NoteName

if TYPE_CHECKING:
    from mido import MidiTrack

__all__ = ["write_midi"]

PPQ, FINEST_PPQ = 480, 30240  # ticks a quarter; the second has all parts up to ten, thirty-seconds and more
MOST_PPQ = 32767
# Instruments of General MIDI Level 1, from 0, and velocities of a moderate mezzo-forte and mezzo-piano.
VIOLIN, PIANO = 40, 0
TUNE_VELOCITY, CHORD_VELOCITY = 80, 60
TUNE_CHANNEL, CHORD_CHANNEL = 0, 1
OFF, SIGN, ON = range(3)  # their order at one tick
Event = tuple[Fraction, int, str, dict[str, Any]]


def write_midi(chart: Chart, *, tonic: NoteName | None = None) -> bytes:
    """Write a chart as it is played: a conductor's track, the tune, and plain chords.

    Parameters
    ----------
    tonic : NoteName or None
        Of the key to play it in; ``None`` is the chart's own.

    Raises
    ------
    FormFault
        Its form cannot be played.
    """
    from mido import MidiFile

    chart = chart if tonic is None else rekey(chart, tonic)
    timeline = unfold(chart)
    tracks = [_conductor(chart, timeline)]
    if timeline.notes:
        tracks.append(_tune(chart, timeline))
    tracks.append(_chords(chart, timeline))
    ppq = _ppq([event[0] for _, events in tracks for event in events])
    written = [_track(name, events, ppq) for name, events in tracks]
    file = BytesIO()
    MidiFile(type=1, ticks_per_beat=ppq, tracks=written).save(file=file)
    return file.getvalue()


def _conductor(chart: Chart, timeline: Timeline) -> tuple[str, list[Event]]:
    end: Event = (timeline.length, OFF, "end_of_track", {})
    return chart.title, [*_signed(road_signs(chart, timeline)), end]


def _tune(chart: Chart, timeline: Timeline) -> tuple[str, list[Event]]:
    events = [_program(TUNE_CHANNEL, VIOLIN), *_signed(word_signs(chart, timeline))]
    return "Tune", [*events, *_struck(tune_strikes(chart, timeline), TUNE_CHANNEL, TUNE_VELOCITY)]


def _chords(chart: Chart, timeline: Timeline) -> tuple[str, list[Event]]:
    events = [_program(CHORD_CHANNEL, PIANO), *_signed(chord_signs(chart, timeline))]
    return "Chords", [*events, *_struck(chord_strikes(chart, timeline), CHORD_CHANNEL, CHORD_VELOCITY)]


def _program(channel: int, program: int) -> Event:
    return Fraction(0), SIGN, "program_change", {"channel": channel, "program": program}


def _signed(signs: list[Sign]) -> list[Event]:
    return [(at, SIGN, kind, values) for at, kind, values in signs]


def _struck(strikes: list[Strike], channel: int, velocity: int) -> list[Event]:
    found: list[Event] = []
    for strike in strikes:
        for midi in strike.midis:
            on = {"channel": channel, "note": midi, "velocity": velocity}
            found.append((strike.start, ON, "note_on", on))
            found.append((strike.end, OFF, "note_off", {"channel": channel, "note": midi}))
    return found


def _ppq(times: list[Fraction]) -> int:
    """Ticks a quarter with which every time is a whole tick, as far as there are so many."""
    needed = lcm(PPQ, *{time.denominator for time in times})
    return needed if needed <= MOST_PPQ else FINEST_PPQ


def _track(name: str, events: list[Event], ppq: int) -> "MidiTrack":
    from mido import Message, MetaMessage, MidiTrack

    found, now = MidiTrack(), 0
    found.append(MetaMessage("track_name", name=as_latin(name)))
    for at, _, kind, values in sorted(events, key=lambda event: event[:2]):
        tick = round(at * ppq)
        make = Message if kind in ("note_on", "note_off", "program_change") else MetaMessage
        kept = {key: as_latin(value) if key == "text" else value for key, value in values.items()}
        found.append(make(kind, time=tick - now, **kept))
        now = tick
    return found


def as_latin(text: str) -> str:
    """A text as mido writes it, in latin-1: as it is where that tells it, else the bytes of UTF-8."""
    data = text.encode("utf-8")
    try:
        latin = text.encode("latin-1")
        latin.decode("utf-8")  # raises where latin-1 is not mistaken for UTF-8
    except UnicodeEncodeError:
        return data.decode("latin-1")
    except UnicodeDecodeError:
        return text
    return data.decode("latin-1")
