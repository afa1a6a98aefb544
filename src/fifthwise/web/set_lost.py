"""What was not kept of a change, because somebody else changed the set meanwhile."""

from collections.abc import Iterator, Mapping

from fifthwise.book import Book, KeptSetSong, SetOrder, singers, songs
from fifthwise.web.set_changes import unlike
from fifthwise.web.set_form import Change

__all__ = ["lost_words"]


def lost_words(book: Book, mine: SetOrder, theirs: SetOrder, change: Change) -> tuple[str, ...]:
    """What one wanted and the set does not have, in words, each without a full stop.

    Parameters
    ----------
    mine, theirs : SetOrder
        What was to be saved, and what the book has.
    change : Change
        What was pressed.
    """
    titles = {row.id: row.title for row in songs(book)}
    names = {kept.id: kept.singer.name for kept in singers(book)}
    told = [*_head(mine, theirs), *_order(mine, theirs, change)]
    return (*told, *(_song(song, titles, names) for song in unlike(mine, theirs)))


def _head(mine: SetOrder, theirs: SetOrder) -> Iterator[str]:
    if mine.name != theirs.name:
        yield f"the name '{mine.name}'"
    if (mine.date or "") != (theirs.date or ""):
        yield f"the day '{mine.date or ''}'"
    if mine.paper != theirs.paper:
        yield f"the paper {mine.paper.upper() if mine.paper == 'a4' else mine.paper.title()}"
    if (set(mine.singer_ids), set(mine.player_ids)) != (set(theirs.singer_ids), set(theirs.player_ids)):
        yield "who is there"


def _order(mine: SetOrder, theirs: SetOrder, change: Change) -> Iterator[str]:
    if change.act == "out":
        yield "the song that you took out"
    elif [song.song_id for song in mine.songs] != [song.song_id for song in theirs.songs]:
        yield "your order of the songs"


def _song(song: KeptSetSong, titles: Mapping[int, str], names: Mapping[int, str]) -> str:
    said = [
        f"sung by {names.get(song.singer_id, 'somebody')}" if song.singer_id else "no singer",
        f"in {song.key}" if song.key else "in the key that suits",
        f"{song.counts_in} counts in" if song.counts_in else "",
        "straight on" if song.segue else "",
    ]
    return f"'{titles.get(song.song_id, 'a song')}': {', '.join(filter(None, said))}"
