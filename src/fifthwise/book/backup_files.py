"""Where a book's backups lie: in the folder ``backups`` beside it, each named by its day."""

import re
from dataclasses import dataclass
from datetime import date
from os import PathLike, fspath
from pathlib import Path

from sqlalchemy import exc, make_url

__all__ = ["FOLDER", "Backup", "backup_path", "backups_of", "file_at", "newest_backup", "shape_path"]

FOLDER = "backups"
SUFFIX = ".sqlite"
DAY = re.compile(r"\d{4}-\d{2}-\d{2}")


@dataclass(frozen=True, slots=True)
class Backup:
    """A book as it was at one time on a day."""

    path: Path
    day: date


def file_at(place: str | PathLike[str]) -> Path | None:
    """The file of a book's place; ``None`` for a database that is no file."""
    text = fspath(place)
    if "://" not in text:
        return Path(text)
    try:
        url = make_url(text)
    except exc.ArgumentError:
        return None
    is_file = url.get_backend_name() == "sqlite" and url.database and url.database != ":memory:"
    return Path(url.database) if is_file and url.database and not url.database.startswith("file:") else None


def backup_path(file: Path, day: date) -> Path:
    """Where the backup of a day belongs."""
    return file.parent / FOLDER / f"{file.stem}-{day.isoformat()}{SUFFIX}"


def shape_path(file: Path, revision: str) -> Path:
    """Where the backup of a book of an older shape belongs."""
    return file.parent / FOLDER / f"{file.stem}-shape-{revision}{SUFFIX}"


def backups_of(file: Path) -> tuple[Backup, ...]:
    """All daily backups of a book's file, the oldest first."""
    begin = f"{file.stem}-"
    try:
        names = [path.name for path in (file.parent / FOLDER).iterdir() if path.is_file()]
    except OSError:
        return ()
    days = (
        name.removeprefix(begin).removesuffix(SUFFIX)
        for name in names
        if name.startswith(begin) and name.endswith(SUFFIX)
    )
    found = sorted(day for each in days if (day := _day(each)) is not None)
    return tuple(Backup(backup_path(file, day), day) for day in found)


def newest_backup(place: str | PathLike[str]) -> Backup | None:
    """The newest daily backup of the book at a place.

    Parameters
    ----------
    place : str or path
        As for ``open_book``; a database that is no file has none.
    """
    file = file_at(place)
    found = backups_of(file) if file is not None else ()
    return found[-1] if found else None


def _day(text: str) -> date | None:
    try:
        return date.fromisoformat(text) if DAY.fullmatch(text) else None
    except ValueError:
        return None
