"""Singers and players of a folder's lists taken into a book, by their names."""

from collections.abc import Callable, Iterable
from typing import Protocol, TypeVar

from fifthwise.book.coming import Coming
from fifthwise.book.engine import Book
from fifthwise.book.errors import BookFault
from fifthwise.book.folded import fold
from fifthwise.book.folder_files import as_faults, read_file
from fifthwise.book.players import add_player, players, save_player
from fifthwise.book.singers import add_singer, save_singer, singers
from fifthwise.chart import Fault
from fifthwise.errors import FifthwiseError
from fifthwise.evening import Player, read_players, read_singers
from fifthwise.voice import Singer

__all__ = ["import_players", "import_singers", "player_numbers", "singer_numbers"]


class _Named(Protocol):
    @property
    def name(self) -> str: ...


Person = TypeVar("Person", bound=_Named)
Keep = Callable[[Person], bool]


def import_singers(coming: Coming) -> None:
    """Take ``singers.yaml`` in."""
    there = {fold(each.singer.name): each for each in singers(coming.book)}

    def keep(singer: Singer) -> bool:
        kept = there.get(fold(singer.name))
        if kept is None:
            add_singer(coming.book, singer)
        elif kept.singer != singer:
            save_singer(coming.book, kept.id, singer, kept.version)
        return kept is None or kept.singer != singer

    _import_list(coming, "singers.yaml", read_singers, keep)


def import_players(coming: Coming) -> None:
    """Take ``players.yaml`` in."""
    there = {fold(each.player.name): each for each in players(coming.book)}

    def keep(player: Player) -> bool:
        kept = there.get(fold(player.name))
        if kept is None:
            add_player(coming.book, player)
        elif kept.player != player:
            save_player(coming.book, kept.id, player, kept.version)
        return kept is None or kept.player != player

    _import_list(coming, "players.yaml", read_players, keep)


def singer_numbers(book: Book, wanted: Iterable[Singer]) -> dict[str, int]:
    """The numbers of an evening's singers by their names; those whom the book does not have are added."""
    there = {fold(each.singer.name): each.id for each in singers(book)}
    return {
        each.name: there[fold(each.name)] if fold(each.name) in there else add_singer(book, each).id
        for each in wanted
    }


def player_numbers(book: Book, wanted: Iterable[Player]) -> dict[str, int]:
    """The same of players."""
    there = {fold(each.player.name): each.id for each in players(book)}
    return {
        each.name: there[fold(each.name)] if fold(each.name) in there else add_player(book, each).id
        for each in wanted
    }


def _import_list(
    coming: Coming, path: str, read: Callable[[str, str], tuple[Person, ...]], keep: Keep[Person]
) -> None:
    if path not in coming.files.lists:
        return
    faults: list[Fault] = []
    changed = False
    try:
        for person in read(read_file(coming.files, path), path):
            try:
                changed |= keep(person)
            except BookFault:
                raise
            except FifthwiseError as error:
                faults += as_faults(error, path)
    except BookFault:
        raise
    except FifthwiseError as error:
        faults += as_faults(error, path)
    if faults:
        coming.failed_by(path, faults)
    else:
        coming.done(path, changed=changed)
