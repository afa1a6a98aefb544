"""A folder of plain files taken into a book: what is good is kept, what is not is told."""

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

from fifthwise.book.coming import Coming
from fifthwise.book.engine import Book
from fifthwise.book.folder_files import FailedFile, find_files
from fifthwise.book.import_people import import_players, import_singers
from fifthwise.book.import_sets import import_sets
from fifthwise.book.import_songs import import_songs
from fifthwise.book.import_sung import import_sung

__all__ = ["ImportReport", "import_folder"]


@dataclass(frozen=True, slots=True)
class ImportReport:
    """What an import did.

    Attributes
    ----------
    kept, unchanged : tuple of str
        Files that brought something new, and those that said what the book has already.
    failed : tuple of FailedFile
        Files at fault; of lists, what was good is kept all the same.
    """

    kept: tuple[str, ...]
    unchanged: tuple[str, ...]
    failed: tuple[FailedFile, ...]


def import_folder(
    book: Book, folder: Path, on_file: Callable[[str, int], None] | None = None
) -> ImportReport:
    """Take the charts, sets, singers and players of a folder, and what was sung, into a book.

    A song is a new version of the book's song with its title and author, compared without case and accents;
    otherwise it is new, and so is a second one of the same folder. Singers and players go by their names,
    sets by name and date. Those whom a set names and the book does not have come with it; those whom it has
    stay as they are.

    Parameters
    ----------
    on_file : callable, optional
        Called after each file with its path and with how many there are.

    Raises
    ------
    FileFault
        The folder is not there, or holds nothing that could be read.
    BookFault
        The book cannot be written to. What was kept before stays; the same import goes on from there.
    """
    files = find_files(folder)
    coming = Coming(book, files, on_file or _quiet)
    for unread in files.failed:
        coming.note(unread.path)
    import_singers(coming)
    import_players(coming)
    songs = import_songs(coming)
    import_sets(coming, songs)
    import_sung(coming, songs)
    failed = sorted(coming.files.failed, key=lambda each: each.path)
    return ImportReport(tuple(sorted(coming.kept)), tuple(sorted(coming.unchanged)), tuple(failed))


def _quiet(_path: str, _count: int) -> None:
    """Tell nobody."""
