"""An empty book for each test, in SQLite and in PostgreSQL."""

import itertools
import shutil
from contextlib import contextmanager

import psycopg
import pytest

from fifthwise.book import open_book
from tests.book.postgres import postgres_server

NUMBERS = itertools.count(1)


@pytest.fixture(scope="session")
def postgres():
    """The folder of a running server's socket; one that does not start fails the tests."""
    with postgres_server() as folder:
        yield folder


@pytest.fixture(scope="session", params=["sqlite", "postgresql"])
def empty_place(request, tmp_path_factory):
    """A function that gives a block the place of an empty book of its own; twice, once a database.

    Making the tables takes longer than most tests, so each book is a copy of one that was made once.
    With ``made=False`` there are no tables yet.
    """
    if request.param == "sqlite":
        return _sqlite_places(tmp_path_factory.mktemp("books"))
    return _postgres_places(request.getfixturevalue("postgres"))


@pytest.fixture
def place(empty_place):
    """The place of an empty book."""
    with empty_place() as place:
        yield place


@pytest.fixture
def book(place):
    """An open, empty book."""
    with open_book(place) as book:
        yield book


def _sqlite_places(folder):
    open_book(folder / "made.book").close()

    @contextmanager
    def empty_place(*, made=True):
        path = folder / f"{next(NUMBERS)}.book"
        if made:
            shutil.copyfile(folder / "made.book", path)
        yield str(path)

    return empty_place


def _postgres_places(folder):
    def address(name):
        return f"postgresql+psycopg://book@/{name}?host={folder}"

    def say(statement):
        with psycopg.connect(host=folder, user="book", dbname="postgres", autocommit=True) as connection:
            connection.execute(statement)

    @contextmanager
    def empty_place(*, made=True):
        name = f"book_{next(NUMBERS)}"
        say(f"CREATE DATABASE {name} TEMPLATE {'made' if made else 'template1'}")
        try:
            yield address(name)
        finally:
            say(f"DROP DATABASE {name} WITH (FORCE)")

    say("CREATE DATABASE made")
    open_book(address("made")).close()
    return empty_place
