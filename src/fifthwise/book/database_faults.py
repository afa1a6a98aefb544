"""What a database says when it fails, told to a player."""

import sqlite3

from sqlalchemy import exc
from sqlalchemy.engine import ExceptionContext

from fifthwise.book.errors import BookAway, BookFault, BookLocked, NotABook

__all__ = ["tell"]

# SQLite's primary result codes: https://www.sqlite.org/rescode.html
SQLITE_FAULTS: dict[int, tuple[type[BookFault], str, str]] = {
    sqlite3.SQLITE_BUSY: (
        BookLocked, "another program is writing in this book", "Wait a little, or close that program",
    ),
    sqlite3.SQLITE_LOCKED: (
        BookLocked, "another program is writing in this book", "Wait a little, or close that program",
    ),
    sqlite3.SQLITE_NOTADB: (NotABook, "this file is no book", "Name another file"),
    sqlite3.SQLITE_CORRUPT: (NotABook, "this book is damaged", "Go back to the newest backup"),
    sqlite3.SQLITE_FULL: (BookAway, "the disk is full", "Make room, then save again"),
    sqlite3.SQLITE_READONLY: (BookAway, "this book may not be written to", "Check its permissions"),
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
    state = getattr(error, "sqlstate", None)
    if state in POSTGRES_FAULTS:
        fault, what, fix = POSTGRES_FAULTS[state]
        raise fault(what, where, fix) from error
    # The low byte is the primary code, what stands above it only refines that.
    code = getattr(error, "sqlite_errorcode", None)
    if code is not None and code & 0xFF in SQLITE_FAULTS:
        fault, what, fix = SQLITE_FAULTS[code & 0xFF]
        raise fault(what, where, fix) from error
    if code is None and isinstance(context.sqlalchemy_exception, exc.OperationalError):
        # A database that does not let us in has no code, only words.
        words = str(error).partition("\n")[0].rpartition(": ")[2].strip()
        what = f"the database does not answer ({words})"
        raise BookAway(what, where, "Check that it runs, and its address") from error
