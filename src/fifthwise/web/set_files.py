"""A set to take along: one page for a screen that needs nothing, and the evening's text."""

from collections import Counter
from dataclasses import replace

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import evening_of, player
from fifthwise.chart import Chart
from fifthwise.evening import Evening, Player, file_name, write_evening
from fifthwise.page import PageView, SetPage, lay_out, set_html_page
from fifthwise.stage import Call, player_view
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


def _text(request: Request) -> Response:
    """The evening's text, its charts named by files as their songs are called."""
    evening, charts = evening_of(book_of(request), request.path_params["set_id"])
    text = write_evening(with_file_names(evening, charts))
    headers = {"content-disposition": attachment(f"{file_name(evening.name)}.set.yaml")}
    return Response(text, media_type="text/yaml", headers=headers)


def with_file_names(evening: Evening, charts: dict[str, Chart]) -> Evening:
    """The evening with each chart named by a file of its title, those of one title numbered apart."""
    taken: Counter[str] = Counter()
    names = {}
    for known, chart in charts.items():
        stem = file_name(chart.title)
        taken[stem] += 1
        names[known] = f"{stem}.chart.md" if taken[stem] == 1 else f"{stem}-{taken[stem]}.chart.md"
    return replace(evening, songs=tuple(replace(song, chart=names[song.chart]) for song in evening.songs))


routes = [
    Route("/sets/{set_id:int}/set.html", _screen, name="set-screen"),
    Route("/sets/{set_id:int}/{name}.set.yaml", _text, name="set-text"),
]
