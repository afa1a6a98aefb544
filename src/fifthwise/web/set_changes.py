"""What is changed in a set, as pure functions: an order goes in, a new order comes out.

Places count from 1, as they are read on the page.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from fifthwise.book import KeptSetSong, SetOrder

__all__ = ["Twin", "arranged", "moved", "put_in", "taken_out", "twins", "unlike"]


@dataclass(frozen=True, slots=True)
class Twin:
    """A song of a set, the same wherever it is moved.

    Attributes
    ----------
    song_id, count : int
        The song, and which of its times in the set it is, from 1.
    """

    song_id: int
    count: int

    def __str__(self) -> str:
        return f"{self.song_id}-{self.count}"


def twins(songs: Iterable[KeptSetSong]) -> tuple[Twin, ...]:
    """Which song stands at each place."""
    seen: Counter[int] = Counter()
    found = []
    for song in songs:
        seen[song.song_id] += 1
        found.append(Twin(song.song_id, seen[song.song_id]))
    return tuple(found)


def moved(order: SetOrder, place: int, to: int) -> SetOrder:
    """Move one song to another place; a place beyond an end is that end."""
    songs = list(order.songs)
    if not 1 <= place <= len(songs):
        return order
    song = songs.pop(place - 1)
    songs.insert(max(to, 1) - 1, song)
    return replace(order, songs=tuple(songs))


def arranged(order: SetOrder, places: Sequence[int]) -> SetOrder:
    """Put all songs into a new order, each named by its place until now.

    What does not name each place once changes nothing.
    """
    if sorted(places) != list(range(1, len(order.songs) + 1)):
        return order
    return replace(order, songs=tuple(order.songs[place - 1] for place in places))


def taken_out(order: SetOrder, place: int) -> SetOrder:
    """Take one song out; a place that is not there changes nothing."""
    songs = tuple(song for at, song in enumerate(order.songs, 1) if at != place)
    return replace(order, songs=songs)


def put_in(order: SetOrder, song: KeptSetSong) -> SetOrder:
    """Put a song at the end."""
    return replace(order, songs=(*order.songs, song))


def unlike(mine: SetOrder, theirs: SetOrder) -> tuple[KeptSetSong, ...]:
    """The songs of one order that another does not have, or has otherwise, wherever they stand."""
    there = dict(zip(twins(theirs.songs), theirs.songs, strict=True))
    return tuple(
        song for twin, song in zip(twins(mine.songs), mine.songs, strict=True) if there.get(twin) != song
    )
