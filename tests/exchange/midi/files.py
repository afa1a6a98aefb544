"""MIDI files for tests, made with mido."""

from io import BytesIO

from mido import Message, MetaMessage, MidiFile, MidiTrack

from fifthwise.chart import write_chart
from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.midi import read_midi

PPQ = 480


def track(*events, name=""):
    """A track of events at ticks: ``(tick, message)``; those at one tick stay in their order."""
    found, now = MidiTrack(), 0
    if name:
        found.append(MetaMessage("track_name", name=name))
    for at, message in sorted(events, key=lambda event: event[0]):
        found.append(message.copy(time=at - now))
        now = at
    return found


def notes(*rows, channel=0, ppq=PPQ):
    """Events of notes, each ``(start, length, midi)`` in quarters."""
    found = []
    for start, length, midi in rows:
        found.append((round((start + length) * ppq), Message("note_off", note=midi, channel=channel)))
        found.append((round(start * ppq), Message("note_on", note=midi, channel=channel)))
    return found


def line(*midis, length=1, start=0, channel=0):
    """Events of notes one after the other."""
    rows = [(start + at * length, length, midi) for at, midi in enumerate(midis) if midi]
    return notes(*rows, channel=channel)


def meta(at, kind, **values):
    """A meta event at a quarter."""
    return (round(at * PPQ), MetaMessage(kind, **values))


def filed(*tracks, kind=1, ppq=PPQ):
    """The bytes of a file."""
    file = BytesIO()
    MidiFile(type=kind, ticks_per_beat=ppq, tracks=list(tracks)).save(file=file)
    return file.getvalue()


def read(*tracks, **wishes):
    """Read a file of these tracks."""
    return read_midi(filed(*tracks), "song.mid", **wishes)


def charted(*tracks, **wishes):
    """The chart of a file of these tracks, written."""
    return write_chart(chart_of_sheet(read(*tracks, **wishes).sheet).chart)


def played(sheet):
    """The tune of a sheet as it sounds: start, length and MIDI numbers, ties joined, graces apart."""
    found, at = [], 0
    for bar in sheet.bars:
        for note in bar.notes:
            midis = tuple(pitch.midi for pitch in note.pitches)
            if note.goes_on and found and found[-1][2] == midis:
                start, length, _ = found[-1]
                found[-1] = (start, length + note.length, midis)
            else:
                found.append((at + note.at, note.length, midis))
        at += bar.length
    return found
