"""What the page *Song* changes in the book: who sang it in which key, and taking a song out of it."""

from datetime import date

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import Book, record_sung, remove_song, song
from fifthwise.stage import key_as_called
from fifthwise.web.answers import book_of, form_of, go, show
from fifthwise.web.song_music import parsed
from fifthwise.web.song_wish import Wish, WishFault, address, read_wish

__all__ = ["routes"]


async def _sung(request: Request) -> Response:
    """Note that a singer sang a song today, in the key that the form names."""
    form = await form_of(request)
    song_id, wish = request.path_params["song_id"], read_wish(form)
    await run_in_threadpool(_note, book_of(request), song_id, wish)
    return go(address(song_id, wish))


def _note(book: Book, song_id: int, wish: Wish) -> None:
    if wish.singer is None or not wish.key:
        raise WishFault("it is not said who sang in which key", "sung", "Choose a singer and a key first")
    key = key_as_called(wish.key, parsed(song(book, song_id).text))
    record_sung(book, wish.singer, song_id, key, date.today())


def _ask(request: Request) -> Response:
    """Ask whether a song is to go for good."""
    return show(
        request, "song_remove.html", {"row": song(book_of(request), request.path_params["song_id"]).row}
    )


async def _remove(request: Request) -> Response:
    """Take a song out of the book, if it is still the version that was seen."""
    form = await form_of(request)
    version = form.get("version", "")
    if not (version.isascii() and version.isdecimal() and len(version) < 10):
        raise WishFault("it is not said which version was seen", "remove", "Open the song and begin again")
    await run_in_threadpool(remove_song, book_of(request), request.path_params["song_id"], int(version))
    return go("/songs")


routes = [
    Route("/songs/{song_id:int}/sung", _sung, methods=["POST"], name="song-sung"),
    Route("/songs/{song_id:int}/remove", _ask, name="song-ask-remove"),
    Route("/songs/{song_id:int}/remove", _remove, methods=["POST"], name="song-remove"),
]
