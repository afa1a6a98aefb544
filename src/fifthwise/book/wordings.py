"""The tags and feels that the songs of a book have, for lists to choose from."""

from collections import Counter
from collections.abc import Iterable

from sqlalchemy import ColumnElement, select

from fifthwise.book.engine import Book, reading
from fifthwise.book.folded import fold
from fifthwise.book.rows import split_tags
from fifthwise.book.tables import song

__all__ = ["feels", "tags"]


def tags(book: Book) -> tuple[tuple[str, int], ...]:
    """Every tag as most songs write it, and how many songs have it, in any spelling; by name."""
    return _counted({fold(tag): tag for tag in split_tags(text)} for text in _column(book, song.c.tags))


def feels(book: Book) -> tuple[tuple[str, int], ...]:
    """Every feel as most songs write it, and how many songs have it, in any spelling; by name."""
    return _counted({fold(text): text} for text in _column(book, song.c.feel))


def _column(book: Book, column: ColumnElement[str | None]) -> list[str]:
    asked = select(column).where(column.is_not(None)).order_by(song.c.id)
    with reading(book) as connection:
        return [text for text in connection.scalars(asked) if text is not None]


def _counted(of_songs: Iterable[dict[str, str]]) -> tuple[tuple[str, int], ...]:
    """Count wordings by what they are folded to; of spellings that are as common, the first wins."""
    spellings: dict[str, Counter[str]] = {}
    for of_song in of_songs:
        for folded, wording in of_song.items():
            spellings.setdefault(folded, Counter())[wording] += 1
    named = ((folded, found.most_common(1)[0][0], found.total()) for folded, found in spellings.items())
    return tuple((wording, count) for folded, wording, count in sorted(named) if folded)
