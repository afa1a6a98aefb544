"""The page *Song*: the chart, large, in any key by one touch."""

from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import SongRow, song
from fifthwise.chart import Chart, parse, rekey
from fifthwise.evening import SHOWS
from fifthwise.page import PageView, Sheet, Show, chart_html, lay_out
from fifthwise.stage import key_as_called
from fifthwise.web.answers import book_of, show
from fifthwise.web.key_row import KeyPlace, key_row

__all__ = ["routes"]

NARROW = 2  # bars a row on a telephone


@dataclass(frozen=True, slots=True)
class SongView:
    """A song as it is asked for.

    Attributes
    ----------
    row : SongRow
        The song in the book.
    chart : Chart
        In the key asked for.
    sheet : Sheet
        As laid out for a wide screen.
    drawn : Markup
        The chart itself.
    keys : tuple of KeyPlace
        The key row.
    """

    row: SongRow
    chart: Chart
    show: Show
    sheet: Sheet
    drawn: Markup
    keys: tuple[KeyPlace, ...]


def show_song(request: Request) -> Response:
    """One song in the key asked for."""
    found = song(book_of(request), request.path_params["song_id"])
    asked = request.query_params
    view = song_view(found.row, found.text, asked.get("key", ""), shown(asked.get("show", "")))
    return show(request, "song.html", {"view": view})


def shown(word: str) -> Show:
    """What stands in the bars: numbers with letters under them unless something else is asked for."""
    return next((each for each in SHOWS if each == word), "both")


def song_view(row: SongRow, text: str, key: str, what: Show) -> SongView:
    """A song put into a key and laid out.

    Raises
    ------
    KeyFault
        It is no key of this song.
    """
    written = parsed(text)
    chart = rekey(written, key_as_called(key, written).tonic) if key else written
    view = PageView(what)
    sheet = lay_out(chart, view)
    drawn = chart_html(sheet, lay_out(chart, view, columns=NARROW))
    return SongView(row, chart, what, sheet, drawn, key_row(chart.key, written.key))


@lru_cache(maxsize=256)
def parsed(text: str) -> Chart:
    """A kept text's chart; the same text is read once."""
    return parse(text)


routes = [Route("/songs/{song_id:int}", show_song, name="song")]
