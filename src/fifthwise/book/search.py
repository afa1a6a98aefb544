"""Songs found by their words, chords, key, tempo, feel and tags, a page at a time."""

from collections.abc import Sequence
from typing import Any, Literal, get_args

from sqlalchemy import ColumnElement, Connection, Select, select

from fifthwise.book.engine import Book, reading
from fifthwise.book.errors import SearchFault
from fifthwise.book.folded import LONGEST_INDEXED, fold
from fifthwise.book.progression import Progression, read_progression
from fifthwise.book.rows import Found, SongRow, song_row
from fifthwise.book.songs import LISTED
from fifthwise.book.tables import song, song_tag
from fifthwise.theory import Key

__all__ = ["LONGEST_SEARCH", "SONG_ORDERS", "SongOrder", "find_songs"]

LONGEST_SEARCH = 500  # characters; a database refuses patterns without end
SongOrder = Literal["title", "tempo", "key", "saved"]
SONG_ORDERS: tuple[SongOrder, ...] = get_args(SongOrder)
BY_TITLE = (song.c.folded_title, song.c.id)
ORDERS: dict[SongOrder, tuple[ColumnElement[Any], ...]] = {
    "title": BY_TITLE,
    # Databases do not agree whether what is not there comes first or last.
    "tempo": (song.c.tempo_bpm.is_(None), song.c.tempo_bpm, *BY_TITLE),
    "key": (song.c.key_place, *BY_TITLE),
    "saved": (song.c.saved_at.desc(), song.c.id.desc()),
}
AT_ONCE = 500  # rows asked for by number; a database limits how many


def find_songs(
    book: Book,
    *,
    words: str = "",
    key: Key | None = None,
    tempo: tuple[float, float] | None = None,
    feel: str | None = None,
    tag: str | None = None,
    progression: str = "",
    order: SongOrder = "title",
    first: int = 0,
    count: int | None = None,
) -> Found:
    """Find songs that have all that is asked for; case and accents do not matter.

    Parameters
    ----------
    words : str
        Each has to be, or to begin or end or be inside, a word of the title, author, tags or verses.
    key : Key or None
        The key as written: F# and Gb are two.
    tempo : tuple of float, or None
        Lowest and highest felt beats a minute, both included. A song that is silent on it is not found.
    feel : str or None
        A part of the feel's words.
    tag : str or None
        One whole tag.
    progression : str
        Chords in a row as they are played, as numbers: ``6- 4 1 5``, in any key. What each of them fits,
        ``fifthwise.book.progression`` says. NC and a change of key part a row, a rest does not. Songs in
        minor are found by numbers from six and by numbers from home: ``1- b6 b3 b7`` is ``6- 4 1 5``.
    order : {'title', 'tempo', 'key', 'saved'}
        By title; slow before fast, silent ones last; keys with few accidentals first; newest save first.
    first : int
        How many of those found to pass over, from 0.
    count : int or None
        How many to give at most; ``None`` for all.

    Raises
    ------
    SearchFault
        A text asked for has more than ``LONGEST_SEARCH`` characters, or the progression cannot be read.
    """
    wanted = [
        *(song.c.folded_words.contains(word, autoescape=True) for word in _asked(words).split()),
        *_exactly(key, tempo),
    ]
    if feel is not None:
        wanted.append(song.c.folded_feel.contains(_asked(feel), autoescape=True))
    if tag is not None:
        tagged = select(song_tag.c.song_id).where(song_tag.c.folded_tag == _asked(tag)[:LONGEST_INDEXED])
        wanted.append(song.c.id.in_(tagged))
    chords = read_progression(_short(progression)) if progression.strip() else None
    if chords is not None:
        wanted += _with_chords(chords)
    return _page(book, select(song.c.id).where(*wanted).order_by(*ORDERS[order]), chords, first, count)


def _asked(text: str) -> str:
    """What was typed, folded as the columns are; no column holds NUL or half a character."""
    return _short(fold(text.replace("\0", " ").encode("utf-8", "replace").decode("utf-8")))


def _short(text: str) -> str:
    if len(text) > LONGEST_SEARCH:
        raise SearchFault(f"it has {len(text)} characters", "search", f"Write at most {LONGEST_SEARCH}")
    return text


def _exactly(key: Key | None, tempo: tuple[float, float] | None) -> list[ColumnElement[bool]]:
    wanted: list[ColumnElement[bool]] = []
    if key is not None:
        wanted.append(song.c.key == str(key))
    if tempo is not None:
        wanted.append(song.c.tempo_bpm.between(float(tempo[0]), float(tempo[1])))
    return wanted


def _with_chords(chords: Progression) -> list[ColumnElement[bool]]:
    wanted: list[ColumnElement[bool]] = [
        song.c.families.like(chords.like),
        *map(song.c.chords.like, chords.details),
    ]
    return [*wanted, song.c.chords.regexp_match(chords.pattern)] if chords.details else wanted


def _page(book: Book, asked: Select[Any], chords: Progression | None, first: int, count: int | None) -> Found:
    """The part of what was found that is wanted; only its rows are read whole."""
    with reading(book) as connection:
        found: Sequence[int] = connection.scalars(asked).all()
        wanted = found[first:] if count is None else found[first : first + count]
        rows = {
            row.id: row
            for start in range(0, len(wanted), AT_ONCE)
            for row in _rows(connection, wanted[start : start + AT_ONCE], chords)
        }
    return Found(tuple(rows[number] for number in wanted), len(found))


def _rows(connection: Connection, numbers: Sequence[int], chords: Progression | None) -> list[SongRow]:
    columns = LISTED if chords is None else (*LISTED, song.c.chords)
    asked = select(*columns).where(song.c.id.in_(numbers))
    return [song_row(row, chords) for row in connection.execute(asked).mappings()]
