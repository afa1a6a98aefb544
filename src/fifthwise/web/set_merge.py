"""Two changes of one set put together: what both changed, each in another way, is a clash.

A song that stands once in a set is compared field by field, and so is each time of one that stands there
more often where nobody moved what both have. Else such a song is compared as a whole, since nothing tells
which of its times is which once somebody has moved or taken out one.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any, TypeVar

from fifthwise.book import KeptSetSong, SetOrder
from fifthwise.web.set_changes import Twin, twins

__all__ = ["Clash", "Merge", "merge"]

HEAD_FIELDS = ("name", "date", "paper")
SONG_FIELDS = ("singer_id", "key", "counts_in", "segue")

Value = TypeVar("Value")
Rows = dict[int, tuple[KeptSetSong, ...]]


@dataclass(frozen=True, slots=True)
class Clash:
    """What two people changed, each in another way.

    Attributes
    ----------
    what : str
        A field of the set or of a song; ``rows`` for a song as a whole, ``order`` for the running order.
    mine, theirs
        The two values. For ``rows`` tuples of the song's rows, for ``order`` the songs' numbers.
    song_id : int
        The song; 0 where it is none.
    time : int
        Which of its times in the set, from 1; 0 where it stands there once, or is meant as a whole.
    """

    what: str
    mine: Any
    theirs: Any
    song_id: int = 0
    time: int = 0


@dataclass(frozen=True, slots=True)
class Merge:
    """What came of two changes: in a clash, their value stands in the order."""

    order: SetOrder
    clashes: tuple[Clash, ...]


def merge(base: SetOrder, mine: SetOrder, theirs: SetOrder) -> Merge:
    """Put two changes of one set together.

    Parameters
    ----------
    base : SetOrder
        What both were made from.
    """
    clashes: list[Clash] = []
    head = _fields(HEAD_FIELDS, (base, mine, theirs), clashes)
    rows = _rows((base, mine, theirs), clashes)
    sequence = _sequence((base, mine, theirs), rows, clashes)
    # What was put in between may stand before an earlier time of its song: the rows go by their places.
    left = {song_id: iter(kept) for song_id, kept in rows.items()}
    order = replace(
        theirs,
        **head,
        singer_ids=_people(base.singer_ids, mine.singer_ids, theirs.singer_ids),
        player_ids=_people(base.player_ids, mine.player_ids, theirs.player_ids),
        songs=tuple(next(left[twin.song_id]) for twin in sequence),
    )
    return Merge(order, tuple(clashes))


def _pick(base: Value, mine: Value, theirs: Value) -> tuple[Value, bool]:
    """The value of whoever changed it, theirs where both did; and whether that is a clash."""
    if mine in (base, theirs):
        return theirs, False
    return (mine, False) if theirs == base else (theirs, True)


def _fields(
    names: Sequence[str], three: tuple[Any, ...], clashes: list[Clash], song_id: int = 0, time: int = 0
) -> dict[str, Any]:
    picked = {}
    for name in names:
        base, mine, theirs = (getattr(each, name) for each in three)
        picked[name], clash = _pick(base, mine, theirs)
        if clash:
            clashes.append(Clash(name, mine, theirs, song_id, time))
    return picked


def _people(base: tuple[int, ...], mine: tuple[int, ...], theirs: tuple[int, ...]) -> tuple[int, ...]:
    """Who came and who went, by both."""
    went = set(base) - set(mine)
    came = (each for each in mine if each not in base)
    return tuple(dict.fromkeys((*(each for each in theirs if each not in went), *came)))


def _rows(three: tuple[SetOrder, SetOrder, SetOrder], clashes: list[Clash]) -> Rows:
    found = [_by_song(order) for order in three]
    still = _nobody_moved(three)
    return {
        song_id: _song(song_id, [rows.get(song_id, ()) for rows in found], clashes, still=still)
        for song_id in dict.fromkeys(song_id for rows in found for song_id in rows)
    }


def _nobody_moved(three: tuple[SetOrder, SetOrder, SetOrder]) -> bool:
    """Whether the songs that all have equally often stand in one order."""
    counts = [Counter(song.song_id for song in order.songs) for order in three]
    alike = {song_id for song_id in counts[0] if len({count[song_id] for count in counts}) == 1}
    base, mine, theirs = ([song.song_id for song in order.songs if song.song_id in alike] for order in three)
    return base == mine == theirs


def _by_song(order: SetOrder) -> Rows:
    rows: Rows = {}
    for song in order.songs:
        rows[song.song_id] = (*rows.get(song.song_id, ()), song)
    return rows


def _song(
    song_id: int, three: Sequence[tuple[KeptSetSong, ...]], clashes: list[Clash], *, still: bool
) -> tuple[KeptSetSong, ...]:
    base, mine, theirs = three
    alike = len(base) == len(mine) == len(theirs)
    if alike and (len(base) == 1 or (still and not _turned(base, mine) and not _turned(base, theirs))):
        return tuple(
            replace(rows[2], **_fields(SONG_FIELDS, rows, clashes, song_id, time if len(base) > 1 else 0))
            for time, rows in enumerate(zip(base, mine, theirs, strict=True), 1)
        )
    picked, clash = _pick(base, mine, theirs)
    if clash:
        clashes.append(Clash("rows", mine, theirs, song_id))
    return picked


def _turned(base: tuple[KeptSetSong, ...], changed: tuple[KeptSetSong, ...]) -> bool:
    """Whether the times of a song were moved among themselves."""
    return base != changed and Counter(base) == Counter(changed)


def _sequence(three: tuple[SetOrder, SetOrder, SetOrder], rows: Rows, clashes: list[Clash]) -> list[Twin]:
    """The places: in the order of whoever moved songs, with what the other one has beside."""
    base, mine, theirs = (twins(order.songs) for order in three)
    common = {*base} & {*mine} & {*theirs}
    in_base, in_mine, in_theirs = ([twin for twin in each if twin in common] for each in (base, mine, theirs))
    picked, clash = _pick(in_base, in_mine, in_theirs)
    if clash:
        clashes.append(Clash("order", _song_ids(mine), _song_ids(theirs)))
    first, other = (theirs, mine) if picked == in_theirs else (mine, theirs)
    stay = {Twin(song_id, count) for song_id, kept in rows.items() for count in range(1, len(kept) + 1)}
    sequence = [twin for twin in first if twin in stay]
    for place, twin in _new(other, stay - {*sequence}):
        sequence.insert(_after(sequence, other, place, common), twin)
    return sequence


def _song_ids(order: Sequence[Twin]) -> tuple[int, ...]:
    return tuple(twin.song_id for twin in order)


def _new(other: Sequence[Twin], wanted: set[Twin]) -> Iterator[tuple[int, Twin]]:
    return ((place, twin) for place, twin in enumerate(other) if twin in wanted)


def _after(sequence: list[Twin], other: Sequence[Twin], place: int, common: set[Twin]) -> int:
    """Behind the nearest song before it; at the end where it was put in at the end."""
    if common.isdisjoint(other[place + 1 :]):
        return len(sequence)
    before = next((twin for twin in reversed(other[:place]) if twin in sequence), None)
    return sequence.index(before) + 1 if before else 0
