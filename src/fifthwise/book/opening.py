"""A book opened: found or made, looked through, and brought up to date."""

import os
from contextlib import suppress
from os import PathLike

from fifthwise.book.backup_files import file_at, newest_backup
from fifthwise.book.backups import backup_shape
from fifthwise.book.database_faults import damaged
from fifthwise.book.engine import WAIT_MS, Book, keep_log, make_book
from fifthwise.book.schema import migrate

__all__ = ["open_book"]

OWNER_ONLY = 0o600


def open_book(url_or_path: str | PathLike[str], *, wait_ms: int = WAIT_MS) -> Book:
    """Open a book, making it where there is none. Close it when done, or use ``with``.

    A file that an older fifthwise made is backed up before it is brought up to date.

    A new file is its owner's alone; what SQLite keeps beside it and its backups are as it is.

    Parameters
    ----------
    url_or_path : str or path
        A file, or a database's address such as ``postgresql+psycopg://host/name``.
    wait_ms : int
        Milliseconds that a writer waits for another before ``BookLocked``; SQLite only.

    Raises
    ------
    NotABook
        It is something else, or damaged. It is left as it is.
    NewerBook
        It was made by a newer fifthwise.
    BookLocked
        Somebody else is writing in it.
    BookAway
        It cannot be reached, read or written.
    """
    _check_not_emptied(url_or_path)
    _make_private(url_or_path)
    book = make_book(url_or_path, wait_ms)
    try:
        # The log comes after the look at what is there: another program's file is not ours to change.
        migrate(book, backup_shape)
        keep_log(book, wait_ms)
    except BaseException:
        book.close()
        raise
    return book


def _check_not_emptied(place: str | PathLike[str]) -> None:
    """Refuse a file without a byte that was a book once: SQLite would begin an empty one in it."""
    file = file_at(place)
    if file is not None and file.is_file() and file.stat().st_size == 0 and newest_backup(place) is not None:
        raise damaged(str(file))


def _make_private(place: str | PathLike[str]) -> None:
    """Begin a new file that nobody else may read: SQLite's own would be everybody's to read."""
    file = file_at(place)
    if file is not None:
        # It is there already, or cannot be made, which SQLite tells.
        with suppress(OSError):
            os.close(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, OWNER_ONLY))
