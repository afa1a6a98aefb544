"""A song's fingerboard alone, as a script asks for it when a bar is touched."""

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import player, singer, singers, song
from fifthwise.web.answers import book_of, go, is_fragment
from fifthwise.web.board_panel import board_panel
from fifthwise.web.pages import render
from fifthwise.web.song_music import places
from fifthwise.web.song_view import called, page_view
from fifthwise.web.song_wish import address, read_wish

__all__ = ["routes"]


def _board(request: Request) -> Response:
    """The panel for a place of the chart; without a script, the page that holds it."""
    song_id, wish = request.path_params["song_id"], read_wish(request.query_params)
    if not is_fragment(request):
        return go(f"{address(song_id, wish)}#fold-board")
    book = book_of(request)
    found = song(book, song_id)
    whose = singer(book, wish.singer) if wish.singer else None
    plays = player(book, wish.player).player if wish.player else None
    call = called(found, wish, whose, singers(book))
    part = page_view(wish, call, plays).part
    board = board_panel(song_id, wish, part, call.chart, places(found.text, call.chart.key.tonic))
    # A place that is touched is no new page: going back leads out of the song.
    headers = {"HX-Replace-Url": address(song_id, wish)}
    return render(request, "song_board.html", {"board": board}, fragment=False, headers=headers)


routes = [Route("/songs/{song_id:int}/board", _board, name="song-board")]
