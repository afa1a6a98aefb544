"""A song's staff alone, as a script asks for it when the panel is opened."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.web.answers import book_of, go, is_fragment
from fifthwise.web.pages import render
from fifthwise.web.song_view import song_view
from fifthwise.web.song_wish import address, read_wish

__all__ = ["routes"]


def _staff(request: Request) -> Response:
    """The panel, engraved; without a script, the page that holds it."""
    song_id, wish = request.path_params["song_id"], read_wish(request.query_params)
    if not is_fragment(request):
        return go(f"{address(song_id, wish, staff=True)}#fold-staff")
    view = song_view(book_of(request), song_id, wish)
    headers = {"HX-Replace-Url": address(song_id, wish, staff=True)}
    return render(request, "song_staff.html", {"staff": view.staff}, fragment=False, headers=headers)


routes = [Route("/songs/{song_id:int}/staff", _staff, name="song-staff")]
