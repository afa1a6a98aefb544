"""A track's events, parsed by mido, as notes and texts in ticks."""

from bisect import bisect_right
from collections.abc import Callable
from io import BytesIO
from typing import TYPE_CHECKING, Any

from fifthwise.exchange.errors import UnreadableFile
from fifthwise.exchange.midi.chunks import EXPORT_AGAIN, Chunks
from fifthwise.exchange.midi.raw import RawNote, RawPart, RawSong, RawText
from fifthwise.exchange.plain_texts import plain_words

if TYPE_CHECKING:
    from mido import MidiTrack

__all__ = ["read_song"]

BAR = 4  # quarters that a note without an end may last
MOST_WORDS = 200
HEADERS = 22  # bytes before the events of a file with one track


def read_song(chunks: Chunks, file: str) -> RawSong:
    """Read every track of a file.

    Raises
    ------
    UnreadableFile
        An event says what cannot be.
    """
    song = RawSong(chunks.ppq)
    for number, data in enumerate(chunks.tracks, 1):
        _Reader(song, number).read(_parsed(data, chunks.ppq, f"{file}, track {number}"))
    for events in (song.tempos, song.metres, song.keys):
        events.sort(key=_first)
    for texts in (song.texts, song.markers, song.cues, song.lyrics):
        texts.sort(key=lambda text: text.at)
    return song


def _first(event: tuple[Any, ...]) -> int:
    return int(event[0])


def _parsed(data: bytes, ppq: int, where: str) -> "MidiTrack":
    """One track alone, so that a fault has its place."""
    from mido import MidiFile

    head = b"MThd" + b"".join(number.to_bytes(size, "big") for number, size in ((6, 4), (0, 2), (1, 2)))
    file = BytesIO(head + ppq.to_bytes(2, "big") + b"MTrk" + len(data).to_bytes(4, "big") + data)
    try:
        return MidiFile(file=file).tracks[0]
    except (OSError, EOFError, ValueError, LookupError, TypeError) as fault:
        place = f"{where}, byte {file.tell() - HEADERS}"
        raise UnreadableFile("an event cannot be read", place, EXPORT_AGAIN) from fault


class _Reader:
    """Takes the events of one track in."""

    def __init__(self, song: RawSong, track: int) -> None:
        self.song, self.track, self.at = song, track, 0
        self.parts: dict[int, RawPart] = {}
        self.sounding: dict[tuple[int, int], RawNote] = {}
        self.struck_again: set[tuple[int, int, int]] = set()
        self.ended_early: set[tuple[int, int, int]] = set()
        self.name = ""
        self.takers: dict[str, Callable[[Any], None]] = {
            "note_on": self._note_on,
            "note_off": self._note_off,
            "program_change": self._program,
            "pitchwheel": self._bend,
            "track_name": self._named,
            "set_tempo": self._tempo,
            "time_signature": self._metre,
            "key_signature": lambda event: song.keys.append((self.at, event.key)),
            "text": lambda event: self._text(song.texts, event.text),
            "marker": lambda event: self._text(song.markers, event.text),
            "cue_marker": lambda event: self._text(song.cues, event.text),
            "lyrics": lambda event: self._text(song.lyrics, event.text, is_sung=True),
            "copyright": self._copyright,
        }

    def read(self, events: "MidiTrack") -> None:
        """Take all events in, then end what still sounds."""
        for event in events:
            self.at += event.time
            taker = self.takers.get(event.type)
            if taker is not None:
                taker(event)
        self._end_all()
        for part in self.parts.values():
            part.notes.sort(key=lambda note: (note.start, note.end, note.midi))
            part.name = self.name
        self.song.parts += [part for part in self.parts.values() if any(n.end > n.start for n in part.notes)]
        self.song.names.append(self.name)

    def _end_all(self) -> None:
        """A note that the file never ends lasts to the next of its channel, a bar at most."""
        starts = {channel: sorted({n.start for n in part.notes}) for channel, part in self.parts.items()}
        for (channel, _), note in self.sounding.items():
            self.parts[channel].unended += 1
            after = bisect_right(starts[channel], note.start)
            last = note.start + BAR * self.song.ppq
            note.end = min([last, *starts[channel][after : after + 1]])

    def _part(self, channel: int) -> RawPart:
        return self.parts.setdefault(channel, RawPart(self.track, channel + 1))

    def _note_on(self, event: Any) -> None:
        if event.velocity == 0:
            self._note_off(event)
            return
        place = (event.channel, event.note)
        before = self.sounding.pop(place, None)
        if before is not None:  # struck again before it was ended
            before.end = self.at
            self.struck_again.add((*place, self.at))
        note = RawNote(self.at, self.at, event.note)
        self._part(event.channel).notes.append(note)
        if (*place, self.at) not in self.ended_early:  # a note without length, its end written first
            self.sounding[place] = note

    def _note_off(self, event: Any) -> None:
        place = (event.channel, event.note)
        note = self.sounding.get(place)
        # Some files strike a note again before they end it, at one tick: that end is the first one's.
        if note is None or (note.start == self.at and (*place, self.at) in self.struck_again):
            self.ended_early.update([(*place, self.at)] if note is None else [])
            return
        note.end = self.at
        del self.sounding[place]

    def _program(self, event: Any) -> None:
        part = self._part(event.channel)
        if not part.notes:
            part.program = event.program

    def _bend(self, event: Any) -> None:
        self._part(event.channel).bends += event.pitch != 0

    def _named(self, event: Any) -> None:
        self.name = self.name or _words(event.name)

    def _tempo(self, event: Any) -> None:
        self.song.tempos.append((self.at, event.tempo))

    def _metre(self, event: Any) -> None:
        self.song.metres.append((self.at, event.numerator, event.denominator))

    def _copyright(self, event: Any) -> None:
        self.song.copyright = self.song.copyright or _words(event.text)

    def _text(self, texts: list[RawText], text: str, *, is_sung: bool = False) -> None:
        kept = _decoded(text)[:MOST_WORDS] if is_sung else _words(text)
        if kept.strip():
            texts.append(RawText(self.at, kept, self.track))


def _decoded(text: str) -> str:
    """A text as it was meant: mido reads latin-1, which UTF-8 is mistaken for."""
    try:
        return text.encode("latin-1").decode("utf-8")
    except UnicodeDecodeError:
        return text


def _words(text: str) -> str:
    return plain_words(_decoded(text))
