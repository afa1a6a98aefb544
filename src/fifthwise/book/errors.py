"""Faults of a book.

FifthwiseError
└── BookError
    ├── BookFault         a book that cannot be used
    │   ├── NotABook      a file or database that is something else, or damaged
    │   ├── NewerBook     a book made by a newer fifthwise
    │   ├── BookLocked    a book in which somebody else is writing for too long
    │   ├── BackupFault   a file that no backup may be written to, or read from
    │   └── BookAway      a book that cannot be reached, read or written
    ├── NotThere          something that is not in the book
    │   ├── NoSuchSong    a song, or a version of it
    │   ├── NoSuchSinger
    │   ├── NoSuchPlayer
    │   └── NoSuchSet
    ├── Conflict          something that somebody else has changed meanwhile
    │   └── SongConflict  a song; it has both texts
    ├── NameFault         a name that cannot be kept
    │   └── NameTaken     a name that another one has
    ├── SetFault          a set with what no evening can have
    ├── StandsInSets      something that sets name, and that therefore stays
    └── SearchFault       a search that is too long, or for what is no progression
"""

from fifthwise.errors import FifthwiseError

__all__ = [
    "BackupFault",
    "BookAway",
    "BookError",
    "BookFault",
    "BookLocked",
    "Conflict",
    "NameFault",
    "NameTaken",
    "NewerBook",
    "NoSuchPlayer",
    "NoSuchSet",
    "NoSuchSinger",
    "NoSuchSong",
    "NotABook",
    "NotThere",
    "SearchFault",
    "SetFault",
    "SongConflict",
    "StandsInSets",
]

MOST_NAMED = 5  # sets that a fault names


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


class NotThere(BookError):
    """Something that is not in the book."""


class NoSuchSong(NotThere):
    """A song, or a version of it, that is not in the book."""


class NoSuchSinger(NotThere):
    """A singer who is not in the book."""


class NoSuchPlayer(NotThere):
    """A player who is not in the book."""


class NoSuchSet(NotThere):
    """A set that is not in the book."""


class Conflict(BookError):
    """Something that somebody else has changed since it was read.

    Attributes
    ----------
    version : int
        The version that the book has: what to save over, or to remove, once that has been looked at.
    """

    def __init__(self, kind: str, name: str, version: int, fix: str) -> None:
        what = f"the {kind} has been changed meanwhile, it is now version {version}"
        super().__init__(what, f"'{name}'", fix)
        self.version = version


class SongConflict(Conflict):
    """A song that somebody else has changed since it was read.

    Attributes
    ----------
    mine : str
        The text that was to be saved.
    theirs : str
        The text that the book has.
    """

    def __init__(self, title: str, mine: str, theirs: str, version: int) -> None:
        super().__init__("song", title, version, "Compare the two texts, then save again over the newer one")
        self.mine, self.theirs = mine, theirs


class NameFault(BookError):
    """A name that cannot be kept."""


class NameTaken(NameFault):
    """A name that another singer or player has; case and accents make no difference."""


class SetFault(BookError):
    """A set with what no evening can have."""


class StandsInSets(BookError):
    """A song, singer or player that sets name, and that therefore stays.

    Attributes
    ----------
    sets : tuple of str
        The names of all those sets.
    """

    def __init__(self, kind: str, name: str, sets: tuple[str, ...]) -> None:
        more = len(sets) - MOST_NAMED
        named = ", ".join(f"'{each}'" for each in sets[:MOST_NAMED]) + (
            f" and {more} more" if more > 0 else ""
        )
        super().__init__(f"the {kind} stands in {named}", f"'{name}'", "Take it out of there first")
        self.sets = sets


class SearchFault(BookError):
    """A search that is too long, or for what is no progression."""
