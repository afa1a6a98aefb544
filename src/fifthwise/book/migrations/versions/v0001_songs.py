"""Songs, their versions and their tags."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None


def upgrade() -> None:
    """Make the first three tables."""
    make_tables(sqlite_autoincrement=False)


def make_tables(*, sqlite_autoincrement: bool) -> None:
    """Make them, with SQLite's numbers given once each or again."""
    op.create_table(
        "song",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("title", sa.Text, nullable=False),
        sa.Column("by", sa.Text),
        sa.Column("key", sa.String(16), nullable=False),
        sa.Column("tempo_bpm", sa.Float),
        sa.Column("feel", sa.Text),
        sa.Column("tags", sa.Text),
        sa.Column("folded_title", sa.String(200), nullable=False),
        sa.Column("folded_feel", sa.Text, nullable=False),
        sa.Column("folded_words", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_song"),
        sqlite_autoincrement=sqlite_autoincrement,
    )
    for name in ("key", "tempo_bpm", "folded_title"):
        op.create_index(f"ix_song_{name}", "song", [name])
    op.create_table(
        "song_version",
        _song_id("fk_song_version_song_id_song"),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("saved_at", sa.DateTime, nullable=False),
        sa.PrimaryKeyConstraint("song_id", "version", name="pk_song_version"),
    )
    op.create_table(
        "song_tag",
        _song_id("fk_song_tag_song_id_song"),
        sa.Column("folded_tag", sa.String(200), nullable=False),
        sa.PrimaryKeyConstraint("song_id", "folded_tag", name="pk_song_tag"),
    )
    op.create_index("ix_song_tag_folded_tag", "song_tag", ["folded_tag"])


def _song_id(name: str) -> sa.Column[int]:
    song = sa.ForeignKey("song.id", name=name, ondelete="CASCADE")
    return sa.Column("song_id", sa.Integer, song, nullable=False)
