"""The texts that a song has or had: read, compared and brought back."""

from sqlalchemy import Connection, RowMapping, select

from fifthwise.book.compare import DiffLine, compare_texts
from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.errors import NoSuchSong
from fifthwise.book.kinds import SONG, found
from fifthwise.book.rows import SongRow, SongVersion, song_version_row
from fifthwise.book.songs import read_song_text, save_over, version_text
from fifthwise.book.tables import song_version

__all__ = ["compare", "restore", "versions"]


def versions(book: Book, song_id: int) -> tuple[SongVersion, ...]:
    """Every text that a song has or had, the oldest first.

    Raises
    ------
    NoSuchSong
        The book has no such song.
    """
    table = song_version
    with reading(book) as connection:
        found(book, connection, SONG, song_id)
        rows = connection.execute(select(table).where(table.c.song_id == song_id).order_by(table.c.version))
        return tuple(song_version_row(row._mapping) for row in rows)


def restore(book: Book, song_id: int, version: int) -> SongRow:
    """Save an earlier text of a song as its newest; what was newest stays as a version.

    Raises
    ------
    NoSuchSong
        The book has no such song, or the song no such version.
    SongConflict
        Somebody else has saved at the same moment.
    """
    with writing(book) as connection:
        newest = found(book, connection, SONG, song_id)
        text = _text(connection, newest, version)
        return save_over(book, connection, song_id, *read_song_text(text), newest["version"])


def compare(book: Book, song_id: int, one: int, other: int) -> tuple[DiffLine, ...]:
    """Two versions of a song side by side.

    Raises
    ------
    NoSuchSong
        The book has no such song, or the song no such version.
    """
    with reading(book) as connection:
        newest = found(book, connection, SONG, song_id)
        texts = [_text(connection, newest, version) for version in (one, other)]
    return compare_texts(*texts)


def _text(connection: Connection, newest: RowMapping, version: int) -> str:
    text = version_text(connection, newest["id"], version)
    if text is None:
        fix = f"Name one from 1 to {newest['version']}"
        raise NoSuchSong(f"there is no version {version} of this song", f"'{newest['title']}'", fix)
    return text
