"""The kinds of what is kept: found by number, changed and removed by version.

A save or a removal names the version that was looked at; the database compares it in the statement that
writes, so of several who write at once one wins. SQLite lets one writer in at a time; other databases lock
the rows that are read here, so that what a set names is not removed meanwhile.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from sqlalchemy import Column, Connection, RowMapping, Table, delete, or_, select, update

from fifthwise.book.engine import Book, writing
from fifthwise.book.errors import (
    Conflict,
    NoSuchPlayer,
    NoSuchSet,
    NoSuchSinger,
    NoSuchSong,
    NotThere,
    StandsInSets,
)
from fifthwise.book.people_tables import player, singer
from fifthwise.book.set_tables import kept_set, set_player, set_singer, set_song
from fifthwise.book.tables import song

__all__ = ["PLAYER", "SET", "SINGER", "SONG", "Kind", "change", "check_there", "found", "held", "remove"]

LARGEST = 2**31 - 1  # what every database's integers hold


@dataclass(frozen=True, slots=True)
class Kind:
    """A kind of what is kept.

    Attributes
    ----------
    word, label : str
        What a player calls it, and the column of its name.
    absent : type
        The fault where it is not there.
    named_by : tuple of Column
        Where sets name it.
    """

    word: str
    table: Table
    label: str
    absent: type[NotThere]
    named_by: tuple[Column[Any], ...] = ()


SONG = Kind("song", song, "title", NoSuchSong, (set_song.c.song_id,))
SINGER = Kind("singer", singer, "name", NoSuchSinger, (set_singer.c.singer_id, set_song.c.singer_id))
PLAYER = Kind("player", player, "name", NoSuchPlayer, (set_player.c.player_id,))
SET = Kind("set", kept_set, "name", NoSuchSet)


def found(book: Book, connection: Connection, kind: Kind, number: int, *, lock: bool = False) -> RowMapping:
    """The row of one number.

    Parameters
    ----------
    lock : bool
        Whether nobody else may write it, or name it in a set, until this transaction ends.

    Raises
    ------
    NotThere
        The book has none of that number.
    """
    asked = select(kind.table).where(kind.table.c.id == held(number))
    row = connection.execute(asked.with_for_update() if lock else asked).mappings().first()
    if row is None:
        raise _absent(book, kind, number)
    return row


def check_there(book: Book, connection: Connection, kind: Kind, numbers: Iterable[int]) -> None:
    """See that all these numbers are there, and stay until this transaction ends.

    Raises
    ------
    NotThere
        Names the first that is not.
    """
    wanted = dict.fromkeys(numbers)
    column = kind.table.c.id
    asked = select(column).where(column.in_([held(number) for number in wanted])).order_by(column)
    there = set(connection.execute(asked.with_for_update(read=True, key_share=True)).scalars())
    for number in wanted:
        if number not in there:
            raise _absent(book, kind, number)


def change(
    book: Book, connection: Connection, kind: Kind, number: int, version: int, values: dict[str, Any]
) -> None:
    """Write new values over the version that they were made from; the version goes up by one.

    Raises
    ------
    NotThere
        The book has none of that number.
    Conflict
        ``version`` is not the newest.
    """
    as_read = (kind.table.c.id == held(number)) & (kind.table.c.version == held(version))
    changed = update(kind.table).where(as_read).values(version=kind.table.c.version + 1, **values)
    if connection.execute(changed).rowcount == 0:
        theirs = found(book, connection, kind, number)
        fix = "Look at it again, then save over it"
        raise Conflict(kind.word, theirs[kind.label], theirs["version"], fix)


def remove(book: Book, kind: Kind, number: int, version: int) -> None:
    """Remove what no set names.

    Raises
    ------
    NotThere
        The book has none of that number.
    StandsInSets
        It names the sets.
    Conflict
        ``version`` is not the newest.
    """
    with writing(book) as connection:
        there = found(book, connection, kind, number, lock=True)
        sets = _sets_with(connection, kind, number)
        if sets:
            raise StandsInSets(kind.word, there[kind.label], sets)
        as_read = (kind.table.c.id == number) & (kind.table.c.version == held(version))
        if connection.execute(delete(kind.table).where(as_read)).rowcount == 0:
            fix = "Look at it again before you remove it"
            raise Conflict(kind.word, there[kind.label], there["version"], fix)


def held(number: int) -> int:
    """A number that a database can compare; 0, which nothing has, for one beyond."""
    return number if 0 < number <= LARGEST else 0


def _absent(book: Book, kind: Kind, number: int) -> NotThere:
    return kind.absent(
        f"there is no {kind.word} {number}", book.where, f"Look for it in the list of {kind.word}s"
    )


def _sets_with(connection: Connection, kind: Kind, number: int) -> tuple[str, ...]:
    if not kind.named_by:
        return ()
    naming = [
        kept_set.c.id.in_(select(column.table.c.set_id).where(column == number)) for column in kind.named_by
    ]
    asked = select(kept_set.c.name).where(or_(*naming)).order_by(kept_set.c.name, kept_set.c.id)
    return tuple(connection.execute(asked).scalars())
