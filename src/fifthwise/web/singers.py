"""The pages *Singers*: the voices to one scale, each voice by its notes, what it sang and which keys fit."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain, islice
from typing import Any

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import (
    Book,
    KeptSinger,
    Song,
    Sung,
    add_singer,
    find_songs,
    remove_singer,
    save_singer,
    singer,
    singers,
    song,
    sung_by,
)
from fifthwise.theory import Key
from fifthwise.voice import Singer
from fifthwise.web.answers import book_of, show
from fifthwise.web.days import day_words
from fifthwise.web.keyboard_picture import keyboard_picture
from fifthwise.web.person_forms import NOTE_FIELDS, Reading, read_notes, read_singer_form, singer_texts
from fifthwise.web.person_pages import PersonPages
from fifthwise.web.song_music import ranking
from fifthwise.web.song_wish import Wish, address
from fifthwise.web.voice_lines import voice_lines

__all__ = ["routes"]

MOST_SONGS = 20
MOST_READ = 40  # songs of which the book is asked for the text, to find those with a tune
BEST_KEYS = 3


@dataclass(frozen=True, slots=True)
class SungLine:
    """A song as it was sung: the key, the day in words, and the song's page in that key for that singer."""

    title: str
    key: Key
    day: str
    address: str


@dataclass(frozen=True, slots=True)
class FitLine:
    """A song and the keys that suit the singer, the best first, each with its page."""

    title: str
    keys: tuple[tuple[Key, str], ...]

    @property
    def mode(self) -> str:
        """The song's mode where the keys' names do not say it."""
        mode = self.keys[0][0].mode
        return "" if mode in ("major", "minor") else mode


def list_singers(request: Request) -> Response:
    """All voices."""
    book = book_of(request)
    everyone = singers(book)
    sang = {kept.id: len({each.song_id for each in sung_by(book, kept.id)}) for kept in everyone}
    return show(request, "singers.html", {"voices": voice_lines(everyone, sang)})


def keyboard(request: Request) -> Response:
    """The keyboard alone, for the notes that are in the form so far."""
    return show(
        request, "keyboard_picture.html", {"keyboard": keyboard_picture(read_notes(request.query_params))}
    )


def _more(book: Book, reading: Reading[Singer], kept: KeptSinger | None) -> dict[str, Any]:
    sang = sung_by(book, kept.id) if kept else ()
    return {
        "keyboard": keyboard_picture(read_notes(reading.texts)),
        "sung": tuple(map(_sung_line, sang)),
        "fits": tuple(islice(_fit_lines(book, kept, sang), MOST_SONGS)) if kept else (),
    }


def _sung_line(sung: Sung) -> SungLine:
    wish = Wish(key=sung.key.short, singer=sung.singer_id)
    return SungLine(sung.title, sung.key, day_words(sung.on), address(sung.song_id, wish))


def _fit_lines(book: Book, kept: KeptSinger, sang: tuple[Sung, ...]) -> Iterator[FitLine]:
    """What was sung last, then the other songs by title; those without a tune are left out."""
    others = find_songs(book, count=MOST_READ).songs
    numbers = dict.fromkeys(chain((each.song_id for each in sang), (row.id for row in others)))
    for number in islice(numbers, MOST_READ):
        found = song(book, number)
        best = ranking(found.text, kept.singer)[:BEST_KEYS]
        if best:
            yield FitLine(found.row.title, tuple((fit.key, _at(found, fit.key, kept)) for fit in best))


def _at(found: Song, key: Key, kept: KeptSinger) -> str:
    return address(found.row.id, Wish(key=key.short, singer=kept.id))


PAGES = PersonPages(
    word="singer",
    labels={"name": "Name", **NOTE_FIELDS},
    said={},
    read=read_singer_form,
    texts=singer_texts,
    person=lambda kept: kept.singer,
    one=singer,
    add=add_singer,
    save=save_singer,
    remove=remove_singer,
    more=_more,
)

routes = [
    Route("/singers", list_singers, name="singers"),
    Route("/singers/keyboard", keyboard, name="singers-keyboard"),
    *PAGES.routes,
]
