"""A set as it is put together: a frozen value that is checked before it is kept."""

from dataclasses import dataclass, replace

from fifthwise.book.errors import SetFault
from fifthwise.book.names import checked_name
from fifthwise.evening import PAPERS, is_date
from fifthwise.page import Paper
from fifthwise.theory import KeyFault, read_key

__all__ = ["LONGEST_SET", "KeptSet", "KeptSetSong", "SetOrder", "SetRow", "checked_order"]

LONGEST_SET = 1000  # songs, singers or players


@dataclass(frozen=True, slots=True)
class KeptSetSong:
    """One song of a set.

    Attributes
    ----------
    singer_id : int or None
        Who sings; ``None`` for an instrumental.
    key : str or None
        The key that was called, as written; ``None`` takes the one that suits the singer.
    counts_in : str or None
        Who counts in.
    segue : bool
        Whether the next song follows without a stop.
    """

    song_id: int
    singer_id: int | None = None
    key: str | None = None
    counts_in: str | None = None
    segue: bool = False


@dataclass(frozen=True, slots=True)
class SetOrder:
    """A set: who is there, and the songs in running order; it may still be empty.

    Attributes
    ----------
    date : str or None
        As written: ``2026-12-05``, or words.
    """

    name: str
    date: str | None = None
    paper: Paper = "a4"
    singer_ids: tuple[int, ...] = ()
    player_ids: tuple[int, ...] = ()
    songs: tuple[KeptSetSong, ...] = ()


@dataclass(frozen=True, slots=True)
class KeptSet:
    """A set in a book.

    Attributes
    ----------
    id, version : int
        The number in the book, which stays, and the newest version, from 1.
    """

    id: int
    version: int
    order: SetOrder


@dataclass(frozen=True, slots=True)
class SetRow:
    """One set in a list of sets."""

    id: int
    version: int
    name: str
    date: str | None
    song_count: int


def checked_order(order: SetOrder) -> SetOrder:
    """A set as it is kept: without blanks around its texts, and with nobody there twice.

    Raises
    ------
    NameFault
        Its name, its date or who counts in is no short text on one line.
    SetFault
        A key, the date or the paper is none, or there is too much of something.
    """
    name = checked_name(order.name, "set")
    written = (order.date or "").strip()
    day = checked_name(written, f"'{name}', date") if written else None
    if day and not is_date(day):
        raise SetFault(f"there is no day '{day}'", f"'{name}'", "Write it as in '2026-12-05', or in words")
    if order.paper not in PAPERS:
        raise SetFault(f"'{order.paper}' is no paper", f"'{name}'", f"Write {', '.join(PAPERS)}")
    for what, count in _counts(order):
        if count > LONGEST_SET:
            raise SetFault(f"there are {count} {what}", f"'{name}'", f"A set may have {LONGEST_SET}; part it")
    songs = tuple(_checked(song, f"'{name}', song {place}") for place, song in enumerate(order.songs, 1))
    singers, players = (tuple(dict.fromkeys(ids)) for ids in (order.singer_ids, order.player_ids))
    return replace(order, name=name, date=day, singer_ids=singers, player_ids=players, songs=songs)


def _counts(order: SetOrder) -> tuple[tuple[str, int], ...]:
    return (
        ("songs", len(order.songs)), ("singers", len(order.singer_ids)), ("players", len(order.player_ids)),
    )  # fmt: skip


def _checked(song: KeptSetSong, where: str) -> KeptSetSong:
    counts_in = (song.counts_in or "").strip()
    return replace(
        song,
        key=_checked_key(song.key or "", where),
        counts_in=checked_name(counts_in, f"{where}, counts in") if counts_in else None,
    )


def _checked_key(text: str, where: str) -> str | None:
    key = " ".join(text.split())
    if not key:
        return None
    try:
        read_key(key)
    except KeyFault as fault:
        raise SetFault(fault.what, where, fault.fix) from fault
    return key
