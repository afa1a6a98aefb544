"""Singers put into a book, read, changed and removed."""

from dataclasses import dataclass

from sqlalchemy import RowMapping

from fifthwise.book import people
from fifthwise.book.engine import Book
from fifthwise.book.kinds import SINGER, remove
from fifthwise.voice import Singer, read_singer, write_singer

__all__ = ["KeptSinger", "add_singer", "remove_singer", "save_singer", "singer", "singer_of", "singers"]


@dataclass(frozen=True, slots=True)
class KeptSinger:
    """A singer in a book.

    Attributes
    ----------
    id, version : int
        The number in the book, which stays, and the newest version, from 1.
    """

    id: int
    version: int
    singer: Singer


def add_singer(book: Book, singer: Singer) -> KeptSinger:
    """Put a new singer into a book.

    Raises
    ------
    NameFault
        The name cannot be kept, or another singer has it.
    """
    return people.add(book, SINGERS, singer)


def save_singer(book: Book, singer_id: int, singer: Singer, version: int) -> KeptSinger:
    """Save a singer over the version that was read.

    Raises
    ------
    NameFault
        The name cannot be kept, or another singer has it.
    NoSuchSinger
        The book has no such singer.
    Conflict
        ``version`` is not the newest: somebody else has saved since.
    """
    return people.save(book, SINGERS, singer_id, singer, version)


def singer(book: Book, singer_id: int) -> KeptSinger:
    """One singer.

    Raises
    ------
    NoSuchSinger
        The book has no such singer.
    """
    return people.one(book, SINGERS, singer_id)


def singers(book: Book) -> tuple[KeptSinger, ...]:
    """All singers by name."""
    return people.everyone(book, SINGERS)


def remove_singer(book: Book, singer_id: int, version: int) -> None:
    """Remove a singer, and what is known of when the singer sang what.

    Raises
    ------
    NoSuchSinger
        The book has no such singer.
    StandsInSets
        The singer stands in sets, which it names.
    Conflict
        ``version`` is not the newest.
    """
    remove(book, SINGER, singer_id, version)


def singer_of(row: RowMapping) -> Singer:
    """The singer that a row holds."""
    return read_singer(row["name"], usable=row["usable"], comfort=row["comfort"], turns=row["turns"])


def _columns(singer: Singer) -> dict[str, str | None]:
    return {"turns": None, **write_singer(singer)}


SINGERS = people.People(SINGER, _columns, lambda row: KeptSinger(row["id"], row["version"], singer_of(row)))
