"""The keys, tags and feels that the songs of a book have, for lists to choose from."""

from collections import Counter
from collections.abc import Iterable

from sqlalchemy import ColumnElement, func, select

from fifthwise.book.engine import Book, reading
from fifthwise.book.folded import fold
from fifthwise.book.rows import split_tags
from fifthwise.book.tables import song
from fifthwise.theory import Key, read_key

__all__ = ["feels", "song_keys", "tags"]


def song_keys(book: Book) -> tuple[tuple[Key, int], ...]:
    """Every key that songs are written in, and how many are; from flats to sharps, as fifths go."""
    counted = ((read_key(text), count) for text, count in _texts(book, song.c.key))
    return tuple(sorted(counted, key=lambda found: (found[0].signature, found[0].tonic.fifths)))


def tags(book: Book) -> tuple[tuple[str, int], ...]:
    """Every tag as most songs write it, and how many songs have it, in any spelling; by name."""
    return _counted(
        ({fold(tag): tag for tag in split_tags(text)}, count) for text, count in _texts(book, song.c.tags)
    )


def feels(book: Book) -> tuple[tuple[str, int], ...]:
    """Every feel as most songs write it, and how many songs have it, in any spelling; by name."""
    return _counted(({fold(text): text}, count) for text, count in _texts(book, song.c.feel))


def _texts(book: Book, column: ColumnElement[str | None]) -> list[tuple[str, int]]:
    """Each text of a column, and how many songs have just this; the one that came first is the first."""
    asked = (
        select(column, func.count()).where(column.is_not(None)).group_by(column).order_by(func.min(song.c.id))
    )
    with reading(book) as connection:
        return [(text, count) for text, count in connection.execute(asked) if text is not None]


def _counted(of_songs: Iterable[tuple[dict[str, str], int]]) -> tuple[tuple[str, int], ...]:
    """Count wordings by what they are folded to; of spellings that are as common, the first wins."""
    spellings: dict[str, Counter[str]] = {}
    for of_song, count in of_songs:
        for folded, wording in of_song.items():
            spellings.setdefault(folded, Counter())[wording] += count
    named = ((folded, found.most_common(1)[0][0], found.total()) for folded, found in spellings.items())
    return tuple((wording, count) for folded, wording, count in sorted(named) if folded)
