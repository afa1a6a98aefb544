"""Everyone's book for tonight: players' pages, singers' lyric sheets and pictures, the key sheet."""

from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, replace

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
    song_record,
    title_record,
)
from fifthwise.stage.summary import summary
from fifthwise.stage.tonight import Call, Tonight
from fifthwise.voice import Singer, band_terms, sung_profile

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
    make : callable
        Makes its bytes; the same evening gives the same bytes.
    """

    path: str
    label: str
    make: Callable[[], bytes]


def books(tonight: Tonight) -> tuple[Output, ...]:
    """Every file of the evening, in the order in which a leader hands them out."""
    made = [_player_book(tonight, player) for player in tonight.evening.players]
    made += [_singer_book(tonight, singer) for singer in tonight.evening.singers]
    made.append(Output("key-sheet.pdf", "key sheet", lambda: _key_sheet(tonight)))
    for call in tonight.calls:
        made += _pictures(call)
    made = _apart(made)
    listed = [(book.path, book.label) for book in made]
    return (*made, Output("summary.md", "summary", lambda: summary(tonight, listed).encode()))


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
    part = PagePart(player.part.label, player.part.written, fret or 0, names, player.part.plays_bass)
    singer = call.singer.name if call.singer else ""
    return PageView(player.show, part, singer, paper, tune=player.part.tune)


def _player_book(tonight: Tonight, player: Player) -> Output:
    label = f"{player.name}, {player.part.label}"
    path = f"books/{file_name(player.name, player.part.name)}.pdf"
    return Output(path, label, lambda: _player_pages(tonight, player, label))


def _player_pages(tonight: Tonight, player: Player, label: str) -> bytes:
    evening = tonight.evening
    running, songs = [], []
    for call in tonight.calls:
        view = player_view(player, call, evening.paper)
        running.append(_running(call, f"song-{call.number}", key_read(call.chart, view)))
        songs.append(song_record(call.chart, view))
    records = [title_record(evening.name, evening.date or "", running), *songs]
    return book_pages(records, paper=evening.paper, title=f"{evening.name}: {label}")


def _running(call: Call, anchor: str, reads: str = "") -> RunningSong:
    singer = call.singer.name if call.singer else ""
    return RunningSong(
        call.number, call.chart, singer, call.song.counts_in or "", call.song.segue, call.fits, anchor, reads
    )


def _singer_book(tonight: Tonight, singer: Singer) -> Output:
    path = f"lyrics/{file_name(singer.name)}.pdf"
    return Output(path, f"{singer.name}, lyric sheets", lambda: _singer_pages(tonight, singer))


def _singer_pages(tonight: Tonight, singer: Singer) -> bytes:
    evening = tonight.evening
    own = [call for call in tonight.calls if call.singer == singer]
    anchors = {call.number: f"song-{place}" for place, call in enumerate(own, start=1)}
    running = [_running(call, anchors.get(call.number, "")) for call in tonight.calls]
    records = [title_record(evening.name, evening.date or "", running)]
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


def _pictures(call: Call) -> list[Output]:
    """A song's pictures for its singer: tonight's key, and the best keys beside one another."""
    if call.singer is None or call.tune is None or call.fit is None:
        return []
    tune, singer, fit, song = call.tune, call.singer, call.fit, call.chart.title
    best = call.fits[singer.name][:BEST_KEYS]
    stem = f"pictures/{file_name(singer.name)}/{call.number:02d}-{file_name(call.chart.title)}"
    asked = f"{fit.key.short} as called" if fit not in best[:1] else f"why {fit.key.short}"
    why, beside = f"{singer.name}: {asked}", f"{singer.name}: best keys"

    def tonights() -> bytes:
        profile = sung_profile(tune, singer, fit)
        return singer_picture(profile, singer.name, song=song, ranking=best).encode()

    def best_ones() -> bytes:
        profiles = [sung_profile(tune, singer, each) for each in best]
        return keys_picture(profiles, singer.name, song=song).encode()

    return [
        Output(f"{stem}.svg", f"{why}, {song}", tonights),
        Output(f"{stem}-keys.svg", f"{beside}, {song}", best_ones),
    ]
