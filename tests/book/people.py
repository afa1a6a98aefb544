"""Singers and players for the book's tests, and several who write at once."""

from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

from fifthwise.book import Conflict
from fifthwise.evening import Player, part_of
from fifthwise.voice import read_singer

__all__ = ["SAVERS", "a_player", "a_singer", "winners_at_once"]

SAVERS = 8


def a_singer(name="Maren", usable="F3-D5", comfort="A3-Bb4", turns=None):
    """A singer of that name."""
    return read_singer(name, usable=usable, comfort=comfort, turns=turns)


def a_player(name="Ines", instrument="fiddle", **fields):
    """A player of that name."""
    return Player(name, part_of(instrument), **fields)


def winners_at_once(save):
    """The numbers of those whose save was kept; every other has to be told of a conflict."""
    start = Barrier(SAVERS)

    def save_one(number):
        start.wait()
        try:
            save(number)
        except Conflict as conflict:
            return conflict
        return number

    with ThreadPoolExecutor(SAVERS) as pool:
        results = list(pool.map(save_one, range(SAVERS)))
    return [result for result in results if isinstance(result, int)]
