"""Songs put into a book, read and changed; every text that a song had stays."""

from datetime import UTC, datetime
from typing import Any

from sqlalchemy import Connection, RowMapping, delete, func, insert, select, update

from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.errors import SongConflict
from fifthwise.book.folded import LONGEST_INDEXED, fold, folded_tags, song_columns
from fifthwise.book.kinds import SONG, found, held
from fifthwise.book.rows import PLAIN, Song, SongRow, song_row
from fifthwise.book.tables import song as song_table
from fifthwise.book.tables import song_tag, song_version
from fifthwise.chart import Chart, chart_text, parse

__all__ = [
    "LISTED",
    "add_song",
    "put_song",
    "read_song_text",
    "same_text",
    "save_over",
    "save_song",
    "song",
    "song_count",
    "songs",
    "songs_titled",
    "version_text",
]

# What a list of songs needs: all but the long columns.
LISTED = tuple(song_table.c[name] for name in (*PLAIN, "key", "tags", "opening"))


def add_song(book: Book, text: str) -> SongRow:
    """Put a new song into a book.

    Raises
    ------
    ChartFaults
        Everything that is wrong with the text; nothing is kept.
    """
    text, chart = read_song_text(text)
    with writing(book) as connection:
        number = put_song(connection, text, chart)
        return song_row(found(book, connection, SONG, number))


def put_song(connection: Connection, text: str, chart: Chart) -> int:
    """Put a new song into a book within a transaction; gives its number."""
    now = _now()
    new = insert(song_table).values(version=1, text=text, saved_at=now, **song_columns(chart))
    key = connection.execute(new).inserted_primary_key
    assert key is not None
    number: int = key[0]
    _keep_version(connection, number, 1, text, now)
    _keep_tags(connection, number, chart)
    return number


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


def song_count(book: Book) -> int:
    """How many songs a book has."""
    with reading(book) as connection:
        return connection.execute(select(func.count()).select_from(song_table)).scalar_one()


def songs_titled(book: Book, title: str) -> tuple[SongRow, ...]:
    """The songs of a title, whatever its case and accents; the oldest first."""
    named = song_table.c.folded_title == fold(title.replace("\0", " "))[:LONGEST_INDEXED]
    with reading(book) as connection:
        rows = connection.execute(select(*LISTED).where(named).order_by(song_table.c.id))
        return tuple(song_row(row._mapping) for row in rows)


def same_text(book: Book, title: str, text: str) -> SongRow | None:
    """The song of a title that has a text word for word, if there is one."""
    return next((row for row in songs_titled(book, title) if song(book, row.id).text == text), None)


def save_song(book: Book, song_id: int, text: str, version: int) -> SongRow:
    """Save a song's new text over the version that it was made from; the newest text again changes nothing.

    Raises
    ------
    ChartFaults
        Everything that is wrong with the text.
    NoSuchSong
        The book has no such song.
    SongConflict
        ``version`` is not the newest: somebody else has saved another text since. It has both.
    """
    text, chart = read_song_text(text)
    with writing(book) as connection:
        return save_over(book, connection, song_id, text, chart, version)


def read_song_text(text: str, file: str = "chart") -> tuple[str, Chart]:
    """A text that every database and every file keeps alike, and the chart that it says."""
    # Each time that a file is read, one mark of the byte order goes.
    kept = chart_text(text.encode("utf-8", "surrogatepass"), file).lstrip("\ufeff")
    return kept, parse(kept, file)


def save_over(
    book: Book, connection: Connection, song_id: int, text: str, chart: Chart, version: int
) -> SongRow:
    """Save within a transaction, as ``save_song`` does."""
    newest = found(book, connection, SONG, song_id, lock=True)
    changed: dict[str, Any]
    if version <= newest["version"] and _is_kept(connection, newest, text):
        # What the song is found by is put right where it had come apart from the text.
        changed = song_columns(chart)
    elif version != newest["version"]:
        raise SongConflict(newest["title"], text, newest["text"], newest["version"])
    else:
        now = _now()
        changed = {"version": version + 1, "text": text, "saved_at": now, **song_columns(chart)}
        _keep_version(connection, song_id, version + 1, text, now)
    connection.execute(update(song_table).where(song_table.c.id == song_id).values(changed))
    connection.execute(delete(song_tag).where(song_tag.c.song_id == song_id))
    _keep_tags(connection, song_id, chart)
    return song_row(found(book, connection, SONG, song_id))


def _is_kept(connection: Connection, newest: RowMapping, text: str) -> bool:
    return bool(newest["text"] == text == version_text(connection, newest["id"], newest["version"]))


def version_text(connection: Connection, song_id: int, version: int) -> str | None:
    """The text of a song's version, if there is such a version."""
    wanted = (song_version.c.song_id == song_id) & (song_version.c.version == held(version))
    text: str | None = connection.execute(select(song_version.c.text).where(wanted)).scalar()
    return text


def _now() -> datetime:
    return datetime.now(UTC).replace(tzinfo=None)


def _keep_version(connection: Connection, song_id: int, version: int, text: str, saved_at: datetime) -> None:
    values = {"song_id": song_id, "version": version, "text": text, "saved_at": saved_at}
    connection.execute(insert(song_version).values(values))


def _keep_tags(connection: Connection, song_id: int, chart: Chart) -> None:
    rows = [{"song_id": song_id, "folded_tag": tag} for tag in sorted(folded_tags(chart))]
    if rows:
        connection.execute(insert(song_tag), rows)
