"""Everyone's book for tonight: players' pages, singers' lyric sheets and pictures, the key sheet."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from functools import partial
from typing import Any

from fifthwise.evening import Player, file_name
from fifthwise.page import (
    PagePart,
    PageView,
    Paper,
    RunningSong,
    book_pages,
    key_read,
    keys_picture,
    keysheet_record,
    lyric_sheet,
    lyrics_record,
    singer_picture,
    song_text,
    title_record,
)
from fifthwise.stage.summary import summary
from fifthwise.stage.tonight import Call, Tonight
from fifthwise.voice import KeyFit, Singer, band_terms, sung_profile

__all__ = ["Output", "books", "player_view"]

BEST_KEYS = 5


@dataclass(frozen=True, slots=True)
class Output:
    """One file of the evening's output, made when it is asked for.

    Attributes
    ----------
    path : str
        Below the output folder, with ``/`` between its parts.
    label : str
        What it is, for people.
    songs : int
        How many songs are set on its pages, so how long it takes; 0 for what is made in no time.
    tonight : Tonight
        What it is made of.
    work : callable
        Makes its bytes from ``tonight``; it can be sent to another process.
    """

    path: str
    label: str
    songs: int
    tonight: Tonight = field(repr=False)
    work: Callable[[Tonight], bytes] = field(repr=False)

    def make(self) -> bytes:
        """Make its bytes; the same evening gives the same bytes."""
        return self.work(self.tonight)


def books(tonight: Tonight, *, staff: bool = False) -> tuple[Output, ...]:
    """Every file of the evening, in the order in which a leader hands them out.

    Parameters
    ----------
    staff : bool
        Whether the tune stands on a staff too, for those whose instrument plays tunes.
    """
    made = [_player_book(tonight, player, staff=staff) for player in tonight.evening.players]
    made += [_singer_book(tonight, singer) for singer in tonight.evening.singers]
    made.append(Output("key-sheet.pdf", "key sheet", 1, tonight, _key_sheet))
    for place, call in enumerate(tonight.calls):
        made += _pictures(tonight, place, call)
    made = _apart(made)
    listed = tuple((book.path, book.label) for book in made)
    return (*made, Output("summary.md", "summary", 0, tonight, partial(_summary, listed)))


def _summary(listed: tuple[tuple[str, str], ...], tonight: Tonight) -> bytes:
    return summary(tonight, listed).encode()


def _apart(made: list[Output]) -> list[Output]:
    """Number files whose names are alike, in capitals or not, so that none replaces another."""
    taken: Counter[str] = Counter()
    apart = []
    for book in made:
        taken[book.path.lower()] += 1
        count = taken[book.path.lower()]
        stem, dot, kind = book.path.rpartition(".")
        apart.append(book if count == 1 else replace(book, path=f"{stem}-{count}{dot}{kind}"))
    return apart


def player_view(player: Player, call: Call, paper: Paper) -> PageView:
    """How a player reads a song: numbers or letters, transposed, with a capo where that helps."""
    fret = band_terms(call.chart.key).capo if player.capo else None
    names = (player.name, *player.part.words)
    part = PagePart(
        player.part.label, player.part.written, fret or 0, names, player.part.plays_bass,
        player.part.fingerboard, player.level or "first", player.part.clef,
    )  # fmt: skip
    singer = call.singer.name if call.singer else ""
    return PageView(player.show, part, singer, paper, tune=player.part.tune)


def _player_book(tonight: Tonight, player: Player, *, staff: bool) -> Output:
    label = f"{player.name}, {player.part.label}"
    path = f"books/{file_name(player.name, player.part.name)}.pdf"
    return Output(path, label, len(tonight.calls), tonight, partial(_player_pages, player, label, staff))


def _player_pages(player: Player, label: str, staff: bool, tonight: Tonight) -> bytes:
    evening = tonight.evening
    running: list[RunningSong] = []
    songs: list[dict[str, Any] | str] = []
    for call in tonight.calls:
        view = replace(player_view(player, call, evening.paper), staff=staff and player.part.tune)
        running.append(_running(call, f"song-{call.number}", key_read(call.chart, view)))
        songs.append(song_text(call.chart, view))
    records = [title_record(evening.name, evening.date or "", running), *songs]
    return book_pages(records, paper=evening.paper, title=f"{evening.name}: {label}")


def _running(call: Call, anchor: str, reads: str = "") -> RunningSong:
    singer = call.singer.name if call.singer else ""
    return RunningSong(
        call.number, call.chart, singer, call.song.counts_in or "", call.song.segue, call.fits, anchor, reads
    )


def _singer_book(tonight: Tonight, singer: Singer) -> Output:
    path = f"lyrics/{file_name(singer.name)}.pdf"
    own = sum(call.singer == singer for call in tonight.calls)
    return Output(path, f"{singer.name}, lyric sheets", own, tonight, partial(_singer_pages, singer))


def _singer_pages(singer: Singer, tonight: Tonight) -> bytes:
    evening = tonight.evening
    own = [call for call in tonight.calls if call.singer == singer]
    anchors = {call.number: f"song-{place}" for place, call in enumerate(own, start=1)}
    running = [_running(call, anchors.get(call.number, "")) for call in tonight.calls]
    records: list[dict[str, Any] | str] = [title_record(evening.name, evening.date or "", running)]
    for call in own:
        sheet = lyric_sheet(call.chart, singer=singer.name, one=call.fit.one if call.fit else None)
        records.append(lyrics_record(sheet))
    return book_pages(records, paper=evening.paper, title=f"{evening.name}: {singer.name}")


def _key_sheet(tonight: Tonight) -> bytes:
    evening = tonight.evening
    running = [_running(call, "") for call in tonight.calls]
    singers = [singer.name for singer in evening.singers]
    record = keysheet_record(evening.name, evening.date or "", running, singers)
    return book_pages([record], paper=evening.paper, title=f"{evening.name}: keys")


def _pictures(tonight: Tonight, place: int, call: Call) -> list[Output]:
    """A song's pictures for its singer: tonight's key, and the best keys beside one another."""
    if call.singer is None or call.tune is None or call.fit is None:
        return []
    singer, fit, song = call.singer.name, call.fit, call.chart.title
    stem = f"pictures/{file_name(singer)}/{call.number:02d}-{file_name(song)}"
    asked = f"{fit.key.short} as called" if fit not in _best(call)[:1] else f"why {fit.key.short}"
    return [
        Output(f"{stem}.svg", f"{singer}: {asked}, {song}", 0, tonight, partial(_tonights_key, place)),
        Output(f"{stem}-keys.svg", f"{singer}: best keys, {song}", 0, tonight, partial(_best_keys, place)),
    ]


def _best(call: Call) -> tuple[KeyFit, ...]:
    assert call.singer is not None
    return call.fits[call.singer.name][:BEST_KEYS]


def _tonights_key(place: int, tonight: Tonight) -> bytes:
    call = tonight.calls[place]
    assert call.singer is not None
    assert call.tune is not None
    assert call.fit is not None
    profile = sung_profile(call.tune, call.singer, call.fit)
    return singer_picture(profile, call.singer.name, song=call.chart.title, ranking=_best(call)).encode()


def _best_keys(place: int, tonight: Tonight) -> bytes:
    call = tonight.calls[place]
    assert call.singer is not None
    assert call.tune is not None
    profiles = [sung_profile(call.tune, call.singer, each) for each in _best(call)]
    return keys_picture(profiles, call.singer.name, song=call.chart.title).encode()
