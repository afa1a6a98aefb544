"""Players put into a book, read, changed and removed."""

from dataclasses import dataclass

from sqlalchemy import RowMapping

from fifthwise.book import people
from fifthwise.book.engine import Book
from fifthwise.book.kinds import PLAYER, remove
from fifthwise.evening import SHOWS, Player, part_of
from fifthwise.strings import LEVELS

__all__ = ["KeptPlayer", "add_player", "player", "player_of", "players", "remove_player", "save_player"]


@dataclass(frozen=True, slots=True)
class KeptPlayer:
    """A player in a book.

    Attributes
    ----------
    id, version : int
        The number in the book, which stays, and the newest version, from 1.
    """

    id: int
    version: int
    player: Player


def add_player(book: Book, player: Player) -> KeptPlayer:
    """Put a new player into a book.

    Raises
    ------
    NameFault
        The name cannot be kept, or another player has it.
    """
    return people.add(book, PLAYERS, player)


def save_player(book: Book, player_id: int, player: Player, version: int) -> KeptPlayer:
    """Save a player over the version that was read.

    Raises
    ------
    NameFault
        The name cannot be kept, or another player has it.
    NoSuchPlayer
        The book has no such player.
    Conflict
        ``version`` is not the newest: somebody else has saved since.
    """
    return people.save(book, PLAYERS, player_id, player, version)


def player(book: Book, player_id: int) -> KeptPlayer:
    """One player.

    Raises
    ------
    NoSuchPlayer
        The book has no such player.
    """
    return people.one(book, PLAYERS, player_id)


def players(book: Book) -> tuple[KeptPlayer, ...]:
    """All players by name."""
    return people.everyone(book, PLAYERS)


def remove_player(book: Book, player_id: int, version: int) -> None:
    """Remove a player.

    Raises
    ------
    NoSuchPlayer
        The book has no such player.
    StandsInSets
        The player stands in sets, which it names.
    Conflict
        ``version`` is not the newest.
    """
    remove(book, PLAYER, player_id, version)


def player_of(row: RowMapping) -> Player:
    """The player that a row holds."""
    show = SHOWS[SHOWS.index(row["show"])]
    level = None if row["level"] is None else LEVELS[LEVELS.index(row["level"])]
    return Player(row["name"], part_of(row["instrument"]), level, show, row["capo"] == "yes")


def _columns(player: Player) -> dict[str, str | None]:
    capo = "yes" if player.capo else "no"
    return {"instrument": player.part.name, "level": player.level, "show": player.show, "capo": capo}


PLAYERS = people.People(PLAYER, _columns, lambda row: KeptPlayer(row["id"], row["version"], player_of(row)))
