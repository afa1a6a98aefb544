"""The engine under a book, and all that only one database knows about.

SQLite begins a transaction as a reader and is refused when it turns to writing while another writes; so a
writer says it at the start, and then waits its turn. ``synchronous=FULL`` writes the log through to the
disk before a save is acknowledged. A file that was moved or replaced stays open, and what is saved in it then
is seen by nobody; so each transaction looks first whether the file is still in its place.

PostgreSQL shows each statement of a transaction what was kept when it began; a reader asks for one picture.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from os import PathLike, fspath
from pathlib import Path
from time import monotonic, sleep
from types import TracebackType
from typing import Any, Self

from sqlalchemy import URL, Connection, Engine, create_engine, event, exc, make_url
from sqlalchemy.engine.interfaces import DBAPIConnection
from sqlalchemy.pool import ConnectionPoolEntry, QueuePool

from fifthwise.book.backup_files import file_at
from fifthwise.book.database_faults import tell
from fifthwise.book.errors import BookAway, BookLocked

__all__ = ["WAIT_MS", "Book", "alone", "is_file", "keep_log", "make_book", "reading", "writing"]

WAIT_MS = 5000  # how long a writer waits for another; a save takes some ten
BEGIN = "fifthwise_begin"
OPENED = "fifthwise_opened"
ASK_AGAIN_S = 0.02
DRIVER = "postgresql+psycopg"
ONE_PICTURE = {"isolation_level": "REPEATABLE READ", "postgresql_readonly": True}
MAKERS = 0x6669667468  # a number of our own, which all who make or mend the same database wait for
# A file has no limit on readers, and a writer waits in SQLite, not here; so no thread waits for a connection.
SQLITE_POOL: dict[str, Any] = {"poolclass": QueuePool, "pool_size": 8, "max_overflow": -1}


@dataclass(frozen=True, slots=True)
class Book:
    """An open book; ``with`` closes it.

    Attributes
    ----------
    where : str
        Its file or address, without a password.
    engine : Engine
        The database under it, for this package alone.
    """

    where: str
    engine: Engine

    def close(self) -> None:
        """Let go of the file or the connections."""
        self.engine.dispose()

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()


def make_book(place: str | PathLike[str], wait_ms: int) -> Book:
    """Set an engine up for a file or a database's address; nothing is opened yet.

    Raises
    ------
    BookAway
        The address cannot be read, or its database needs what is not installed.
    """
    text = fspath(place)
    url = _read_url(text) if "://" in text else URL.create("sqlite", database=str(Path(text).absolute()))
    where = url.render_as_string(hide_password=True) if "://" in text else text
    try:
        engine = create_engine(url, **(SQLITE_POOL if url.get_backend_name() == "sqlite" else {}))
    except (exc.NoSuchModuleError, ModuleNotFoundError) as error:
        mend = "Run: pip install 'fifthwise[postgres]'" if url.drivername == DRIVER else "Name a file"
        raise BookAway(f"no driver is installed for '{url.drivername}'", where, mend) from error
    event.listen(engine, "handle_error", partial(tell, where))
    if engine.dialect.name == "sqlite":
        event.listen(engine, "connect", partial(_set_sqlite, wait_ms))
        file = file_at(place)
        event.listen(engine, "begin", partial(_check_in_place, file and file.absolute(), where))
        event.listen(engine, "begin", _begin_sqlite)
    return Book(where, engine)


def _read_url(text: str) -> URL:
    try:
        url = make_url(text)
    except exc.ArgumentError as error:
        raise BookAway(
            "this is no address of a database", "book", "Write one as in 'postgresql+psycopg://host/name'"
        ) from error
    return url.set(drivername=DRIVER) if url.drivername in ("postgresql", "postgres") else url


def _set_sqlite(wait_ms: int, connection: DBAPIConnection, _entry: ConnectionPoolEntry) -> None:
    # Python's own BEGIN comes late and only for some statements; _begin_sqlite says it instead.
    connection.isolation_level = None
    cursor = connection.cursor()
    for setting in ("foreign_keys=ON", "synchronous=FULL", f"busy_timeout={wait_ms}"):
        cursor.execute(f"PRAGMA {setting}")
    cursor.close()


def _check_in_place(file: Path | None, where: str, connection: Connection) -> None:
    found = _identity(file) if file is not None else None
    opened = connection.info.get(OPENED)
    if opened is None:
        connection.info[OPENED] = found
    elif found != opened:
        what = "this book's file is not the one that was opened"
        raise BookAway(what, where, "Stop every fifthwise, see what lies there, and start again")


def _identity(file: Path) -> tuple[int, int] | None:
    try:
        found = file.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


def _begin_sqlite(connection: Connection) -> None:
    begin = connection.get_execution_options().get(BEGIN, "BEGIN")
    if begin:
        connection.exec_driver_sql(begin)


def is_file(book: Book) -> bool:
    """Tell whether a book is a file of SQLite's."""
    return book.engine.dialect.name == "sqlite"


def alone(connection: Connection) -> None:
    """Wait until nobody else is making this book's tables; SQLite's writers are alone anyway."""
    if connection.dialect.name == "postgresql":
        connection.exec_driver_sql(f"SELECT pg_advisory_xact_lock({MAKERS})")


def keep_log(book: Book, wait_ms: int) -> None:
    """Have SQLite write ahead into a log; the file remembers it. Other databases do so anyway.

    Raises
    ------
    BookLocked
        Somebody else is writing in it for longer than ``wait_ms``.
    BookAway
        The file lies where SQLite cannot do so.
    """
    if not is_file(book):
        return
    deadline = monotonic() + wait_ms / 1000
    while (mode := _log_mode(book, last=monotonic() >= deadline)) is None:
        sleep(ASK_AGAIN_S)
    if mode != "wal":
        raise BookAway(
            "a book cannot be kept safely in this place", book.where, "Keep it on a disk of this computer"
        )


def _log_mode(book: Book, *, last: bool) -> str | None:
    """SQLite's mode once asked for the log; ``None`` where somebody else is at it, except at the last try."""
    try:
        with book.engine.connect().execution_options(**{BEGIN: ""}) as connection:
            return str(connection.exec_driver_sql("PRAGMA journal_mode=WAL").scalar_one())
    except BookLocked:
        # SQLite does not wait here by itself: two who both turn to the log would wait for each other.
        if last:
            raise
        return None


@contextmanager
def reading(book: Book) -> Iterator[Connection]:
    """Read in one transaction: what is read fits together."""
    options = {} if is_file(book) else ONE_PICTURE
    with book.engine.connect().execution_options(**options) as connection, connection.begin():
        yield connection


@contextmanager
def writing(book: Book) -> Iterator[Connection]:
    """Write in one transaction: all of it is kept at the end, or none."""
    options = {BEGIN: "BEGIN IMMEDIATE"}
    with book.engine.connect().execution_options(**options) as connection, connection.begin():
        yield connection
