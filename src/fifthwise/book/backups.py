"""A book's file copied while it is in use, and put back once it is damaged.

A copy is written under a temporary name, looked through, flushed to the disk and renamed: a backup is whole
or it is not there.
"""

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import date
from os import PathLike
from pathlib import Path

from fifthwise.book.backup_files import Backup, backup_path, backups_of, file_at, shape_path
from fifthwise.book.database_faults import damaged, telling
from fifthwise.book.engine import Book, is_file
from fifthwise.book.errors import BackupFault, BookLocked

__all__ = ["KEPT_BACKUPS", "backup", "backup_shape", "daily_backup", "is_whole", "put_back"]

KEPT_BACKUPS = 10
LOG = "-wal"
SHARED_FIRST, SHARED_SIZE = 0x40000002, 510
BESIDE = ("-wal", "-shm", "-journal")  # what SQLite keeps beside a book that is open, or was when it fell


def backup(book: Book, file: Path) -> None:
    """Copy a book, as it is now, into a file; others may go on saving meanwhile.

    Raises
    ------
    BackupFault
        The file is something else than a backup, or the book is no file.
    NotABook
        The book is damaged. An earlier backup is left as it was.
    BookAway
        The file cannot be written.
    """
    if not is_file(book):
        raise BackupFault(
            "a book in PostgreSQL is not copied into a file",
            book.where,
            "Use its own tool, as in: pg_dump --format=custom --file=band.dump ADDRESS",
        )
    _check_replaceable(book, file)
    with _replacing(file) as copy:
        with book.engine.connect() as source, closing(sqlite3.connect(copy)) as target:
            driver = source.connection.driver_connection
            assert isinstance(driver, sqlite3.Connection)
            driver.backup(target)
            # Without a log of its own the copy is one file, and is read where nothing may be written.
            target.execute("PRAGMA journal_mode=DELETE")
        # The damage that is copied is the book's own.
        _check_whole(copy, book.where)
        _take_mode(_file_of(book), copy)


def daily_backup(book: Book, today: date) -> Backup | None:
    """Make the day's backup beside a book, once, and keep the last ``KEPT_BACKUPS``.

    Returns
    -------
    Backup or None
        The day's backup; ``None`` for a book that is no file.

    Raises
    ------
    BackupFault, NotABook, BookAway
        As for ``backup``; earlier backups all stay then.
    """
    file = _file_of(book)
    if file is None:
        return None
    made = Backup(backup_path(file, today), today)
    if not made.path.exists():
        _backup_beside(book, made.path)
    for old in backups_of(file)[:-KEPT_BACKUPS]:
        if old != made:
            with suppress(OSError):
                old.path.unlink()
    return made


def backup_shape(book: Book, revision: str) -> None:
    """Back a book up as it is before its shape changes; one that is no file is left to its own tools.

    Raises
    ------
    BackupFault, NotABook, BookAway
        As for ``backup``.
    """
    file = _file_of(book)
    if file is not None:
        _backup_beside(book, shape_path(file, revision))


def _backup_beside(book: Book, file: Path) -> None:
    with telling(file):
        file.parent.mkdir(exist_ok=True)
    backup(book, file)


def put_back(place: str | PathLike[str], backup: Backup | Path) -> Path | None:
    """Put a backup's file in the place of a damaged book, which is moved aside and kept.

    Nobody else may have the book open.

    Parameters
    ----------
    backup : Backup or Path
        A daily backup, or the file of another one.

    Returns
    -------
    Path or None
        Where the damaged book is now; ``None`` where there was none.

    Raises
    ------
    BackupFault
        The place is no file.
    BookLocked
        Somebody has the book open. Nothing has been changed.
    NotABook
        The backup is no book, or is damaged itself; nothing has been changed then.
    BookAway
        A file cannot be written.
    """
    file = file_at(place)
    if file is None:
        raise BackupFault(
            "this book is no file", str(place), "Use its database's own tool, such as pg_restore"
        )
    source = backup.path if isinstance(backup, Backup) else backup
    if not source.is_file():
        raise BackupFault("there is no such backup", str(source), "Name another")
    if _in_use(file):
        raise BookLocked(
            "this book is open in another program",
            str(file),
            "Stop every fifthwise, then put the backup back",
        )
    with telling(file):
        aside = _free_name(file) if file.exists() else None
        with _replacing(file) as copy:
            _copy_whole(source, copy)
            _take_mode(file if aside else source, copy)
            # What was beside the damaged book would be read as part of the one that comes.
            kept = aside or _free_name(file)
            for end in BESIDE:
                beside = Path(f"{file}{end}")
                if beside.exists():
                    beside.rename(f"{kept}{end}")
            if aside:
                _keep_aside(file, aside)
    return aside


