"""A kept set as tonight, song by song: what one song needs is worked out once, so a change costs one song."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from fifthwise.chart import Chart
from fifthwise.evening import Evening, EveningFaults, SetSong
from fifthwise.page import printed_prose
from fifthwise.stage import Call, OrderNotice, Tonight, notices, order_notices, plan
from fifthwise.voice import Singer

__all__ = ["WHOLE", "SetTonight", "set_tonight", "without_faults"]

WHOLE = 0
NOBODY = Evening("", None, (), (), ())
QUOTED = re.compile(r"(?<!\w)'(.+?)'(?!\w)")


@dataclass(frozen=True, slots=True)
class SetTonight:
    """An evening with every song in its key.

    Attributes
    ----------
    tonight : Tonight
        Each song knows how its own singer's keys rank, not the others'.
    faults : dict of int to OrderNotice
        By place: a called key that is no key of its song, which then has the one that suits.
    looked : dict of int to tuple of OrderNotice
        What to look at, by place; ``WHOLE`` (0) for what is about all of it.
    """

    tonight: Tonight
    faults: dict[int, OrderNotice]
    looked: dict[int, tuple[OrderNotice, ...]]


def set_tonight(evening: Evening, charts: dict[str, Chart]) -> SetTonight:
    """Put every song into its key; a key that does not fit its song stops no other."""
    calls, faults = [], {}
    for place, song in enumerate(evening.songs, 1):
        singer = evening.singer(song.singer) if song.singer else None
        call, fault = _called(charts[song.chart], song.key, singer)
        calls.append(replace(call, number=place, song=song))
        if fault:
            faults[place] = _printed(replace(fault, number=place))
    tonight = Tonight(evening, tuple(calls))
    return SetTonight(tonight, faults, _looked(tonight))


def without_faults(evening: Evening, charts: dict[str, Chart]) -> Evening:
    """The evening without the called keys that are no keys of their songs."""
    bad = set_tonight(evening, charts).faults
    songs = (replace(song, key=None) if at in bad else song for at, song in enumerate(evening.songs, 1))
    return replace(evening, songs=tuple(songs))


@lru_cache(maxsize=128)  # some 140 kB a song
def _called(chart: Chart, key: str | None, singer: Singer | None) -> tuple[Call, OrderNotice | None]:
    alone = replace(NOBODY, singers=(singer,) if singer else ())
    song = SetSong("", singer.name if singer else None, key)
    try:
        return plan(replace(alone, songs=(song,)), {"": chart}).calls[0], None
    except EveningFaults as faults:
        uncalled = replace(alone, songs=(replace(song, key=None),))
        first = faults.faults[0]
        return plan(uncalled, {"": chart}).calls[0], OrderNotice(WHOLE, first.what, first.fix)


def _looked(tonight: Tonight) -> dict[int, tuple[OrderNotice, ...]]:
    found: dict[int, list[OrderNotice]] = {}
    for notice in (*order_notices(tonight), *_own_notices(tonight)):
        found.setdefault(notice.number, []).append(_printed(notice))
    return {place: tuple(told) for place, told in found.items()}


def _own_notices(tonight: Tonight) -> Iterator[OrderNotice]:
    """What is told of single songs, each at its place, and of the last one."""
    told = set()
    for call in tonight.calls:
        alone = replace(call, song=replace(call.song, segue=False))
        for words in notices(replace(tonight, calls=(alone,))):
            told.add(words)
            yield OrderNotice(call.number, _without_title(words, call.chart.title), "")
    for words in notices(tonight):
        if words not in told:
            yield OrderNotice(WHOLE, words, "")


def _without_title(words: str, title: str) -> str:
    """What is told of a song, under its own title."""
    rest = words.removeprefix(f"'{title}'").lstrip(": ")
    return rest[:1].upper() + rest[1:]


def _printed(notice: OrderNotice) -> OrderNotice:
    """As a page shows it: titles in true quotation marks, keys with true accidentals."""
    words, mend = (
        printed_prose(QUOTED.sub(lambda match: f"\u201c{match[1]}\u201d", text))
        for text in (notice.words, notice.mend)
    )
    return replace(notice, words=words, mend=mend)
