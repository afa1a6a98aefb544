"""Singers, players, what was sung, and sets; numbers of removed songs are not given again."""

import sqlalchemy as sa
from alembic import op

from fifthwise.book.migrations.versions import v0001_songs

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Make the tables of people and sets."""
    if op.get_bind().dialect.name == "sqlite":
        _never_give_a_number_again()
    _person(
        "singer",
        sa.Column("usable", sa.Text, nullable=False),
        sa.Column("comfort", sa.Text, nullable=False),
        sa.Column("turns", sa.Text),
    )
    _person(
        "player",
        sa.Column("instrument", sa.Text, nullable=False),
        sa.Column("level", sa.Text),
        sa.Column("show", sa.Text, nullable=False),
        sa.Column("capo", sa.Text, nullable=False),
    )
    op.create_table(
        "sung",
        _of("sung", "singer", ondelete="CASCADE"),
        _of("sung", "song", ondelete="CASCADE"),
        sa.Column("sung_on", sa.Date, nullable=False),
        sa.Column("key", sa.String(16), nullable=False),
        sa.PrimaryKeyConstraint("singer_id", "song_id", "sung_on", name="pk_sung"),
    )
    op.create_index("ix_sung_song_id", "sung", ["song_id"])
    _sets()


def _never_give_a_number_again() -> None:
    """Make the songs' tables anew, since SQLite gives the number of a last song that is gone once more.

    Whoever had that song open could then save it over another.
    """
    connection = op.get_bind()
    kept = {name: connection.execute(sa.text(f"SELECT * FROM {name}")).mappings().all() for name in SONGS}
    for name in reversed(SONGS):
        op.drop_table(name)
    v0001_songs.make_tables(sqlite_autoincrement=True)
    for name, rows in kept.items():
        if rows:
            columns: list[sa.ColumnClause[object]] = [sa.column(column) for column in rows[0]]
            connection.execute(sa.insert(sa.table(name, *columns)), [dict(row) for row in rows])


SONGS = ("song", "song_version", "song_tag")


def _person(name: str, *columns: sa.Column[str]) -> None:
    op.create_table(
        name,
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("name", sa.String(100), nullable=False),
        sa.Column("folded_name", sa.String(200), nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("id", name=f"pk_{name}"),
        sa.UniqueConstraint("folded_name", name=f"uq_{name}_folded_name"),
        sqlite_autoincrement=True,
    )


def _sets() -> None:
    op.create_table(
        "kept_set",
        sa.Column("id", sa.Integer, nullable=False),
        sa.Column("version", sa.Integer, nullable=False),
        sa.Column("name", sa.String(100), nullable=False),
        sa.Column("date", sa.Text),
        sa.Column("paper", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_kept_set"),
        sqlite_autoincrement=True,
    )
    _ordered("set_singer", _of("set_singer", "singer"))
    _ordered("set_player", _of("set_player", "player"))
    _ordered(
        "set_song",
        _of("set_song", "song"),
        _of("set_song", "singer", nullable=True),
        sa.Column("key", sa.Text),
        sa.Column("counts_in", sa.Text),
        sa.Column("segue", sa.Boolean, nullable=False),
    )


def _ordered(name: str, *columns: sa.Column[int] | sa.Column[str] | sa.Column[bool]) -> None:
    set_key = sa.ForeignKey("kept_set.id", name=f"fk_{name}_set_id_kept_set", ondelete="CASCADE")
    op.create_table(
        name,
        sa.Column("set_id", sa.Integer, set_key, nullable=False),
        sa.Column("place", sa.Integer, nullable=False),
        *columns,
        sa.PrimaryKeyConstraint("set_id", "place", name=f"pk_{name}"),
    )
    for column in columns:
        if column.foreign_keys:
            op.create_index(f"ix_{name}_{column.name}", name, [column.name])


def _of(table: str, kind: str, *, nullable: bool = False, ondelete: str | None = None) -> sa.Column[int]:
    key = sa.ForeignKey(f"{kind}.id", name=f"fk_{table}_{kind}_id_{kind}", ondelete=ondelete)
    return sa.Column(f"{kind}_id", sa.Integer, key, nullable=nullable)
