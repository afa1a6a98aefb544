"""What was not kept of a change, because somebody else changed the set meanwhile, or because it cannot be."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from fifthwise.book import Book, KeptSetSong, SetOrder, singers, songs
from fifthwise.web.set_changes import Twin, twins, unlike
from fifthwise.web.set_form import Change
from fifthwise.web.set_merge import Clash, Merge

__all__ = ["clash_words", "lost_words"]

MOST_TITLES = 12


@dataclass(frozen=True, slots=True)
class _Names:
    """What songs and singers are called."""

    titles: Mapping[int, str]
    singers: Mapping[int, str]

    def title(self, song_id: int) -> str:
        return f"“{self.titles.get(song_id, 'a song')}”"

    def singer(self, singer_id: int | None) -> str:
        return f"sung by {self.singers.get(singer_id, 'somebody')}" if singer_id else "no singer"

    def running(self, song_ids: Iterable[int]) -> str:
        """A running order, its beginning where it is long."""
        told = [self.titles.get(song_id, "a song") for song_id in song_ids]
        more = len(told) - MOST_TITLES
        return ", ".join(told[:MOST_TITLES]) + (f" and {more} more" if more > 0 else "")


def clash_words(book: Book, merged: Merge) -> tuple[str, ...]:
    """What two changed, each in another way: what one wanted, then what is kept; without full stops."""
    names = _names(book)
    places = {twin: place for place, twin in enumerate(twins(merged.order.songs), 1)}
    return tuple(_clash(clash, names, places) for clash in merged.clashes)


def lost_words(book: Book, mine: SetOrder, theirs: SetOrder, change: Change) -> tuple[str, ...]:
    """What one wanted and the set does not have, in words, each without a full stop.

    Parameters
    ----------
    mine, theirs : SetOrder
        What was to be saved, and what the book has.
    change : Change
        What was pressed.
    """
    names = _names(book)
    told = [*_head(mine, theirs), *_order(mine, theirs, change)]
    return (*told, *(f"{names.title(song.song_id)}: {_row(song, names)}" for song in unlike(mine, theirs)))


def _names(book: Book) -> _Names:
    titles = {row.id: row.title for row in songs(book)}
    return _Names(titles, {kept.id: kept.singer.name for kept in singers(book)})


def _clash(clash: Clash, names: _Names, places: Mapping[Twin, int]) -> str:
    if clash.what == "order":
        return f"your order of the songs: {names.running(clash.mine)}"
    if clash.what == "rows":
        return f"{names.title(clash.song_id)}: {_rows_clash(clash, names)}"
    mine, theirs = (SAID[clash.what](value, names) for value in (clash.mine, clash.theirs))
    place = f", song {places[Twin(clash.song_id, clash.time)]}" if clash.time else ""
    song = f"{names.title(clash.song_id)}{place}: " if clash.song_id else ""
    return f"{song}{mine}; now: {theirs}"


def _rows_clash(clash: Clash, names: _Names) -> str:
    if not clash.mine:
        return "you took it out; it was changed"
    mine = "; then ".join(_row(row, names) for row in clash.mine)
    return f"{mine}; {'it was changed' if clash.theirs else 'it was taken out'}"


def _paper(paper: str) -> str:
    return "A4" if paper == "a4" else paper.title()


def _counts(name: str | None) -> str:
    return f"{name} counts in" if name else "nobody counts in"


def _key(key: str | None) -> str:
    return f"in {key}" if key else "in the key that suits"


# What a value is called, by its field.
SAID: dict[str, Callable[[Any, _Names], str]] = {
    "name": lambda name, _: f"the name “{name}”",
    "date": lambda day, _: f"the day “{day}”" if day else "no day",
    "paper": lambda paper, _: f"the paper {_paper(paper)}",
    "singer_id": lambda singer_id, names: names.singer(singer_id),
    "key": lambda key, _: _key(key),
    "counts_in": lambda name, _: _counts(name),
    "segue": lambda segue, _: "straight on" if segue else "a stop after it",
}


def _head(mine: SetOrder, theirs: SetOrder) -> Iterator[str]:
    if mine.name != theirs.name:
        yield f"the name “{mine.name}”"
    if (mine.date or "") != (theirs.date or ""):
        yield f"the day “{mine.date or ''}”"
    if mine.paper != theirs.paper:
        yield f"the paper {_paper(mine.paper)}"
    if (set(mine.singer_ids), set(mine.player_ids)) != (set(theirs.singer_ids), set(theirs.player_ids)):
        yield "who is there"


def _order(mine: SetOrder, theirs: SetOrder, change: Change) -> Iterator[str]:
    if change.act == "out":
        yield "the song that you took out"
    elif [song.song_id for song in mine.songs] != [song.song_id for song in theirs.songs]:
        yield "your order of the songs"


def _row(song: KeptSetSong, names: _Names) -> str:
    said = [
        names.singer(song.singer_id),
        _key(song.key),
        _counts(song.counts_in) if song.counts_in else "",
        "straight on" if song.segue else "",
    ]
    return ", ".join(filter(None, said))
