"""A file that is brought in: told by what it holds, read by the reader of its kind, made into songs."""

from collections.abc import Callable
from dataclasses import replace

from fifthwise.chart import read_chart
from fifthwise.exchange.errors import TooLarge
from fifthwise.exchange.file_kinds import KIND_NAMES, FileKind, kind_of_bytes, kind_of_text, named_kind
from fifthwise.exchange.file_text import check_length, text_of
from fifthwise.exchange.incoming_letters import letter_songs
from fifthwise.exchange.incoming_made import song_of_chart, song_of_reading
from fifthwise.exchange.incoming_numbers import number_songs
from fifthwise.exchange.incoming_scores import abc_songs, midi_songs, musicxml_songs
from fifthwise.exchange.incoming_song import NO_WISH, Incoming, Wish
from fifthwise.exchange.song_json import read_song_json

__all__ = ["LARGEST_INCOMING", "read_incoming", "too_large"]

LARGEST_INCOMING = 24_000_000  # bytes; a symphony's full score has about as many


def read_incoming(data: bytes, file: str, wish: Wish = NO_WISH) -> Incoming:
    """Read a file that somebody brings in.

    Parameters
    ----------
    data : bytes
        The whole file.
    file : str
        Its name, under which faults are told; it decides only what the content leaves open.
    wish : Wish
        What is settled beforehand.

    Returns
    -------
    Incoming
        At least one song, or one that could not be read.

    Raises
    ------
    FifthwiseError
        No song can be made of it: too large, broken, empty, of another kind, or at fault; says where and how
        to mend it.
    """
    if len(data) > LARGEST_INCOMING:
        raise too_large(len(data), file)
    kind = kind_of_bytes(data, file)
    if kind is not None:
        return _told_first(READERS[kind](data, file, wish), _name_told(kind, file))
    read = text_of(data, file)
    kind = kind_of_text(read.text, file)
    found = TEXT_READERS[kind](read.text, file, wish)
    return _told_first(found, (*read.told, *_name_told(kind, file)))


def too_large(size: int, file: str) -> TooLarge:
    """The fault of a file that is larger than is read."""
    most = f"{LARGEST_INCOMING / 1e6:.0f} MB"
    return TooLarge(f"the file has {size / 1e6:.1f} MB; {most} are read", file, "Bring in one song alone")


def _told_first(found: Incoming, told: tuple[str, ...]) -> Incoming:
    """What is told of the whole file, told of its first song."""
    if not told or not found.songs:
        return found
    first, *others = found.songs
    return replace(found, songs=(replace(first, told=(*told, *first.told)), *others))


def _name_told(kind: FileKind, file: str) -> tuple[str, ...]:
    """That the file is something else than its name says; a text may be named as any text."""
    named = named_kind(file)
    if (
        named is None
        or named == kind
        or named in ("letters", "numbers")
        or {named, kind} == {"chart", "letters"}
    ):
        return ()
    return (f"it is {KIND_NAMES[kind]}, though its name is that of {KIND_NAMES[named]}",)


def _chart(text: str, file: str, wish: Wish) -> Incoming:
    """Chart text; kept word for word."""
    check_length(text, file)
    return Incoming(KIND_NAMES["chart"], (song_of_reading(read_chart(text, file), wish, text),))


def _json(text: str, file: str, wish: Wish) -> Incoming:
    """A song as this program writes it in JSON."""
    return Incoming(KIND_NAMES["json"], (song_of_chart(read_song_json(text, file), wish),))


TEXT_READERS: dict[FileKind, Callable[[str, str, Wish], Incoming]] = {
    "chart": _chart,
    "abc": abc_songs,
    "letters": letter_songs,
    "numbers": number_songs,
    "json": _json,
}
READERS: dict[FileKind, Callable[[bytes, str, Wish], Incoming]] = {
    "musicxml": musicxml_songs,
    "midi": midi_songs,
}
