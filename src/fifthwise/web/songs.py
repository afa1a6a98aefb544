"""The page *Songs*: everything in the book, found as you type."""

from datetime import date

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.web.answers import book_of, is_fragment, show
from fifthwise.web.songs_view import choices, songs_view
from fifthwise.web.songs_wish import read_songs_wish, songs_address

__all__ = ["routes"]

FAULT = 422


def list_songs(request: Request) -> Response:
    """A page of the songs that are asked for.

    A script that asks while somebody types is given the list alone; where what is typed cannot be looked
    for, it keeps the list that it has.
    """
    wish = read_songs_wish(request.query_params)
    view = songs_view(book_of(request), wish, date.today())
    if not is_fragment(request):
        context = {"view": view, "choices": choices(book_of(request), wish), "live": False}
        return show(request, "songs.html", context, status=FAULT if view.fault else 200)
    headers = {} if wish.first else {"hx-replace-url": songs_address(wish)}
    if view.fault:
        headers["hx-reswap"] = "none"
    return show(request, "songs.html", {"view": view, "live": True}, headers=headers)


routes = [Route("/songs", list_songs, name="songs")]
