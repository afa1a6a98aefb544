"""The page *Song*: the chart, large, in any key by one touch."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.web import song_board, song_changes, song_files, song_staff
from fifthwise.web.answers import book_of, is_fragment, show
from fifthwise.web.song_view import song_view
from fifthwise.web.song_wish import read_wish

__all__ = ["routes"]


def show_song(request: Request) -> Response:
    """One song as its address asks for it."""
    wish = read_wish(request.query_params)
    view = song_view(book_of(request), request.path_params["song_id"], wish)
    # A form without a script writes empty fields into the address; with one, it gets the short address.
    headers = {"HX-Push-Url": view.at()} if is_fragment(request) else None
    return show(request, "song.html", {"view": view}, headers=headers)


routes = [
    Route("/songs/{song_id:int}", show_song, name="song"),
    *song_board.routes,
    *song_changes.routes,
    *song_files.routes,
    *song_staff.routes,
]
