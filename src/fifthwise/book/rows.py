"""What a book hands out: plain frozen values."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

from fifthwise.book.progression import Progression
from fifthwise.theory import Key, read_key

__all__ = [
    "OPENING_SIGN",
    "Found",
    "Song",
    "SongRow",
    "SongVersion",
    "song_row",
    "song_version_row",
    "split_tags",
]

OPENING_SIGN = "|"  # stands between the chords of an opening
PLAIN = ("id", "version", "title", "by", "tempo_bpm", "feel", "metre", "sung")


@dataclass(frozen=True, slots=True)
class SongRow:
    """One song in a list of songs.

    Attributes
    ----------
    id : int
        Its number in the book, which it keeps.
    version : int
        The newest version, from 1.
    tempo_bpm : float or None
        Felt beats a minute; ``None`` where the chart is silent, as with ``by`` and ``feel``.
    tags : tuple of str
        As written.
    metre : str
        As the chart writes it: ``6/8``.
    sung : bool
        Whether it has words.
    opening : tuple of str
        The first eight chords as the song's own numbers; equal ones in a row count once.
    opening_match : tuple of int or None
        Where in ``opening`` the progression that was asked for is first found: from, and up to but not
        including. ``None`` where it is not found there, or none was asked for.
    """

    id: int
    version: int
    title: str
    by: str | None
    key: Key
    tempo_bpm: float | None
    feel: str | None
    tags: tuple[str, ...]
    metre: str
    sung: bool
    opening: tuple[str, ...]
    opening_match: tuple[int, int] | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """What a search found.

    Attributes
    ----------
    songs : tuple of SongRow
        The part that was asked for, in the order that was asked for.
    total : int
        How many there are in all.
    """

    songs: tuple[SongRow, ...]
    total: int


@dataclass(frozen=True, slots=True)
class Song:
    """A song with its chart's text, which is the truth about it."""

    row: SongRow
    text: str


@dataclass(frozen=True, slots=True)
class SongVersion:
    """A text that a song has or had.

    Attributes
    ----------
    saved_at : datetime
        In UTC.
    """

    song_id: int
    version: int
    saved_at: datetime
    text: str


def split_tags(tags: str | None) -> tuple[str, ...]:
    """The tags of a chart's ``tags:``, which stand between commas."""
    return tuple(tag for part in (tags or "").split(",") if (tag := part.strip()))


def song_row(found: Mapping[Any, Any], asked: Progression | None = None) -> SongRow:
    """A song from its row in the database, marked where a progression was asked for."""
    key = read_key(found["key"])
    opening = tuple(filter(None, found["opening"].split(OPENING_SIGN)))
    row = SongRow(
        **{name: found[name] for name in PLAIN}, key=key, tags=split_tags(found["tags"]), opening=opening
    )
    if asked is None:
        return row
    return replace(row, opening_match=asked.in_opening(found["chords"], len(opening), minor=key.is_minor))


def song_version_row(found: Mapping[Any, Any]) -> SongVersion:
    """A version from its row in the database."""
    saved_at = found["saved_at"].replace(tzinfo=UTC)
    return SongVersion(found["song_id"], found["version"], saved_at, found["text"])
