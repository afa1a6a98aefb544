"""Songs put into a set, and noted as played."""

from datetime import date
from urllib.parse import urlencode

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import Book, Conflict, KeptSetSong, evening_of, kept_set, record_sung, save_set
from fifthwise.evening import ISO_DATE
from fifthwise.web.answers import book_of, form_of, go
from fifthwise.web.set_changes import put_in
from fifthwise.web.set_form import SetFormFault, number, one_of_book
from fifthwise.web.set_music import set_tonight

__all__ = ["routes"]

TRIES = 5


async def _put_in(request: Request) -> Response:
    """Put a song at the end of a set: the one of the address, or the one that the page *Song* chose."""
    form = await form_of(request)
    song = KeptSetSong(
        number(form.get("song_id", "")),
        one_of_book(form.get("singer_id", "")),
        form.get("key", "").strip() or None,
    )
    set_id = request.path_params.get("set_id") or number(form.get("set_id", ""))
    count = await run_in_threadpool(_add, book_of(request), set_id, song)
    asked = {"row": count, "told": "put"} | ({"find": form["find"]} if form.get("find") else {})
    return go(f"/sets/{set_id}?{urlencode(asked)}#row-{count}")


def _add(book: Book, set_id: int, song: KeptSetSong) -> int:
    """How many songs there are then. Who puts a song in does not care for what others change meanwhile."""
    for left in reversed(range(TRIES)):
        kept = kept_set(book, set_id)
        try:
            return len(save_set(book, set_id, put_in(kept.order, song), kept.version).order.songs)
        except Conflict:
            if not left:
                raise
    raise AssertionError


async def _played(request: Request) -> Response:
    """Note what each singer sang, in which key, on the set's day."""
    set_id = request.path_params["set_id"]
    await run_in_threadpool(_note, book_of(request), set_id)
    return go(f"/sets/{set_id}?told=played")


def _note(book: Book, set_id: int) -> None:
    order = kept_set(book, set_id).order
    tonight = set_tonight(*evening_of(book, set_id)).tonight
    sung = [pair for pair in zip(order.songs, tonight.calls, strict=True) if pair[0].singer_id]
    if not sung:
        raise SetFormFault("nobody sings in this set", f"'{order.name}'", "Choose who sings a song first")
    on = _day(order.date)
    if on > date.today():
        fix = "Note it once it has been played"
        raise SetFormFault("this evening is still to come", f"'{order.name}'", fix)
    for song, call in sung:
        assert song.singer_id is not None
        record_sung(book, song.singer_id, song.song_id, call.chart.key, on)


def _day(written: str | None) -> date:
    """The set's day; today where it says none, or one that is not a date."""
    return date.fromisoformat(written) if written and ISO_DATE.fullmatch(written) else date.today()


routes = [
    Route("/sets/songs", _put_in, methods=["POST"], name="sets-put-in"),
    Route("/sets/{set_id:int}/songs", _put_in, methods=["POST"], name="set-put-in"),
    Route("/sets/{set_id:int}/played", _played, methods=["POST"], name="set-played"),
]
