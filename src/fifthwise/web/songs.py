"""The page *Songs*: everything in the book, found as you type."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import songs
from fifthwise.web.answers import book_of, show

__all__ = ["routes"]


def list_songs(request: Request) -> Response:
    """The songs by title."""
    return show(request, "songs.html", {"songs": songs(book_of(request))})


routes = [Route("/songs", list_songs, name="songs")]
