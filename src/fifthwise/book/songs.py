"""Songs put into a book, read and changed; every text that a song had stays."""

from datetime import UTC, datetime

from sqlalchemy import Connection, delete, insert, select, update

from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.errors import NoSuchSong, SongConflict
from fifthwise.book.folded import folded_tags, song_columns
from fifthwise.book.kinds import SONG, found, held
from fifthwise.book.rows import Song, SongRow, SongVersion, song_row, song_version_row
from fifthwise.book.tables import song as song_table
from fifthwise.book.tables import song_tag, song_version
from fifthwise.chart import Chart, chart_text, parse

__all__ = ["LISTED", "add_song", "restore", "save_song", "song", "songs", "versions"]

# What a list of songs needs: all but the long columns.
LISTED = tuple(
    song_table.c[name] for name in ("id", "version", "title", "by", "key", "tempo_bpm", "feel", "tags")
)


def add_song(book: Book, text: str) -> SongRow:
    """Put a new song into a book.

    Raises
    ------
    ChartFaults
        Everything that is wrong with the text; nothing is kept.
    """
    text, chart = _read(text)
    with writing(book) as connection:
        new = insert(song_table).values(version=1, text=text, **song_columns(chart))
        key = connection.execute(new).inserted_primary_key
        assert key is not None
        _keep_version(connection, key[0], 1, text)
        _keep_tags(connection, key[0], chart)
        return song_row(found(book, connection, SONG, key[0]))


def song(book: Book, song_id: int) -> Song:
    """One song with its text.

    Raises
    ------
    NoSuchSong
        The book has no such song.
    """
    with reading(book) as connection:
        there = found(book, connection, SONG, song_id)
    return Song(song_row(there), there["text"])


def songs(book: Book) -> tuple[SongRow, ...]:
    """All songs by title."""
    with reading(book) as connection:
        rows = connection.execute(select(*LISTED).order_by(song_table.c.folded_title, song_table.c.id))
        return tuple(song_row(row._mapping) for row in rows)


def save_song(book: Book, song_id: int, text: str, version: int) -> SongRow:
    """Save a song's new text over the version that it was made from.

    Raises
    ------
    ChartFaults
        Everything that is wrong with the text.
    NoSuchSong
        The book has no such song.
    SongConflict
        ``version`` is not the newest: somebody else has saved since. It has both texts.
    """
    text, chart = _read(text)
    with writing(book) as connection:
        return _save(book, connection, song_id, text, chart, version)


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
        of_song = (song_version.c.song_id == song_id) & (song_version.c.version == held(version))
        text = connection.execute(select(song_version.c.text).where(of_song)).scalar()
        if text is None:
            fix = f"Name one from 1 to {newest['version']}"
            raise NoSuchSong(f"there is no version {version} of this song", f"'{newest['title']}'", fix)
        return _save(book, connection, song_id, *_read(text), newest["version"])


def _read(text: str) -> tuple[str, Chart]:
    """A text that every database can keep, and the chart that it says."""
    kept = chart_text(text.encode("utf-8", "surrogatepass"), "chart")
    return kept, parse(kept)


def _save(book: Book, connection: Connection, song_id: int, text: str, chart: Chart, version: int) -> SongRow:
    as_read = (song_table.c.id == held(song_id)) & (song_table.c.version == held(version))
    change = (
        update(song_table)
        .where(as_read)
        .values(version=song_table.c.version + 1, text=text, **song_columns(chart))
    )
    if connection.execute(change).rowcount == 0:
        theirs = found(book, connection, SONG, song_id)
        raise SongConflict(theirs["title"], text, theirs["text"], theirs["version"])
    _keep_version(connection, song_id, version + 1, text)
    connection.execute(delete(song_tag).where(song_tag.c.song_id == song_id))
    _keep_tags(connection, song_id, chart)
    return song_row(found(book, connection, SONG, song_id))


def _keep_version(connection: Connection, song_id: int, version: int, text: str) -> None:
    now = datetime.now(UTC).replace(tzinfo=None)
    connection.execute(insert(song_version).values(song_id=song_id, version=version, text=text, saved_at=now))


def _keep_tags(connection: Connection, song_id: int, chart: Chart) -> None:
    rows = [{"song_id": song_id, "folded_tag": tag} for tag in sorted(folded_tags(chart))]
    if rows:
        connection.execute(insert(song_tag), rows)
