"""A kept set as the evening that the stage plans."""

from functools import lru_cache
from typing import Any

from sqlalchemy import Connection, RowMapping, Table, select

from fifthwise.book.engine import Book, reading
from fifthwise.book.people_tables import player, singer
from fifthwise.book.players import player_of
from fifthwise.book.set_order import SetOrder
from fifthwise.book.sets import read_set
from fifthwise.book.singers import singer_of
from fifthwise.book.tables import song
from fifthwise.chart import Chart, parse
from fifthwise.evening import Evening, SetSong

__all__ = ["evening_of", "read_evening_of"]


def evening_of(book: Book, set_id: int) -> tuple[Evening, dict[str, Chart]]:
    """A set as an evening, with its charts by the names that the evening gives them: their numbers.

    Its singers are those who are there, then any other who sings. A song's ``line`` is its place, from 1.

    Raises
    ------
    NoSuchSet
        The book has no such set.
    """
    with reading(book) as connection:
        evening = read_evening_of(book, connection, set_id)
        songs = _rows(connection, song, dict.fromkeys(int(each.chart) for each in evening.songs))
    return evening, {str(number): _parsed(row["text"]) for number, row in songs.items()}


def read_evening_of(book: Book, connection: Connection, set_id: int) -> Evening:
    """A set as an evening, read within a transaction.

    Raises
    ------
    NoSuchSet
        The book has no such set.
    """
    order = read_set(book, connection, set_id).order
    singing = (each.singer_id for each in order.songs if each.singer_id is not None)
    singers = _rows(connection, singer, dict.fromkeys((*order.singer_ids, *singing)))
    players = _rows(connection, player, dict.fromkeys(order.player_ids))
    return Evening(
        order.name,
        order.date,
        tuple(map(singer_of, singers.values())),
        tuple(map(player_of, players.values())),
        _songs(order, singers),
        order.paper,
    )


@lru_cache(maxsize=128)
def _parsed(text: str) -> Chart:
    """A kept text's chart; a set is looked at again and again while it is put together."""
    return parse(text)


def _rows(connection: Connection, table: Table, numbers: dict[int, Any]) -> dict[int, RowMapping]:
    """Rows by their numbers, in the order of those."""
    rows = connection.execute(select(table).where(table.c.id.in_(numbers))).mappings()
    found = {row["id"]: row for row in rows}
    return {number: found[number] for number in numbers}


def _songs(order: SetOrder, singers: dict[int, RowMapping]) -> tuple[SetSong, ...]:
    return tuple(
        SetSong(
            str(each.song_id),
            None if each.singer_id is None else singers[each.singer_id]["name"],
            each.key,
            each.counts_in,
            each.segue,
            place,
        )
        for place, each in enumerate(order.songs, 1)
    )
