"""Charts of a folder taken into a book, many in one transaction."""

import hashlib
from collections.abc import Iterator
from itertools import islice

from sqlalchemy import Connection, select

from fifthwise.book.coming import Coming
from fifthwise.book.engine import Book, reading, writing
from fifthwise.book.errors import BookFault
from fifthwise.book.folded import fold
from fifthwise.book.folder_files import read_file
from fifthwise.book.matching import InBook, Matching
from fifthwise.book.songs import put_song, read_song_text, save_over
from fifthwise.book.tables import song
from fifthwise.chart import Chart
from fifthwise.errors import FifthwiseError

__all__ = ["import_songs"]

AT_ONCE = 50  # charts of one transaction; others may save in between


def import_songs(coming: Coming) -> dict[str, int]:
    """Take every chart in; gives the number in the book of each file that is kept or unchanged."""
    matching = Matching(_there(coming.book), _digests(coming))
    songs: dict[str, int] = {}
    sound = _sound(coming)
    while batch := list(islice(sound, AT_ONCE)):
        with writing(coming.book) as connection:
            done = [_keep(coming, connection, matching, *each) for each in batch]
        # What a transaction did is told once it is kept.
        for path, found in zip((path for path, *_ in batch), done, strict=True):
            if isinstance(found, FifthwiseError):
                coming.failed(path, found)
            else:
                songs[path], changed = found
                coming.done(path, changed=changed)
    return songs


def _sound(coming: Coming) -> Iterator[tuple[str, str, Chart]]:
    for path in coming.files.charts:
        try:
            yield path, *read_song_text(read_file(coming.files, path), path)
        except FifthwiseError as error:
            coming.failed(path, error)


def _keep(
    coming: Coming, connection: Connection, matching: Matching, path: str, text: str, chart: Chart
) -> tuple[int, bool] | FifthwiseError:
    """A song's number and whether it is new or changed; or why it is not kept."""
    digest = _digest(text)
    there = matching.take(_alike(chart.title, chart.by), digest)
    if there is None:
        return put_song(connection, text, chart), True
    if there.same == digest:
        return there.id, False
    try:
        save_over(coming.book, connection, there.id, text, chart, there.version)
    except BookFault:
        raise
    except FifthwiseError as error:
        return error
    return there.id, True


def _there(book: Book) -> list[InBook]:
    columns = (song.c.id, song.c.version, song.c.title, song.c.by, song.c.text)
    with reading(book) as connection:
        rows = connection.execute(select(*columns).order_by(song.c.id))
        return [InBook(row.id, row.version, _alike(row.title, row.by), _digest(row.text)) for row in rows]


def _digests(coming: Coming) -> Iterator[bytes]:
    """What every chart of the folder says, kept small; one that cannot be read is told later."""
    for path in coming.files.charts:
        try:
            yield _digest(read_file(coming.files, path))
        except FifthwiseError:
            continue


def _alike(title: str, by: str | None) -> tuple[str, str]:
    return fold(title), fold(by or "")


def _digest(text: str) -> bytes:
    return hashlib.sha256(text.encode()).digest()
