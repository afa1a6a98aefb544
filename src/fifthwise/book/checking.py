"""A book looked through: the file, what names what, every song against its text, people and sets."""

from collections.abc import Iterator

from sqlalchemy import Connection, ForeignKey, RowMapping, Table, exists, select

from fifthwise.book.checking_sets import unreadable_people_and_sets
from fifthwise.book.database_faults import damaged
from fifthwise.book.engine import Book, is_file, reading
from fifthwise.book.errors import NotABook
from fifthwise.book.finding import Finding
from fifthwise.book.folded import folded_tags, song_columns
from fifthwise.book.tables import metadata, song, song_tag, song_version
from fifthwise.chart import read_chart

__all__ = ["check_book", "check_file"]

MOST_DAMAGE = 20  # what SQLite says of a damaged file; more would not help
SAVE = "Open it and save it again"
BACK = "Put the newest backup back: fifthwise book put-back"


def check_book(book: Book) -> tuple[Finding, ...]:
    """Look a whole book through; a sound one gives nothing.

    Raises
    ------
    BookLocked, BookAway
        It cannot be read just now.
    """
    try:
        with reading(book) as connection:
            damage = tuple(_damage(book, connection))
            # What stands on damaged pages would only be told a second time.
            return damage or tuple(_wrong(book, connection))
    except NotABook as fault:
        return (Finding(fault.what, fault.where, fault.fix),)


def check_file(book: Book) -> None:
    """See that a book's file can be read in all its pages, which takes a moment; a server sees to its own.

    Raises
    ------
    NotABook
        It is damaged.
    BookLocked, BookAway
        It cannot be read just now.
    """
    if not is_file(book):
        return
    with reading(book) as connection:
        found = connection.exec_driver_sql("PRAGMA quick_check(1)").scalar_one()
    if found != "ok":
        raise damaged(book.where)


def _wrong(book: Book, connection: Connection) -> Iterator[Finding]:
    yield from _broken_names(connection)
    yield from _songs(connection)
    yield from unreadable_people_and_sets(book, connection)


def _damage(book: Book, connection: Connection) -> Iterator[Finding]:
    if not is_file(book):
        return
    for (found,) in connection.exec_driver_sql(f"PRAGMA integrity_check({MOST_DAMAGE})"):
        if found != "ok":
            yield Finding(f"the file is damaged ({found})", book.where, BACK)


def _broken_names(connection: Connection) -> Iterator[Finding]:
    """Rows that name a row which is not there."""
    for table in metadata.sorted_tables:
        for key in sorted(table.foreign_keys, key=lambda key: key.parent.name):
            yield from _broken(connection, table, key)


def _broken(connection: Connection, table: Table, key: ForeignKey) -> Iterator[Finding]:
    named = key.column.table.alias("named")
    column = key.parent
    there = exists().where(named.c[key.column.name] == column)
    numbers = connection.execute(select(column).where(column.is_not(None), ~there).distinct()).scalars()
    for number in sorted(numbers):
        yield Finding(
            f"{key.column.table.name} {number} is named and not there", table.name.replace("_", " "), BACK
        )


def _songs(connection: Connection) -> Iterator[Finding]:
    tags = _tags(connection)
    found = connection.execute(select(song).order_by(song.c.id)).mappings()
    for row in found:
        where = f"song {row['id']}, '{row['title']}'"
        yield from _versions(connection, row, where)
        reading = read_chart(row["text"])
        for fault in reading.faults:
            yield Finding(f"line {fault.line}: {fault.what}", where, fault.fix)
        if not reading.faults:
            said = song_columns(reading.chart)
            wrong = [name for name, value in said.items() if row[name] != value]
            if tags.get(row["id"], frozenset()) != folded_tags(reading.chart):
                wrong.append("tags")
            if wrong:
                yield Finding(f"the list does not say what its text says ({', '.join(wrong)})", where, SAVE)


def _tags(connection: Connection) -> dict[int, frozenset[str]]:
    tags: dict[int, set[str]] = {}
    for number, tag in connection.execute(select(song_tag)):
        tags.setdefault(number, set()).add(tag)
    return {number: frozenset(found) for number, found in tags.items()}


def _versions(connection: Connection, row: RowMapping, where: str) -> Iterator[Finding]:
    of_song = select(song_version.c.version).where(song_version.c.song_id == row["id"])
    kept = list(connection.execute(of_song.order_by(song_version.c.version)).scalars())
    if len(kept) != row["version"] or kept != list(range(1, len(kept) + 1)):
        what = f"its versions are not whole ({len(kept)} of {row['version']})"
        yield Finding(what, where, f"{SAVE}, which goes on from there, or {BACK[0].lower()}{BACK[1:]}")
    newest = select(song_version.c.text).where(
        (song_version.c.song_id == row["id"]) & (song_version.c.version == row["version"])
    )
    text = connection.execute(newest).scalar()
    if text is not None and text != row["text"]:
        yield Finding("its newest version has another text", where, SAVE)
