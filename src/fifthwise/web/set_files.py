"""A set to take along: one page for a screen that needs nothing, and the evening's text."""

from dataclasses import replace

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import evening_of, player
from fifthwise.chart import Chart
from fifthwise.evening import Evening, Player, file_name, file_names, write_evening
from fifthwise.page import PageView, SetPage, lay_out, set_html_page
from fifthwise.stage import OUT_WAYS, Call, OutKind, export_songs, player_view
from fifthwise.web.answers import book_of
from fifthwise.web.guard import SELF_CONTAINED_POLICY, attachment
from fifthwise.web.set_form import number
from fifthwise.web.set_music import set_tonight

__all__ = ["routes", "with_file_names"]

NARROW = 2  # bars a row on a telephone


def _screen(request: Request) -> Response:
    """The evening as one file for a screen, for everyone or for one player."""
    book = book_of(request)
    tonight = set_tonight(*evening_of(book, request.path_params["set_id"])).tonight
    asked = request.query_params.get("player", "")
    reader = player(book, number(asked)).player if asked else None
    evening = tonight.evening
    html = set_html_page(
        [_page(call, reader, evening) for call in tonight.calls],
        name=evening.name,
        date=evening.date or "",
        reader=f"{reader.name}, {reader.part.label}" if reader else "",
    )
    name = file_name(evening.name, *([reader.name] if reader else []))
    headers = {
        "content-disposition": attachment(f"{name}.html"),
        "content-security-policy": SELF_CONTAINED_POLICY,
    }
    return Response(html, media_type="text/html", headers=headers)


def _page(call: Call, reader: Player | None, evening: Evening) -> SetPage:
    view = player_view(reader, call, evening.paper) if reader else PageView("both")
    return SetPage(lay_out(call.chart, view), lay_out(call.chart, view, columns=NARROW), call.song.segue)


def _songs(request: Request) -> Response:
    """All songs in the keys of the night for other programs, in one packed file."""
    evening, charts = evening_of(book_of(request), request.path_params["set_id"])
    tonight = set_tonight(evening, charts).tonight
    asked = request.query_params.getlist("kind")
    kinds: list[OutKind] = [way.kind for way in OUT_WAYS.values() if way.kind in asked] or ["musicxml"]
    as_numbers = request.query_params.get("chords") == "numbers"
    packed = export_songs([call.chart for call in tonight.calls], kinds, as_numbers=as_numbers)
    headers = {"content-disposition": attachment(f"{file_name(evening.name)}.zip")}
    return Response(packed, media_type="application/zip", headers=headers)


def _text(request: Request) -> Response:
    """The evening's text, its charts named by files as their songs are called."""
    evening, charts = evening_of(book_of(request), request.path_params["set_id"])
    text = write_evening(with_file_names(evening, charts))
    headers = {"content-disposition": attachment(f"{file_name(evening.name)}.set.yaml")}
    return Response(text, media_type="text/yaml", headers=headers)


def with_file_names(evening: Evening, charts: dict[str, Chart]) -> Evening:
    """The evening with each chart named by a file of its title, those of one title numbered apart."""
    names = dict(zip(charts, file_names(chart.title for chart in charts.values()), strict=True))
    songs = (replace(song, chart=f"{names[song.chart]}.chart.md") for song in evening.songs)
    return replace(evening, songs=tuple(songs))


routes = [
    Route("/sets/{set_id:int}/set.html", _screen, name="set-screen"),
    Route("/sets/{set_id:int}/songs.zip", _songs, name="set-songs"),
    Route("/sets/{set_id:int}/{name}.set.yaml", _text, name="set-text"),
]
