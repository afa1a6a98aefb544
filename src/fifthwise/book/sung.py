"""Which key a singer sang a song in, and when."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlalchemy import Connection, Select, delete, func, insert, select

from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.kinds import SINGER, SONG, check_there, found
from fifthwise.book.people_tables import singer, sung
from fifthwise.book.tables import song
from fifthwise.theory import Key, read_key

__all__ = ["Sung", "last_sung", "last_sung_of", "record_sung", "sung_by"]

AT_ONCE = 500  # songs asked for by number; a database limits how many


@dataclass(frozen=True, slots=True)
class Sung:
    """One song as a singer sang it on one day."""

    singer_id: int
    singer_name: str
    song_id: int
    title: str
    key: Key
    on: date


def record_sung(book: Book, singer_id: int, song_id: int, key: Key, on: date) -> None:
    """Note in which key a song was sung; the last note of a day holds.

    Raises
    ------
    NoSuchSinger, NoSuchSong
        The book has no such singer, or no such song.
    """
    with writing(book) as connection:
        # The lock lets those who note the same at once do so one after the other.
        found(book, connection, SINGER, singer_id, lock=True)
        check_there(book, connection, SONG, [song_id])
        that_day = (sung.c.singer_id == singer_id) & (sung.c.song_id == song_id) & (sung.c.sung_on == on)
        connection.execute(delete(sung).where(that_day))
        connection.execute(
            insert(sung).values(singer_id=singer_id, song_id=song_id, sung_on=on, key=str(key))
        )


def last_sung(book: Book, song_id: int) -> tuple[Sung, ...]:
    """The newest time that each singer sang a song, the newest of all first.

    Raises
    ------
    NoSuchSong
        The book has no such song.
    """
    with reading(book) as connection:
        found(book, connection, SONG, song_id)
        return _newest(connection, (song_id,))


def last_sung_of(book: Book, song_ids: Sequence[int]) -> dict[int, tuple[Sung, ...]]:
    """The same for many songs at once; a song that nobody sang, or that is not there, has none."""
    told: dict[int, tuple[Sung, ...]] = {number: () for number in song_ids}
    with reading(book) as connection:
        for start in range(0, len(song_ids), AT_ONCE):
            for each in _newest(connection, song_ids[start : start + AT_ONCE]):
                told[each.song_id] += (each,)
    return told


def sung_by(book: Book, singer_id: int) -> tuple[Sung, ...]:
    """All that a singer sang, the newest first.

    Raises
    ------
    NoSuchSinger
        The book has no such singer.
    """
    with reading(book) as connection:
        found(book, connection, SINGER, singer_id)
        return _read(connection, _SUNG.where(sung.c.singer_id == singer_id))


_SUNG = (
    select(sung, singer.c.name, song.c.title)
    .join(singer, singer.c.id == sung.c.singer_id)
    .join(song, song.c.id == sung.c.song_id)
)


def _newest(connection: Connection, song_ids: Sequence[int]) -> tuple[Sung, ...]:
    """The newest time that each singer sang each of some songs."""
    last = (
        select(sung.c.song_id, sung.c.singer_id, func.max(sung.c.sung_on).label("sung_on"))
        .where(sung.c.song_id.in_(song_ids))
        .group_by(sung.c.song_id, sung.c.singer_id)
        .subquery()
    )
    is_last = (
        (last.c.song_id == sung.c.song_id)
        & (last.c.singer_id == sung.c.singer_id)
        & (last.c.sung_on == sung.c.sung_on)
    )
    return _read(connection, _SUNG.join(last, is_last))


def _read(connection: Connection, asked: Select[tuple[object, ...]]) -> tuple[Sung, ...]:
    newest_first = asked.order_by(
        sung.c.sung_on.desc(), singer.c.folded_name, song.c.folded_title, sung.c.song_id
    )
    return tuple(
        Sung(row.singer_id, row.name, row.song_id, row.title, read_key(row.key), row.sung_on)
        for row in connection.execute(newest_first)
    )
