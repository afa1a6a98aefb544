"""What print has to leave out: letters that our own fonts do not have. A screen shows them."""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache

from fifthwise.chart import Chart, write_chart
from fifthwise.evening import Evening
from fifthwise.page import unprintable
from fifthwise.web.song_music import parsed

__all__ = ["Unprinted", "unprinted_evening", "unprinted_song"]

MOST_SIGNS = 8


@dataclass(frozen=True, slots=True)
class Unprinted:
    """A song, or a name of an evening, with signs that print does not have.

    Attributes
    ----------
    name : str
        The song's title, or the name.
    signs : str
        The first of them, with spaces between.
    """

    name: str
    signs: str


@lru_cache(maxsize=64)
def unprinted_song(text: str) -> tuple[Unprinted, ...]:
    """What a kept text loses in print; nothing for nearly every song."""
    chart = parsed(text)
    return tuple(_found([(chart.title, write_chart(chart))]))


def unprinted_evening(evening: Evening, charts: dict[str, Chart]) -> tuple[Unprinted, ...]:
    """What an evening's names and songs lose in print, each told once."""
    singing, playing = ([each.name for each in people] for people in (evening.singers, evening.players))
    names = [evening.name, *singing, *playing]
    played = [charts[file] for file in dict.fromkeys(song.chart for song in evening.songs)]
    texts = [*((name, name) for name in names), *((chart.title, write_chart(chart)) for chart in played)]
    return tuple(_found(texts))


def _found(texts: Iterable[tuple[str, str]]) -> Iterable[Unprinted]:
    for name, text in texts:
        missing = unprintable(text)
        if missing:
            more = " …" if len(missing) > MOST_SIGNS else ""
            yield Unprinted(name, " ".join(missing[:MOST_SIGNS]) + more)
