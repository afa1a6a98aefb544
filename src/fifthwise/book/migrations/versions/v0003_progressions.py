"""What a song is found and ordered by: its chords, metre, words and time, filled in from its text."""

from typing import Any

import sqlalchemy as sa
from alembic import op

from fifthwise.book.folded import song_columns
from fifthwise.chart import ChartError, parse

revision = "0003"
down_revision = "0002"

# Each column, with what a song has there whose text can no longer be read.
NEW: dict[str, tuple[Any, Any]] = {
    "saved_at": (sa.DateTime, "1970-01-01 00:00:00"),
    "key_place": (sa.Integer, "0"),
    "metre": (sa.String(64), ""),
    "sung": (sa.Boolean, sa.false()),
    "opening": (sa.Text, ""),
    "families": (sa.Text, ""),
    "chords": (sa.Text, ""),
}
SONG = sa.table("song", *map(sa.column, ("id", "version", "text", *NEW)))
VERSION = sa.table("song_version", sa.column("song_id"), sa.column("version"), sa.column("saved_at"))


def upgrade() -> None:
    """Add the columns and fill them."""
    for name, (kind, default) in NEW.items():
        op.add_column("song", sa.Column(name, kind, nullable=False, server_default=default))
    op.create_index("ix_song_saved_at", "song", ["saved_at"])
    connection = op.get_bind()
    newest = (VERSION.c.song_id == SONG.c.id) & (VERSION.c.version == SONG.c.version)
    saved_at = sa.select(VERSION.c.saved_at).where(newest).scalar_subquery()
    connection.execute(sa.update(SONG).where(sa.exists().where(newest)).values(saved_at=saved_at))
    for song_id in connection.scalars(sa.select(SONG.c.id)).all():
        text = connection.execute(sa.select(SONG.c.text).where(SONG.c.id == song_id)).scalar_one()
        columns = _columns(text)
        if columns:
            connection.execute(sa.update(SONG).where(SONG.c.id == song_id).values(columns))


def _columns(text: str) -> dict[str, object]:
    try:
        every = song_columns(parse(text))
    except ChartError:
        return {}
    return {name: every[name] for name in NEW if name in every}
