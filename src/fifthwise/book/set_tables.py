"""The tables of sets: who is there, and the songs in running order.

What a set names cannot be removed; with a set goes its order.
"""

from sqlalchemy import Boolean, Column, ForeignKey, Integer, String, Table, Text

from fifthwise.book.tables import metadata

__all__ = ["kept_set", "set_player", "set_singer", "set_song"]

kept_set = Table(
    "kept_set",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("version", Integer, nullable=False),
    Column("name", String(100), nullable=False),
    Column("date", Text),
    Column("paper", Text, nullable=False),
    sqlite_autoincrement=True,
)


def _ordered(name: str, *columns: Column[int] | Column[str] | Column[bool]) -> Table:
    return Table(
        name,
        metadata,
        Column("set_id", ForeignKey("kept_set.id", ondelete="CASCADE"), primary_key=True),
        Column("place", Integer, primary_key=True, autoincrement=False),
        *columns,
    )


set_singer = _ordered("set_singer", Column("singer_id", ForeignKey("singer.id"), nullable=False, index=True))
set_player = _ordered("set_player", Column("player_id", ForeignKey("player.id"), nullable=False, index=True))
set_song = _ordered(
    "set_song",
    Column("song_id", ForeignKey("song.id"), nullable=False, index=True),
    Column("singer_id", ForeignKey("singer.id"), index=True),
    Column("key", Text),
    Column("counts_in", Text),
    Column("segue", Boolean, nullable=False),
)
