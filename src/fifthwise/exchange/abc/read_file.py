"""An ABC file as lead sheets, one for each of its tunes."""

from dataclasses import dataclass

from fifthwise.exchange.abc.bars import Room
from fifthwise.exchange.abc.book import parted_tunes
from fifthwise.exchange.abc.limits import MOST_FILE_BARS, MOST_NOTES, MOST_TUNES
from fifthwise.exchange.abc.read_tune import ReadTune, read_tune
from fifthwise.exchange.abc.texts import decoded
from fifthwise.exchange.errors import EmptyScore, TooLarge, UnknownPart

__all__ = ["ReadTunes", "read_abc"]

MOST_TOLD = 8


@dataclass(frozen=True, slots=True)
class ReadTunes:
    """The tunes of a file in their order, and which of them have no music, in short sentences."""

    tunes: tuple[ReadTune, ...]
    told: tuple[str, ...] = ()


def read_abc(data: bytes | str, file: str = "tunes.abc", *, part: str | None = None) -> ReadTunes:
    """Read a file of ABC 2.1, or of an older hand of it.

    Parameters
    ----------
    file : str
        The name under which faults are told.
    part : str or None
        The id or the name of the voice that is the tune; ``None`` lets each tune choose. Of several tunes,
        those that have no such voice choose.

    Raises
    ------
    TooLarge
        It has more than is read.
    UnreadableFile
        It is no text.
    EmptyScore
        It has no music.
    UnknownPart
        No voice of any tune is called so.
    """
    text = decoded(data, file)
    room = Room(MOST_FILE_BARS, MOST_NOTES, file)
    tunes: list[ReadTune] = []
    empty: list[str] = []
    unknown: UnknownPart | None = None
    found = False
    for at, tune in enumerate(parted_tunes(text), 1):
        if at > MOST_TUNES:
            raise TooLarge(f"the file has more than {MOST_TUNES} tunes", file, "Bring its tunes in parts")
        where = f"{file}, line {tune.line}"
        try:
            read = read_tune(tune, room, where, part)
            found = found or read is not None
        except UnknownPart as fault:
            unknown = unknown or fault
            read = read_tune(tune, room, where, None)
        if read is None:
            empty.append(f"the tune at line {tune.line} has no music")
        else:
            tunes.append(read)
    return _told(tunes, empty, None if found else unknown, file)


def _told(tunes: list[ReadTune], empty: list[str], unknown: UnknownPart | None, file: str) -> ReadTunes:
    if not tunes:
        what = "the file has no tune with music in it"
        raise EmptyScore(what, file, "A tune begins with 'X:1', and its music stands below a line 'K:C'")
    if unknown is not None:
        raise unknown
    if len(empty) > MOST_TOLD:
        empty = [*empty[:MOST_TOLD], f"{len(empty) - MOST_TOLD} more tunes have no music"]
    return ReadTunes(tuple(tunes), tuple(empty))
