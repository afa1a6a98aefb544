"""Sets put into a book, read, changed and removed."""

from collections.abc import Iterable
from typing import Any

from sqlalchemy import Connection, Table, delete, func, insert, select

from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.folded import fold
from fifthwise.book.kinds import PLAYER, SET, SINGER, SONG, change, check_there, found, remove
from fifthwise.book.set_order import KeptSet, KeptSetSong, SetOrder, SetRow, checked_order
from fifthwise.book.set_tables import kept_set as set_table
from fifthwise.book.set_tables import set_player, set_singer, set_song
from fifthwise.evening import ISO_DATE

__all__ = ["add_set", "kept_set", "read_set", "remove_set", "save_set", "sets"]


def add_set(book: Book, order: SetOrder) -> KeptSet:
    """Put a new set into a book; two sets may have one name.

    Raises
    ------
    NameFault, SetFault
        It has what no evening can have.
    NotThere
        It names a song, singer or player that the book does not have.
    """
    order = checked_order(order)
    with writing(book) as connection:
        new = connection.execute(insert(set_table).values(version=1, **_head(order)))
        key = new.inserted_primary_key
        assert key is not None
        _keep_order(book, connection, key[0], order)
        return read_set(book, connection, key[0])


def save_set(book: Book, set_id: int, order: SetOrder, version: int) -> KeptSet:
    """Save a set over the version that was read.

    Raises
    ------
    NameFault, SetFault
        It has what no evening can have.
    NotThere
        The book does not have the set, or a song, singer or player that it names.
    Conflict
        ``version`` is not the newest: somebody else has saved since.
    """
    order = checked_order(order)
    with writing(book) as connection:
        change(book, connection, SET, set_id, version, _head(order))
        for table in (set_singer, set_player, set_song):
            connection.execute(delete(table).where(table.c.set_id == set_id))
        _keep_order(book, connection, set_id, order)
        return read_set(book, connection, set_id)


def kept_set(book: Book, set_id: int) -> KeptSet:
    """One set.

    Raises
    ------
    NoSuchSet
        The book has no such set.
    """
    with reading(book) as connection:
        return read_set(book, connection, set_id)


def sets(book: Book) -> tuple[SetRow, ...]:
    """All sets, the newest day first, then by name; those without a day come last."""
    columns = (set_table.c.id, set_table.c.version, set_table.c.name, set_table.c.date)
    asked = select(*columns, func.count(set_song.c.place)).outerjoin(set_song).group_by(*columns)
    with reading(book) as connection:
        rows = [SetRow(*row) for row in connection.execute(asked)]
    by_name = sorted(rows, key=lambda row: (fold(row.name), row.id))
    return tuple(sorted(by_name, key=_day, reverse=True))


def remove_set(book: Book, set_id: int, version: int) -> None:
    """Remove a set; its songs, singers and players stay.

    Raises
    ------
    NoSuchSet
        The book has no such set.
    Conflict
        ``version`` is not the newest.
    """
    remove(book, SET, set_id, version)


def read_set(book: Book, connection: Connection, set_id: int) -> KeptSet:
    """One set, read within a transaction.

    Raises
    ------
    NoSuchSet
        The book has no such set.
    """
    row = found(book, connection, SET, set_id)
    singer_ids, player_ids, songs = (
        [each[2:] for each in connection.execute(_of_set(table, set_id))]
        for table in (set_singer, set_player, set_song)
    )
    order = SetOrder(
        row["name"],
        row["date"],
        row["paper"],
        tuple(number for (number,) in singer_ids),
        tuple(number for (number,) in player_ids),
        tuple(KeptSetSong(*columns) for columns in songs),
    )
    return KeptSet(row["id"], row["version"], order)


def _of_set(table: Table, set_id: int) -> Any:
    return select(table).where(table.c.set_id == set_id).order_by(table.c.place)


def _day(row: SetRow) -> str:
    return row.date if row.date and ISO_DATE.fullmatch(row.date) else ""


def _head(order: SetOrder) -> dict[str, str | None]:
    return {"name": order.name, "date": order.date, "paper": order.paper}


def _keep_order(book: Book, connection: Connection, set_id: int, order: SetOrder) -> None:
    singing = [song.singer_id for song in order.songs if song.singer_id is not None]
    check_there(book, connection, SONG, [song.song_id for song in order.songs])
    check_there(book, connection, SINGER, [*order.singer_ids, *singing])
    check_there(book, connection, PLAYER, order.player_ids)
    _insert(connection, set_singer, set_id, ({"singer_id": number} for number in order.singer_ids))
    _insert(connection, set_player, set_id, ({"player_id": number} for number in order.player_ids))
    _insert(connection, set_song, set_id, map(_song_columns, order.songs))


def _song_columns(song: KeptSetSong) -> dict[str, Any]:
    named = ("song_id", "singer_id", "key", "counts_in", "segue")
    return {name: getattr(song, name) for name in named}


def _insert(connection: Connection, table: Table, set_id: int, rows: Iterable[dict[str, Any]]) -> None:
    placed = [{"set_id": set_id, "place": place, **row} for place, row in enumerate(rows, 1)]
    if placed:
        connection.execute(insert(table), placed)
