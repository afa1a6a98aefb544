"""Singers, players and sets looked through: whether each is still read as what it was kept as."""

from collections.abc import Callable, Iterator

from sqlalchemy import Connection, RowMapping, Table, select

from fifthwise.book.engine import Book
from fifthwise.book.finding import Finding
from fifthwise.book.people_tables import player, singer
from fifthwise.book.players import player_of
from fifthwise.book.set_order import checked_order
from fifthwise.book.set_tables import kept_set
from fifthwise.book.sets import read_set
from fifthwise.book.singers import singer_of
from fifthwise.errors import FifthwiseError
from fifthwise.evening import SHOWS

__all__ = ["unreadable_people_and_sets"]


def unreadable_people_and_sets(book: Book, connection: Connection) -> Iterator[Finding]:
    """What cannot be read any more, each with its mend."""
    readers: tuple[tuple[str, Table, Callable[[RowMapping], object]], ...] = (
        ("singer", singer, singer_of),
        ("player", player, player_of),
        ("set", kept_set, lambda row: checked_order(read_set(book, connection, row["id"]).order)),
    )
    for word, table, read in readers:
        for row in connection.execute(select(table).order_by(table.c.id)).mappings().all():
            where = f"{word} {row['id']}, '{row['name']}'"
            try:
                read(row)
            except FifthwiseError as fault:
                yield Finding(fault.what, where, f"Open it and save it again. {fault.fix}")
            except ValueError:  # a word that nothing is called
                yield Finding(
                    f"what it shows is none of {', '.join(SHOWS)}", where, "Open it and save it again"
                )
