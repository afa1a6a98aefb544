"""Where the book lies: as the option says, else the environment, else the user's own data folder.

References
----------
XDG Base Directory Specification 0.8 for ``XDG_DATA_HOME``; macOS and Windows have their own usual places.
"""

import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar

import click

from fifthwise.files import FileFault

__all__ = ["VARIABLE", "book_option", "book_place", "data_folder", "old_book_place"]

VARIABLE = "FIFTHWISE_BOOK"
NAME = "book.sqlite"
Command = TypeVar("Command", bound=Callable[..., Any])


def book_option(command: Command) -> Command:
    """The option ``--book``."""
    words = f"The book: a file, or a database's address; else {VARIABLE}, else your own."
    return click.option("--book", "place", metavar="PLACE", help=words)(command)


def book_place(asked: str | None) -> str:
    """The book's place; the user's own data folder is made where it is missing.

    Parameters
    ----------
    asked : str or None
        What ``--book`` says.

    Raises
    ------
    FileFault
        It is empty, or a folder; or the data folder cannot be made.
    """
    if asked == "":
        raise FileFault("no place is named", "--book", "Name a file, or leave --book out for your own book")
    place = asked or os.environ.get(VARIABLE)
    if place:
        return _no_folder(place)
    folder = data_folder()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = f"the folder for the book cannot be made ({error.strerror})"
        raise FileFault(what, str(folder), f"Name another place with --book or {VARIABLE}") from error
    return str(folder / NAME)


def old_book_place(asked: str | None) -> str:
    """The place of a book that is there: one that is only read is not made by a slip of the hand.

    Raises
    ------
    FileFault
        There is none.
    """
    place = book_place(asked)
    if "://" not in place and not Path(place).exists():
        raise FileFault("there is no book here", place, "Check its name")
    return place


def _no_folder(place: str) -> str:
    if "://" not in place and Path(place).is_dir():
        raise FileFault("this is a folder", place, f"Name a file in it, as in '{Path(place) / NAME}'")
    return place


def data_folder() -> Path:
    """The user's data folder for fifthwise."""
    if sys.platform == "win32":
        return _absolute("LOCALAPPDATA", Path.home() / "AppData" / "Local") / "fifthwise"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "fifthwise"
    return _absolute("XDG_DATA_HOME", Path.home() / ".local" / "share") / "fifthwise"


def _absolute(variable: str, otherwise: Path) -> Path:
    """The folder that a variable names; the standard has a relative one ignored."""
    named = Path(os.environ.get(variable, ""))
    return named if named.is_absolute() else otherwise
