"""The chunks of a Standard MIDI File, and its events checked before they are parsed.

A walk over the events costs little and keeps nothing, so a file that is broken, endless or too large is
refused with its place before anything is made of it. Standard MIDI Files 1.0 (RP-001), MIDI Manufacturers
Association 1996.
"""

import struct
from dataclasses import dataclass

from fifthwise.exchange.errors import EmptyScore, TooLarge, UnreadableFile
from fifthwise.exchange.midi.limits import LARGEST_FILE, MOST_EVENTS, MOST_TRACKS

__all__ = ["EXPORT_AGAIN", "Chunks", "split_chunks"]

EXPORT_AGAIN = "Export the song again as a Standard MIDI File"
HEADER = 8  # bytes of a chunk before its data
LONGEST_NUMBER = 4  # bytes of a delta time or a length
DATA_BYTES = {0x80: 2, 0x90: 2, 0xA0: 2, 0xB0: 2, 0xC0: 1, 0xD0: 1, 0xE0: 2}
META, SYSEX, ESCAPE = 0xFF, 0xF0, 0xF7
# Metas of a fixed size, which a parser takes at their word.
SIZES = {0x20: (1,), 0x21: (0, 1), 0x00: (0, 2), 0x51: (3,), 0x54: (5,), 0x58: (4,), 0x59: (2,)}
KEY_SIGNATURE, MOST_SIGNS = 0x59, 7
KNOWN = ((b"PK", "a packed file"), (b"<", "an XML file"), (b"RIFF", "a RIFF file"), (b"%PDF", "a PDF"))


@dataclass(frozen=True, slots=True)
class Chunks:
    """A file's tracks, whole and checked.

    Attributes
    ----------
    ppq : int
        Ticks a quarter.
    tracks : tuple of bytes
        The data of each ``MTrk``.
    promised : int
        How many tracks the header says there are.
    """

    ppq: int
    tracks: tuple[bytes, ...]
    promised: int


def split_chunks(data: bytes, file: str) -> Chunks:
    """Part a file into its tracks.

    Raises
    ------
    TooLarge
        It has more than is read.
    UnreadableFile
        It is no MIDI file, is broken, or counts time in seconds.
    EmptyScore
        It has no track.
    """
    if len(data) > LARGEST_FILE:
        what = f"the file has {len(data) / 1e6:.1f} MB; {LARGEST_FILE / 1e6:g} MB are read"
        raise TooLarge(what, file, "Export one song, without controllers")
    promised, ppq, at = _header(data, file)
    tracks = _tracks(data, at, file)
    if not tracks:
        raise EmptyScore("the file has no tracks", file, "Export it again with its music")
    if len(tracks) > MOST_TRACKS:
        what = f"the file has {len(tracks)} tracks; {MOST_TRACKS} are read"
        raise TooLarge(what, file, "Export one song alone")
    left = MOST_EVENTS
    for number, track in enumerate(tracks, 1):
        left -= _Walk(track, f"{file}, track {number}").events(left)
    return Chunks(ppq, tuple(tracks), promised)


def _header(data: bytes, file: str) -> tuple[int, int, int]:
    """How many tracks are promised, ticks a quarter, and where the first track begins."""
    if not data:
        raise UnreadableFile("the file is empty", file, EXPORT_AGAIN)
    if not data.startswith(b"MThd"):
        kind = next((name for sign, name in KNOWN if data.startswith(sign)), "another kind of file")
        raise UnreadableFile(f"the file is no MIDI file but {kind}", file, EXPORT_AGAIN)
    if len(data) < HEADER + 6:
        raise UnreadableFile("the file breaks off in its header", file, EXPORT_AGAIN)
    size, form, promised, division = struct.unpack(">LHHH", data[4:14])
    if size < 6 or form > 2:
        raise UnreadableFile("the file's header is broken", file, EXPORT_AGAIN)
    if form == 2:
        what = "the file holds patterns, not one song (format 2)"
        raise UnreadableFile(what, file, "Export the song as format 0 or 1")
    if division & 0x8000:
        what = "the file counts time in film frames, not in beats"
        raise UnreadableFile(what, file, "Export it with ticks a quarter")
    if division == 0:
        raise UnreadableFile("the file has no ticks a quarter", file, EXPORT_AGAIN)
    return promised, division, HEADER + size


def _tracks(data: bytes, at: int, file: str) -> list[bytes]:
    """The data of every track; chunks of other kinds are passed over, as the standard asks."""
    found: list[bytes] = []
    while at + HEADER <= len(data):
        name, size = struct.unpack(">4sL", data[at : at + HEADER])
        at += HEADER
        if name == b"MTrk":
            if at + size > len(data):
                where = f"{file}, track {len(found) + 1}"
                what = f"the file breaks off: the track should have {size} bytes and has {len(data) - at}"
                raise UnreadableFile(what, where, "Fetch or export it again")
            found.append(data[at : at + size])
        at += size
    return found


class _Walk:
    """Goes over the events of one track."""

    def __init__(self, track: bytes, where: str) -> None:
        self.track, self.where, self.at = track, where, 0

    def events(self, most: int) -> int:
        """Count the events."""
        count, status = 0, 0
        while self.at < len(self.track):
            count += 1
            if count > most:
                what = f"the file has more than {MOST_EVENTS:,} events"
                raise TooLarge(what, self.where, "Export one song, without controllers")
            self._number()
            status = self._event(status)
        return count

    def _event(self, status: int) -> int:
        """Pass over one event; what is given back is the running status."""
        sign = self._byte()
        if sign == META:
            self._meta()
            return status
        if sign in (SYSEX, ESCAPE):
            self._skip(self._number())
            return 0
        if sign < 0x80:
            self.at -= 1
            sign = status
        if sign & 0xF0 not in DATA_BYTES:
            raise self._fault("there is no event here" if sign else "an event has no status")
        for _ in range(DATA_BYTES[sign & 0xF0]):
            if self._byte() > 0x7F:
                raise self._fault("an event has a value above 127")
        return sign

    def _meta(self) -> None:
        kind = self._byte()
        size = self._number()
        start = self.at
        self._skip(size)
        if kind in SIZES and size not in SIZES[kind]:
            raise self._fault(f"the meta event {kind:02X} has {size} bytes")
        if kind == KEY_SIGNATURE:
            signs, minor = struct.unpack("bB", self.track[start : start + 2])
            if abs(signs) > MOST_SIGNS or minor > 1:
                raise self._fault("the key signature cannot be: it has more than seven signs, or no mode")

    def _number(self) -> int:
        """A number of as many bytes as it needs, four at most."""
        value = 0
        for _ in range(LONGEST_NUMBER):
            byte = self._byte()
            value = value << 7 | byte & 0x7F
            if byte < 0x80:
                return value
        raise self._fault("a time or a length has more than four bytes")

    def _byte(self) -> int:
        self._skip(1)
        return self.track[self.at - 1]

    def _skip(self, size: int) -> None:
        if self.at + size > len(self.track):
            raise self._fault("the track ends within an event")
        self.at += size

    def _fault(self, what: str) -> UnreadableFile:
        return UnreadableFile(what, f"{self.where}, byte {self.at}", EXPORT_AGAIN)
