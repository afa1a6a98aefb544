"""What a book hands out: plain frozen values."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from typing import Any

from fifthwise.theory import Key, read_key

__all__ = ["Song", "SongRow", "SongVersion", "song_row", "song_version_row", "split_tags"]


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
    """

    id: int
    version: int
    title: str
    by: str | None
    key: Key
    tempo_bpm: float | None
    feel: str | None
    tags: tuple[str, ...]


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


def song_row(found: Mapping[Any, Any]) -> SongRow:
    """A song from its row in the database."""
    plain = {name: found[name] for name in ("id", "version", "title", "by", "tempo_bpm", "feel")}
    return SongRow(**plain, key=read_key(found["key"]), tags=split_tags(found["tags"]))


def song_version_row(found: Mapping[Any, Any]) -> SongVersion:
    """A version from its row in the database."""
    saved_at = found["saved_at"].replace(tzinfo=UTC)
    return SongVersion(found["song_id"], found["version"], saved_at, found["text"])
