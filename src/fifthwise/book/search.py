"""Songs found by their words, key, tempo, feel and tags."""

from sqlalchemy import ColumnElement, select

from fifthwise.book.engine import Book, reading
from fifthwise.book.errors import SearchFault
from fifthwise.book.folded import LONGEST_INDEXED, fold
from fifthwise.book.rows import SongRow, song_row
from fifthwise.book.songs import LISTED
from fifthwise.book.tables import song, song_tag
from fifthwise.theory import Key

__all__ = ["LONGEST_SEARCH", "find_songs"]

LONGEST_SEARCH = 500  # characters; a database refuses patterns without end


def find_songs(
    book: Book,
    *,
    words: str = "",
    key: Key | None = None,
    tempo: tuple[float, float] | None = None,
    feel: str | None = None,
    tag: str | None = None,
) -> tuple[SongRow, ...]:
    """Find songs that have all that is asked for, by title; case and accents do not matter.

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

    Raises
    ------
    SearchFault
        A text asked for has more than ``LONGEST_SEARCH`` characters.
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
    asked = select(*LISTED).where(*wanted).order_by(song.c.folded_title, song.c.id)
    with reading(book) as connection:
        return tuple(song_row(row._mapping) for row in connection.execute(asked))


def _asked(text: str) -> str:
    """What was typed, folded as the columns are; no column holds NUL or half a character."""
    folded = fold(text.replace("\0", " ").encode("utf-8", "replace").decode("utf-8"))
    if len(folded) > LONGEST_SEARCH:
        raise SearchFault(f"it has {len(folded)} characters", "search", f"Write at most {LONGEST_SEARCH}")
    return folded


def _exactly(key: Key | None, tempo: tuple[float, float] | None) -> list[ColumnElement[bool]]:
    wanted: list[ColumnElement[bool]] = []
    if key is not None:
        wanted.append(song.c.key == str(key))
    if tempo is not None:
        wanted.append(song.c.tempo_bpm.between(float(tempo[0]), float(tempo[1])))
    return wanted
