"""The shape of a book's database, brought up to date by migrations when a book is opened."""

from collections.abc import Callable
from pathlib import Path

from sqlalchemy import Connection, column, inspect, select, table

from fifthwise.book.database_faults import damaged
from fifthwise.book.engine import Book, alone, reading, writing
from fifthwise.book.errors import NewerBook, NotABook
from fifthwise.book.tables import metadata

__all__ = ["MIGRATIONS", "REVISIONS", "migrate"]

MIGRATIONS = Path(__file__).parent / "migrations"
REVISIONS = ("0001", "0002", "0003")  # every migration, in order; the last is today's shape
FIRST = {"song", "song_version", "song_tag"}  # the tables that every book has
MARK = table("alembic_version", column("version_num"))


def migrate(book: Book, keep: Callable[[Book, str], None]) -> None:
    """Bring a book to today's shape; an empty file or database becomes a book.

    Parameters
    ----------
    keep : callable
        Called with a book of an older shape, and that shape's revision, before it is changed. Nobody else can
        write in it meanwhile.

    Raises
    ------
    NotABook
        It is another program's database, or lacks tables that it had.
    NewerBook
        It was made by a newer fifthwise.
    """
    with reading(book) as connection:
        if _revision(book, connection) == REVISIONS[-1]:
            return
    with writing(book) as connection:
        alone(connection)
        # Somebody else may have done it while we waited to write.
        found = _revision(book, connection)
        if found is not None and found != REVISIONS[-1]:
            # One that may not be written to says so here, not after a copy was made.
            connection.execute(MARK.update().values(version_num=found))
            keep(book, found)
        if found != REVISIONS[-1]:
            _upgrade(connection)


def _revision(book: Book, connection: Connection) -> str | None:
    tables = inspect(connection).get_table_names()
    if MARK.name not in tables:
        if tables:
            raise NotABook("this is another program's database", book.where, "Name another file or database")
        return None
    found = connection.execute(select(MARK.c.version_num)).scalar()
    if found is None and len(tables) > 1:
        raise damaged(book.where)
    if found is not None and found not in REVISIONS:
        raise NewerBook("this book was made by a newer fifthwise", book.where, "Install the newest fifthwise")
    # Which tables an older book has, its migrations know; it had the first ones.
    needed = set(metadata.tables) if found == REVISIONS[-1] else FIRST if found else set()
    missing = sorted(needed - set(tables))
    if missing:
        raise NotABook(
            f"this book is damaged, it lacks '{missing[0]}'", book.where, "Go back to the newest backup"
        )
    return found


def _upgrade(connection: Connection) -> None:
    # Only a book that is new or old needs Alembic, which takes its time to load.
    from alembic import command
    from alembic.config import Config

    config = Config(attributes={"connection": connection})
    config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
    config.set_main_option("path_separator", "os")
    command.upgrade(config, "head")