def is_whole(place: str | PathLike[str]) -> bool:
    """Tell whether a book's file is there and each page of it can be read, with what its log still holds."""
    file = file_at(place)
    if file is None or not file.is_file() or not _is_book(file):
        return False
    try:
        with closing(sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro", uri=True)) as connection:
            (found,) = connection.execute("PRAGMA integrity_check(1)").fetchone()
    except sqlite3.Error:
        return False
    return bool(found == "ok")


def _in_use(file: Path) -> bool:
    """Whether a program has the file open as a book: SQLite holds a lock on it all the while.

    References
    ----------
    SQLite, ``os.h``: PENDING_BYTE, SHARED_FIRST and SHARED_SIZE, the bytes that readers lock.
    """
    try:
        import fcntl
    except ImportError:  # Windows renames no file that is open
        return False
    try:
        with file.open("rb+") as held:
            fcntl.lockf(held, fcntl.LOCK_EX | fcntl.LOCK_NB, SHARED_SIZE, SHARED_FIRST)
    except BlockingIOError:
        return True
    except OSError:  # it is not there, or may not be written to: said where it is replaced
        return False
    return False


def _copy_whole(source: Path, copy: Path) -> None:
    """Copy a book's file with what its log still holds, and see that the copy is a whole book."""
    shutil.copyfile(source, copy)
    log = Path(f"{source}{LOG}")
    if log.exists() and log.stat().st_size:
        shutil.copyfile(log, f"{copy}{LOG}")
        with telling(source), closing(sqlite3.connect(copy)) as connection:
            connection.execute("PRAGMA journal_mode=DELETE").fetchone()
    _check_whole(copy, str(source))


def _keep_aside(file: Path, aside: Path) -> None:
    """Give a file a second name; where there is no such thing, a new one."""
    try:
        # Until the copy takes its place the book stays, or somebody would make an empty one.
        os.link(file, aside)
    except OSError:
        file.rename(aside)


def _take_mode(source: Path | None, copy: Path) -> None:
    """Let those read a copy who may read what it is made of."""
    if source is not None:
        shutil.copymode(source, copy)


def _file_of(book: Book) -> Path | None:
    if not is_file(book):
        return None
    with book.engine.connect() as connection:
        # SQLite knows the file whichever way it was named.
        path = connection.exec_driver_sql("PRAGMA database_list").fetchone()
    return Path(path[2]) if path is not None and path[2] else None


def _check_replaceable(book: Book, file: Path) -> None:
    own = _file_of(book)
    if own is not None and file.exists() and file.samefile(own):
        raise BackupFault("this is the book itself", str(file), "Name another file")
    if any(Path(f"{file}{end}").exists() for end in BESIDE):
        raise BackupFault("this file is a book in use", str(file), "Name another file")
    if file.exists() and not _is_book(file):
        raise BackupFault("this file is something else than a backup", str(file), "Name another file")


def _is_book(file: Path) -> bool:
    try:
        with closing(_read_only(file)) as connection:
            names = {name for (name,) in connection.execute("SELECT name FROM sqlite_master")}
    except sqlite3.Error:
        return False
    return {"alembic_version", "song"} <= names


def _check_whole(file: Path, where: str) -> None:
    """See that a copy is a book and that each page of it can be read."""
    if not file.is_file():
        raise BackupFault("there is no such backup", where, "Name another")
    with telling(where), closing(_read_only(file)) as connection:
        (found,) = connection.execute("PRAGMA integrity_check(1)").fetchone()
    if found != "ok":
        raise damaged(where)
    if not _is_book(file):
        raise BackupFault("this file is no book", where, "Name another")


def _read_only(file: Path) -> sqlite3.Connection:
    return sqlite3.connect(f"{file.absolute().as_uri()}?mode=ro&immutable=1", uri=True)


@contextmanager
def _replacing(file: Path) -> Iterator[Path]:
    """A temporary name beside a file, which takes its place at the end unless something failed."""
    with telling(file):
        handle, name = tempfile.mkstemp(prefix=f".{file.name}.", dir=file.parent)
        os.close(handle)
        copy = Path(name)
        try:
            yield copy
            with copy.open("rb+") as written:
                os.fsync(written.fileno())
            copy.replace(file)
            _flush_folder(file.parent)
        finally:
            copy.unlink(missing_ok=True)
            for end in BESIDE:
                Path(f"{copy}{end}").unlink(missing_ok=True)


def _flush_folder(folder: Path) -> None:
    if os.name == "nt":  # Windows has no such thing
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def _free_name(file: Path) -> Path:
    number = 1
    while any(Path(f"{file}.damaged-{number}{end}").exists() for end in ("", *BESIDE)):
        number += 1
    return Path(f"{file}.damaged-{number}")
