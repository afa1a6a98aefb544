"""What keeping singers and keeping players share: a table of people, each name once."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from typing import Any, Generic, Protocol, TypeVar

from sqlalchemy import RowMapping, exc, insert, select

from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.errors import NameTaken
from fifthwise.book.folded import fold
from fifthwise.book.kinds import Kind, change, found
from fifthwise.book.names import checked_name

__all__ = ["People", "add", "everyone", "one", "save"]


class _Named(Protocol):
    @property
    def name(self) -> str: ...


Person = TypeVar("Person", bound=_Named)
Kept = TypeVar("Kept")


@dataclass(frozen=True, slots=True)
class People(Generic[Person, Kept]):
    """How people of one kind are kept.

    Attributes
    ----------
    columns : callable
        A person's columns beside the name.
    kept : callable
        The person that a row holds.
    """

    kind: Kind
    columns: Callable[[Person], dict[str, str | None]]
    kept: Callable[[RowMapping], Kept]


def add(book: Book, people: People[Person, Kept], person: Person) -> Kept:
    """Put a new person into a book.

    Raises
    ------
    NameFault
        The name cannot be kept, or is taken.
    """
    values = _values(people, person)
    with writing(book) as connection:
        with _telling_taken(people.kind, values["name"]):
            new = connection.execute(insert(people.kind.table).values(version=1, **values))
        key = new.inserted_primary_key
        assert key is not None
        return people.kept(found(book, connection, people.kind, key[0]))


def save(book: Book, people: People[Person, Kept], number: int, person: Person, version: int) -> Kept:
    """Save a person over the version that was read.

    Raises
    ------
    NameFault
        The name cannot be kept, or is taken.
    NotThere
        The book has nobody of that number.
    Conflict
        ``version`` is not the newest.
    """
    values = _values(people, person)
    with writing(book) as connection:
        with _telling_taken(people.kind, values["name"]):
            change(book, connection, people.kind, number, version, values)
        return people.kept(found(book, connection, people.kind, number))


def one(book: Book, people: People[Person, Kept], number: int) -> Kept:
    """One person.

    Raises
    ------
    NotThere
        The book has nobody of that number.
    """
    with reading(book) as connection:
        return people.kept(found(book, connection, people.kind, number))


def everyone(book: Book, people: People[Person, Kept]) -> tuple[Kept, ...]:
    """All people of a kind by name."""
    table = people.kind.table
    with reading(book) as connection:
        rows = connection.execute(select(table).order_by(table.c.folded_name)).mappings()
        return tuple(people.kept(row) for row in rows)


def _values(people: People[Person, Kept], person: Person) -> dict[str, Any]:
    name = checked_name(person.name, people.kind.word)
    return {"name": name, "folded_name": fold(name), **people.columns(person)}


@contextmanager
def _telling_taken(kind: Kind, name: str) -> Iterator[None]:
    """Leave it to the database to keep names apart, since it alone sees who writes at the same moment."""
    try:
        yield
    except exc.IntegrityError as error:
        raise NameTaken(
            f"there is already a {kind.word} of that name", f"'{name}'", "Add what tells the two apart"
        ) from error
