"""What a database says when it fails, told to a player."""

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from sqlalchemy import exc
from sqlalchemy.engine import ExceptionContext

from fifthwise.book.backup_files import newest_backup
from fifthwise.book.errors import BookAway, BookFault, BookLocked, NotABook

__all__ = ["damaged", "tell", "telling"]

# SQLite's primary result codes: https://www.sqlite.org/rescode.html
SQLITE_FAULTS: dict[int, tuple[type[BookFault], str, str]] = {
    sqlite3.SQLITE_BUSY: (
        BookLocked, "another program is writing in this book", "Wait a little, or close that program",
    ),
    sqlite3.SQLITE_LOCKED: (
        BookLocked, "another program is writing in this book", "Wait a little, or close that program",
    ),
    sqlite3.SQLITE_NOTADB: (NotABook, "this file is no book", "Name another file"),
    sqlite3.SQLITE_FULL: (BookAway, "the disk is full", "Make room, then save again"),
    sqlite3.SQLITE_READONLY: (
        BookAway,
        "this book may not be written to",
        "Check its permissions, and those of the files beside it that end in -wal and -shm",
    ),
    sqlite3.SQLITE_PERM: (BookAway, "this book may not be opened", "Check its permissions"),
    sqlite3.SQLITE_IOERR: (BookAway, "this book cannot be read or written", "Check the disk"),
    sqlite3.SQLITE_CANTOPEN: (
        BookAway, "this book cannot be opened", "Check that its folder is there, and its permissions",
    ),
}  # fmt: skip

# PostgreSQL's codes: https://www.postgresql.org/docs/current/errcodes-appendix.html
POSTGRES_FAULTS: dict[str, tuple[type[BookFault], str, str]] = {
    "25006": (BookAway, "this book may not be written to", "Write to the server that it is copied from"),
    "40P01": (BookLocked, "another program is writing in this book", "Save again"),
    "42501": (BookAway, "this book may not be opened", "Have its owner grant you the right"),
    "53100": (BookAway, "the database's disk is full", "Make room, then save again"),
    "55P03": (BookLocked, "another program is writing in this book", "Wait a little"),
}


def tell(where: str, context: ExceptionContext) -> None:
    """Raise the fault that stands behind a database's error; one that we do not know goes on as it is.

    Parameters
    ----------
    where : str
        The book's file or address, without a password.
    """
    error = context.original_exception
    fault = _known(error, where)
    if fault is not None:
        # What was opened while the file might not be written to stays so; the next one opens it anew.
        context.is_disconnect = _sqlite_code(error) == sqlite3.SQLITE_READONLY
        raise fault from error
    has_code = getattr(error, "sqlite_errorcode", None) is not None
    if not has_code and isinstance(context.sqlalchemy_exception, exc.OperationalError):
        # A database that does not let us in has no code, only words.
        words = str(error).partition("\n")[0].rpartition(": ")[2].strip()
        what = f"the database does not answer ({words})"
        raise BookAway(what, where, "Check that it runs, and its address") from error


@contextmanager
def telling(where: str | Path) -> Iterator[None]:
    """Tell the faults of SQLite and of the disk where no engine stands between."""
    try:
        yield
    except sqlite3.Error as error:
        fault = _known(error, str(where))
        if fault is None:
            raise
        raise fault from error
    except OSError as error:
        what = f"this file cannot be read or written ({error.strerror or error})"
        raise BookAway(what, str(where), "Check its folder, its permissions and the disk") from error


def damaged(where: str) -> NotABook:
    """The fault of a damaged book; it names the backup to go back to."""
    return NotABook("this book is damaged", where, _way_back(where) or "Go back to the newest backup")


def _known(error: BaseException, where: str) -> BookFault | None:
    """The fault behind an error of a database's driver."""
    state = getattr(error, "sqlstate", None)
    if state in POSTGRES_FAULTS:
        fault, what, fix = POSTGRES_FAULTS[state]
        return fault(what, where, fix)
    code = _sqlite_code(error)
    if code == sqlite3.SQLITE_CORRUPT:
        return damaged(where)
    if code not in SQLITE_FAULTS:
        return None
    fault, what, fix = SQLITE_FAULTS[code]
    if fault is NotABook:
        return NotABook(what, where, _way_back(where) or fix)
    return fault(what, where, fix)


def _sqlite_code(error: BaseException) -> int:
    """SQLite's primary code, which is the low byte; what stands above it only refines that."""
    return int(getattr(error, "sqlite_errorcode", 0)) & 0xFF


def _way_back(where: str) -> str | None:
    backup = newest_backup(where)
    if backup is None:
        return None
    return f"Put its backup of {backup.day} back, {backup.path}, with: fifthwise book put-back"
