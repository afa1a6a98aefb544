"""A whole book written to a folder of plain files, as one picture of it at one moment."""

from dataclasses import replace
from pathlib import Path

from sqlalchemy import Connection, RowMapping, Select, Table, select

from fifthwise.book.engine import Book, reading
from fifthwise.book.export_names import export_names
from fifthwise.book.folder_files import CHART, SET
from fifthwise.book.kept_evening import read_evening_of
from fifthwise.book.people_tables import player, singer, sung
from fifthwise.book.players import player_of
from fifthwise.book.set_tables import kept_set
from fifthwise.book.singers import singer_of
from fifthwise.book.tables import song
from fifthwise.evening import (
    Evening,
    SungLine,
    write_evening,
    write_players,
    write_singers,
    write_sung,
)
from fifthwise.files import write_folder
from fifthwise.theory import read_key

__all__ = ["export_book"]

MOST_SUNG = 2000  # lines of one file: well below what is read again


def export_book(book: Book, folder: Path, *, force: bool = False) -> int:
    """Write all of a book into a folder, replacing the earlier export.

    ``songs/`` has each chart's text byte for byte, ``sets/`` whole evenings, ``singers.yaml``,
    ``players.yaml`` and ``sung.yaml`` the rest. Earlier versions of songs stay in the book alone.

    Parameters
    ----------
    force : bool
        Whether files that fifthwise did not write, or that were changed since, may be replaced.

    Returns
    -------
    int
        How many files there are now.

    Raises
    ------
    FileFault
        The folder holds something else, or cannot be written to.
    """
    with reading(book) as connection:
        texts = {row.id: (row.title, row.text) for row in connection.execute(select(song))}
        names = export_names((number, *found) for number, found in texts.items())
        songs = {number: f"songs/{name}{CHART}" for number, name in names.items()}
        files = {songs[number]: text for number, (_, text) in texts.items()}
        files |= _sets(book, connection, songs)
        files["singers.yaml"] = write_singers(tuple(map(singer_of, _people(connection, singer))))
        files["players.yaml"] = write_players(tuple(map(player_of, _people(connection, player))))
        files |= _sung(connection, songs)
    write_folder(folder, {name: files[name].encode() for name in sorted(files)}, force=force)
    return len(files)


def _people(connection: Connection, table: Table) -> list[RowMapping]:
    return list(connection.execute(select(table).order_by(table.c.folded_name)).mappings())


def _sets(book: Book, connection: Connection, songs: dict[int, str]) -> dict[str, str]:
    numbers = connection.execute(select(kept_set.c.id)).scalars().all()
    evenings = {number: read_evening_of(book, connection, number) for number in numbers}
    texts = {number: write_evening(_with_files(found, songs)) for number, found in evenings.items()}
    names = export_names((number, evenings[number].name, text) for number, text in texts.items())
    return {f"sets/{names[number]}{SET}": text for number, text in texts.items()}


def _with_files(evening: Evening, songs: dict[int, str]) -> Evening:
    """An evening whose charts are named by their files, seen from its own."""
    named = (replace(each, chart=f"../{songs[int(each.chart)]}") for each in evening.songs)
    return replace(evening, songs=tuple(named))


def _sung(connection: Connection, songs: dict[int, str]) -> dict[str, str]:
    asked: Select[tuple[object, ...]] = select(sung, singer.c.name).join(
        singer, singer.c.id == sung.c.singer_id
    )
    lines = [
        SungLine(row.name, songs[row.song_id], read_key(row.key), row.sung_on)
        for row in connection.execute(asked)
    ]
    lines.sort(key=lambda line: (line.on, line.singer, line.song))
    parts = [lines[at : at + MOST_SUNG] for at in range(0, len(lines), MOST_SUNG)] or [[]]
    return {
        f"sung{'' if number == 1 else f'-{number}'}.yaml": write_sung(part)
        for number, part in enumerate(parts, 1)
    }
