"""A song taken out of a book for good."""

from fifthwise.book.engine import Book
from fifthwise.book.kinds import SONG, remove

__all__ = ["remove_song"]


def remove_song(book: Book, song_id: int, version: int) -> None:
    """Remove a song with all its versions, and what is known of when it was sung.

    Raises
    ------
    NoSuchSong
        The book has no such song.
    StandsInSets
        It stands in sets, which the fault names.
    Conflict
        ``version`` is not the newest.
    """
    remove(book, SONG, song_id, version)
