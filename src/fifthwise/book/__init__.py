"""What is kept: songs and every version of them, in one file or a database.

Songs are kept as their chart's text, beside the columns that they are found by. No SQL stands outside.
Nobody loads this room before it is needed: the database's library takes its time.
"""

from fifthwise.book.engine import WAIT_MS, Book
from fifthwise.book.errors import (
    BookAway,
    BookError,
    BookFault,
    BookLocked,
    NewerBook,
    NoSuchSong,
    NotABook,
    SearchFault,
    SongConflict,
)
from fifthwise.book.opening import open_book
from fifthwise.book.rows import Song, SongRow, SongVersion
from fifthwise.book.search import LONGEST_SEARCH, find_songs
from fifthwise.book.songs import add_song, restore, save_song, song, songs, versions

__all__ = [
    "LONGEST_SEARCH",
    "WAIT_MS",
    "Book",
    "BookAway",
    "BookError",
    "BookFault",
    "BookLocked",
    "NewerBook",
    "NoSuchSong",
    "NotABook",
    "SearchFault",
    "Song",
    "SongConflict",
    "SongRow",
    "SongVersion",
    "add_song",
    "find_songs",
    "open_book",
    "restore",
    "save_song",
    "song",
    "songs",
    "versions",
]
