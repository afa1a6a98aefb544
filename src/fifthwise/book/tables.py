"""The tables of songs, and what all tables share, in words that every database reads.

A song's row holds its newest text and what it is found by; ``song_version`` holds every text it ever had,
the newest too. Times are in UTC, without saying so. A change here needs a migration.
"""

from sqlalchemy import Boolean, Column, DateTime, Float, ForeignKey, Integer, MetaData, String, Table, Text

__all__ = ["NAMING", "metadata", "song", "song_tag", "song_version"]

# Names that a later migration can rely on, whichever database gave them.
NAMING = {
    "ix": "ix_%(table_name)s_%(column_0_N_name)s",
    "uq": "uq_%(table_name)s_%(column_0_N_name)s",
    "ck": "ck_%(table_name)s_%(constraint_name)s",
    "fk": "fk_%(table_name)s_%(column_0_N_name)s_%(referred_table_name)s",
    "pk": "pk_%(table_name)s",
}

metadata = MetaData(naming_convention=NAMING)

song = Table(
    "song",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("version", Integer, nullable=False),
    Column("text", Text, nullable=False),
    Column("title", Text, nullable=False),
    Column("by", Text),
    Column("key", String(16), nullable=False, index=True),
    Column("tempo_bpm", Float, index=True),
    Column("feel", Text),
    Column("tags", Text),
    Column("folded_title", String(200), nullable=False, index=True),
    Column("folded_feel", Text, nullable=False),
    Column("folded_words", Text, nullable=False),
    Column("saved_at", DateTime, nullable=False, index=True),
    Column("key_place", Integer, nullable=False),
    Column("metre", String(64), nullable=False),
    Column("sung", Boolean, nullable=False),
    Column("opening", Text, nullable=False),
    Column("families", Text, nullable=False),
    Column("chords", Text, nullable=False),
    sqlite_autoincrement=True,  # or SQLite would give the number of a song that is gone to the next
)

song_version = Table(
    "song_version",
    metadata,
    Column("song_id", ForeignKey("song.id", ondelete="CASCADE"), primary_key=True),
    Column("version", Integer, primary_key=True, autoincrement=False),
    Column("text", Text, nullable=False),
    Column("saved_at", DateTime, nullable=False),
)

song_tag = Table(
    "song_tag",
    metadata,
    Column("song_id", ForeignKey("song.id", ondelete="CASCADE"), primary_key=True),
    Column("folded_tag", String(200), primary_key=True, index=True),
)
