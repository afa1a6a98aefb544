"""What is kept: songs and every version of them, singers, players and sets, in one file or a database.

Songs are kept as their chart's text, beside the columns that they are found by. No SQL stands outside.
Nobody loads this room before it is needed: the database's library takes its time.
"""

from fifthwise.book.backup_files import Backup, newest_backup
from fifthwise.book.backups import KEPT_BACKUPS, backup, daily_backup, is_whole, put_back
from fifthwise.book.checking import check_book, check_file
from fifthwise.book.compare import DiffLine
from fifthwise.book.differences import TAKES, Difference, Take, differences, taken
from fifthwise.book.engine import WAIT_MS, Book
from fifthwise.book.errors import (
    BackupFault,
    BookAway,
    BookError,
    BookFault,
    BookLocked,
    Conflict,
    NameFault,
    NameTaken,
    NewerBook,
    NoSuchPlayer,
    NoSuchSet,
    NoSuchSinger,
    NoSuchSong,
    NotABook,
    NotThere,
    SearchFault,
    SetFault,
    SongConflict,
    StandsInSets,
)
from fifthwise.book.exporting import export_book
from fifthwise.book.finding import Finding
from fifthwise.book.folder_files import FailedFile
from fifthwise.book.importing import ImportReport, import_folder
from fifthwise.book.kept_evening import evening_of
from fifthwise.book.merge import Agreed, Choice, merge_texts, merged_text
from fifthwise.book.names import LONGEST_NAME, checked_name
from fifthwise.book.opening import open_book
from fifthwise.book.players import KeptPlayer, add_player, player, players, remove_player, save_player
from fifthwise.book.progression import MOST_CHORDS
from fifthwise.book.removal import remove_song
from fifthwise.book.rows import Found, Song, SongRow, SongVersion
from fifthwise.book.search import LONGEST_SEARCH, SONG_ORDERS, SongOrder, find_songs
from fifthwise.book.set_order import LONGEST_SET, KeptSet, KeptSetSong, SetOrder, SetRow
from fifthwise.book.sets import add_set, kept_set, remove_set, save_set, sets
from fifthwise.book.singers import KeptSinger, add_singer, remove_singer, save_singer, singer, singers
from fifthwise.book.songs import add_song, same_text, save_song, song, song_count, songs, songs_titled
from fifthwise.book.sung import Sung, last_sung, last_sung_of, record_sung, sung_by
from fifthwise.book.versions import compare, restore, versions
from fifthwise.book.wordings import feels, song_keys, tags

__all__ = [
    "KEPT_BACKUPS",
    "LONGEST_NAME",
    "LONGEST_SEARCH",
    "LONGEST_SET",
    "MOST_CHORDS",
    "SONG_ORDERS",
    "TAKES",
    "WAIT_MS",
    "Agreed",
    "Backup",
    "BackupFault",
    "Book",
    "BookAway",
    "BookError",
    "BookFault",
    "BookLocked",
    "Choice",
    "Conflict",
    "DiffLine",
    "Difference",
    "FailedFile",
    "Finding",
    "Found",
    "ImportReport",
    "KeptPlayer",
    "KeptSet",
    "KeptSetSong",
    "KeptSinger",
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
    "SetOrder",
    "SetRow",
    "Song",
    "SongConflict",
    "SongOrder",
    "SongRow",
    "SongVersion",
    "StandsInSets",
    "Sung",
    "Take",
    "add_player",
    "add_set",
    "add_singer",
    "add_song",
    "backup",
    "check_book",
    "check_file",
    "checked_name",
    "compare",
    "daily_backup",
    "differences",
    "evening_of",
    "export_book",
    "feels",
    "find_songs",
    "import_folder",
    "is_whole",
    "kept_set",
    "last_sung",
    "last_sung_of",
    "merge_texts",
    "merged_text",
    "newest_backup",
    "open_book",
    "player",
    "players",
    "put_back",
    "record_sung",
    "remove_player",
    "remove_set",
    "remove_singer",
    "remove_song",
    "restore",
    "same_text",
    "save_player",
    "save_set",
    "save_singer",
    "save_song",
    "sets",
    "singer",
    "singers",
    "song",
    "song_count",
    "song_keys",
    "songs",
    "songs_titled",
    "sung_by",
    "tags",
    "taken",
    "versions",
]
