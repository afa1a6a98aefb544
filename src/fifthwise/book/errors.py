"""Faults of a book.

FifthwiseError
└── BookError
    ├── BookFault         a book that cannot be used
    │   ├── NotABook      a file or database that is something else, or damaged
    │   ├── NewerBook     a book made by a newer fifthwise
    │   ├── BookLocked    a book in which somebody else is writing for too long
    │   ├── BackupFault   a file that no backup may be written to, or read from
    │   └── BookAway      a book that cannot be reached, read or written
    ├── NoSuchSong        a song, or a version of it, that is not in the book
    ├── SearchFault       a search that is too long
    └── SongConflict      a song that somebody else has changed meanwhile
"""

from fifthwise.errors import FifthwiseError

__all__ = [
    "BackupFault",
    "BookAway",
    "BookError",
    "BookFault",
    "BookLocked",
    "NewerBook",
    "NoSuchSong",
    "NotABook",
    "SearchFault",
    "SongConflict",
]


class BookError(FifthwiseError):
    """A fault of a book."""


class BookFault(BookError):
    """A book that cannot be used."""


class NotABook(BookFault):
    """A file or database that is something else, or a damaged book."""


class NewerBook(BookFault):
    """A book made by a newer fifthwise."""


class BookLocked(BookFault):
    """A book in which somebody else is writing for longer than we wait."""


class BackupFault(BookFault):
    """A file that no backup may be written to or read from, or a book that is no file."""


class BookAway(BookFault):
    """A book that cannot be reached, read or written."""


class NoSuchSong(BookError):
    """A song, or a version of it, that is not in the book."""


class SearchFault(BookError):
    """A search that is too long."""


class SongConflict(BookError):
    """A song that somebody else has changed since it was read.

    Attributes
    ----------
    mine : str
        The text that was to be saved.
    theirs : str
        The text that the book has.
    version : int
        The version of ``theirs``: what to save over once the two are brought together.
    """

    def __init__(self, title: str, mine: str, theirs: str, version: int) -> None:
        super().__init__(
            f"the song has been changed meanwhile, it is now version {version}",
            f"'{title}'",
            "Compare the two texts, then save again over the newer one",
        )
        self.mine, self.theirs, self.version = mine, theirs, version
