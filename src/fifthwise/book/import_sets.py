"""Sets of a folder taken into a book, with the people whom they name."""

from posixpath import dirname, join, normpath

from sqlalchemy import select

from fifthwise.book.coming import Coming
from fifthwise.book.engine import Book, reading
from fifthwise.book.errors import BookFault
from fifthwise.book.folded import fold
from fifthwise.book.folder_files import read_file
from fifthwise.book.import_people import player_numbers, singer_numbers
from fifthwise.book.matching import InBook, Matching
from fifthwise.book.set_order import KeptSetSong, SetOrder, checked_order
from fifthwise.book.set_tables import kept_set
from fifthwise.book.sets import add_set, read_set, save_set
from fifthwise.chart import Fault
from fifthwise.errors import FifthwiseError
from fifthwise.evening import Evening, EveningFaults, SetSong, read_evening

__all__ = ["absent_chart", "beside", "import_sets"]


def import_sets(coming: Coming, songs: dict[str, int]) -> None:
    """Take every set in.

    Parameters
    ----------
    songs : dict
        The number in the book of each chart's file.
    """
    orders: dict[str, SetOrder] = {}
    for path in coming.files.sets:
        try:
            evening = read_evening(read_file(coming.files, path), path, unfinished=True)
            orders[path] = checked_order(_order(coming.book, evening, songs, path))
        except BookFault:
            raise
        except FifthwiseError as error:
            coming.failed(path, error)
    matching = Matching(_there(coming.book), map(_content, orders.values()))
    for path, order in orders.items():
        try:
            coming.done(path, changed=_keep(coming.book, matching, order))
        except BookFault:
            raise
        except FifthwiseError as error:
            coming.failed(path, error)


def beside(path: str, named: str) -> str:
    """The path below the folder of what a file names, seen from its own place."""
    return normpath(join(dirname(path), named))


def absent_chart(named: str, line: int, path: str) -> Fault:
    """The fault of a line that names a chart which is not there, or is at fault itself."""
    what = f"there is no sound chart {named} in this folder"
    return Fault(what, "Check its name, and the faults told for it", line, 1, 1, "", path)


def _order(book: Book, evening: Evening, songs: dict[str, int], path: str) -> SetOrder:
    numbers = {each.chart: songs.get(beside(path, each.chart)) for each in evening.songs}
    faults = tuple(
        absent_chart(each.chart, each.line, path) for each in evening.songs if numbers[each.chart] is None
    )
    if faults:
        raise EveningFaults(faults)
    singers, players = singer_numbers(book, evening.singers), player_numbers(book, evening.players)
    placed = (_placed(each, numbers[each.chart], singers) for each in evening.songs)
    return SetOrder(
        evening.name,
        evening.date,
        evening.paper,
        tuple(singers[each.name] for each in evening.singers),
        tuple(players[each.name] for each in evening.players),
        tuple(each for each in placed if each is not None),
    )


def _placed(song: SetSong, number: int | None, singers: dict[str, int]) -> KeptSetSong | None:
    if number is None:
        return None
    singer = None if song.singer is None else singers[song.singer]
    return KeptSetSong(number, singer, song.key, song.counts_in, song.segue)


def _keep(book: Book, matching: Matching, order: SetOrder) -> bool:
    """Keep a set; tells whether it is new or changed."""
    there = matching.take(_alike(order), _content(order))
    if there is None:
        add_set(book, order)
    elif there.same != _content(order):
        save_set(book, there.id, order, there.version)
    return there is None or there.same != _content(order)


def _there(book: Book) -> list[InBook]:
    with reading(book) as connection:
        numbers = connection.execute(select(kept_set.c.id).order_by(kept_set.c.id)).scalars().all()
        kept = [read_set(book, connection, number) for number in numbers]
    return [InBook(each.id, each.version, _alike(each.order), _content(each.order)) for each in kept]


def _alike(order: SetOrder) -> tuple[str, str]:
    return fold(order.name), order.date or ""


def _content(order: SetOrder) -> tuple[object, ...]:
    """What a set says; a singer who sings is there, whether or not the book says so too."""
    singing = (each.singer_id for each in order.songs if each.singer_id is not None)
    there = tuple(dict.fromkeys((*order.singer_ids, *singing)))
    return order.name, order.date, order.paper, there, order.player_ids, order.songs
