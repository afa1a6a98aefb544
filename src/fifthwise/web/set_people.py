"""Who sings and who plays in a set, as its page shows them."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from fifthwise.book import KeptPlayer, KeptSinger, SetOrder
from fifthwise.evening import Player
from fifthwise.stage import Call
from fifthwise.theory import SpelledPitch

__all__ = ["Column", "Stand", "columns", "show_words", "stands"]

WIDTH = 320  # of the line of a voice
SHOWS = {
    "numbers": "numbers", "letters": "letters", "both": "numbers and letters", "roman": "Roman numerals",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Column:
    """A singer as a column of the running order.

    Attributes
    ----------
    here : bool
        Whether the singer is ticked as being there.
    songs : int
        How many the singer sings.
    seconds : float
        How long they last.
    usable, comfort : tuple of float
        Both ends of the voice on a line of ``WIDTH``, the same for all singers.
    """

    kept: KeptSinger
    here: bool
    songs: int
    seconds: float
    usable: tuple[float, float]
    comfort: tuple[float, float]

    @property
    def name(self) -> str:
        """What the band calls the singer."""
        return self.kept.singer.name


@dataclass(frozen=True, slots=True)
class Stand:
    """A player, and what the player's book shows."""

    kept: KeptPlayer
    here: bool

    @property
    def shows(self) -> str:
        """In words."""
        return show_words(self.kept.player)


def columns(everyone: Iterable[KeptSinger], order: SetOrder, calls: Sequence[Call]) -> tuple[Column, ...]:
    """The singers of a set: those who are there, then any other who sings."""
    singing = [song.singer_id for song in order.songs if song.singer_id is not None]
    by_id = {kept.id: kept for kept in everyone}
    shown = [by_id[each] for each in dict.fromkeys((*order.singer_ids, *singing)) if each in by_id]
    ends = [end.midi for kept in shown for end in (kept.singer.usable.low, kept.singer.usable.high)]
    low, high = min(ends, default=0), max(ends, default=1)

    def place(pitch: SpelledPitch) -> float:
        return round(WIDTH * (pitch.midi - low) / max(high - low, 1), 1)

    def column(kept: KeptSinger) -> Column:
        voice = kept.singer
        own = [call.timeline.seconds for call in calls if call.singer and call.singer.name == voice.name]
        usable = place(voice.usable.low), place(voice.usable.high)
        comfort = place(voice.comfort.low), place(voice.comfort.high)
        return Column(kept, kept.id in order.singer_ids, len(own), sum(own), usable, comfort)

    return tuple(map(column, shown))


def stands(everyone: Iterable[KeptPlayer], order: SetOrder) -> tuple[Stand, ...]:
    """All players of the book, those who are there first, in the set's order."""
    by_id = {kept.id: kept for kept in everyone}
    here = [by_id[each] for each in order.player_ids if each in by_id]
    others = [kept for kept in by_id.values() if kept.id not in order.player_ids]
    return (*(Stand(kept, True) for kept in here), *(Stand(kept, False) for kept in others))


def show_words(player: Player) -> str:
    """What stands in a player's book."""
    more = [", the tune"] if player.part.tune else []
    more += [", capo where it helps"] if player.capo else []
    return SHOWS[player.show] + "".join(more)
