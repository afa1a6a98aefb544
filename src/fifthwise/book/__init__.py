"""What is kept: songs and every version of them, in one file or a database.

Songs are kept as their chart's text, beside the columns that they are found by. No SQL stands outside.
Nobody loads this room before it is needed: the database's library takes its time.
"""

from fifthwise.book.backup_files import Backup, newest_backup
from fifthwise.book.backups import KEPT_BACKUPS, backup, daily_backup, put_back
from fifthwise.book.checking import Finding, check_book
from fifthwise.book.engine import WAIT_MS, Book
from fifthwise.book.errors import (
    BackupFault,
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
    "KEPT_BACKUPS",
    "LONGEST_SEARCH",
    "WAIT_MS",
    "Backup",
    "BackupFault",
    "Book",
    "BookAway",
    "BookError",
    "BookFault",
    "BookLocked",
    "Finding",
    "NewerBook",
    "NoSuchSong",
    "NotABook",
    "SearchFault",
    "Song",
    "SongConflict",
    "SongRow",
    "SongVersion",
    "add_song",
    "backup",
    "check_book",
    "daily_backup",
    "find_songs",
    "newest_backup",
    "open_book",
    "put_back",
    "restore",
    "save_song",
    "song",
    "songs",
    "versions",
]
