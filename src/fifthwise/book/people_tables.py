"""The tables of singers, players, and who sang what when.

Ranges, notes and instruments are kept as people write them, and read back by the rooms that know them.
"""

from sqlalchemy import Column, Date, ForeignKey, Integer, String, Table, Text

from fifthwise.book.tables import metadata

__all__ = ["player", "singer", "sung"]


def _person(name: str, *columns: Column[str]) -> Table:
    return Table(
        name,
        metadata,
        Column("id", Integer, primary_key=True),
        Column("version", Integer, nullable=False),
        Column("name", String(100), nullable=False),
        Column("folded_name", String(200), nullable=False, unique=True),
        *columns,
        sqlite_autoincrement=True,  # or SQLite would give the number of one that is gone to the next
    )


singer = _person(
    "singer",
    Column("usable", Text, nullable=False),
    Column("comfort", Text, nullable=False),
    Column("turns", Text),
)

player = _person(
    "player",
    Column("instrument", Text, nullable=False),
    Column("level", Text),
    Column("show", Text, nullable=False),
    Column("capo", Text, nullable=False),
)

sung = Table(
    "sung",
    metadata,
    Column("singer_id", ForeignKey("singer.id", ondelete="CASCADE"), primary_key=True),
    Column("song_id", ForeignKey("song.id", ondelete="CASCADE"), primary_key=True, index=True),
    Column("sung_on", Date, primary_key=True),
    Column("key", String(16), nullable=False),
)
