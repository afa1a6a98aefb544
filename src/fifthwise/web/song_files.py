"""Files of a song as it is asked for: print, text, one page for a screen, the singer's words and picture.

Each has the page's own query, so what is taken away is what was seen. Printing is work: these are plain
functions, which run in threads.
"""

from dataclasses import dataclass, replace

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import KeptSinger, Song, player, singer, singers, song
from fifthwise.chart import Chart
from fifthwise.errors import FifthwiseError
from fifthwise.page import (
    PageView,
    html_page,
    lay_out,
    lyric_sheet,
    lyrics_record,
    pdf_pages,
    printed_key,
    singer_picture,
    song_record,
    text_page,
)
from fifthwise.page.staff import staff_html, staff_of_chart, staff_picture
from fifthwise.stage import OUT_WAYS, Call, export_song
from fifthwise.voice import sung_profile
from fifthwise.web.answers import book_of
from fifthwise.web.guard import SELF_CONTAINED_POLICY, attachment
from fifthwise.web.song_music import NARROW, has_words, ranking, sung
from fifthwise.web.song_view import called, page_view
from fifthwise.web.song_wish import read_paper, read_wish

__all__ = ["FileFault", "routes"]

CLOSED = {"content-security-policy": SELF_CONTAINED_POLICY}


class FileFault(FifthwiseError):
    """A file of a song that cannot be made."""


@dataclass(frozen=True, slots=True)
class Asked:
    """A song as a file of it was asked for."""

    found: Song
    call: Call
    view: PageView
    whose: KeptSinger | None

    @property
    def chart(self) -> Chart:
        """The song in its key."""
        return self.call.chart

    def name(self, ending: str) -> str:
        """A file's name: the title and the key."""
        return f"{self.found.row.title} in {printed_key(self.chart.key)}{ending}"


def _asked(request: Request) -> Asked:
    book, wish = book_of(request), read_wish(request.query_params)
    found = song(book, request.path_params["song_id"])
    whose = singer(book, wish.singer) if wish.singer else None
    plays = player(book, wish.player).player if wish.player else None
    call = called(found, wish, whose, singers(book))
    view = page_view(wish, call, plays, read_paper(request.query_params))
    return Asked(found, call, replace(view, staff=wish.staff), whose)


def _print(request: Request) -> Response:
    """The song's page on paper."""
    asked = _asked(request)
    pdf = pdf_pages([song_record(asked.chart, asked.view)], paper=asked.view.paper)
    return _file(pdf, "application/pdf", asked.name(".pdf"))


def _text(request: Request) -> Response:
    """The song as plain text."""
    asked = _asked(request)
    return _file(text_page(lay_out(asked.chart, asked.view)).encode(), "text/plain", asked.name(".txt"))


def _screen(request: Request) -> Response:
    """The song as one page that carries all it needs."""
    asked = _asked(request)
    narrow = lay_out(asked.chart, asked.view, columns=NARROW)
    staff = staff_of_chart(asked.chart, asked.view) if asked.view.staff else None
    html = html_page(lay_out(asked.chart, asked.view), narrow, staff=staff_html(staff) if staff else None)
    return _file(html.encode(), "text/html", asked.name(".html"), CLOSED)


def _chart_text(request: Request) -> Response:
    """The chart's text as it is kept."""
    found = song(book_of(request), request.path_params["song_id"])
    return _file(found.text.encode(), "text/markdown", f"{found.row.title}.chart.md")


def _export(request: Request) -> Response:
    """The song in its key for another program, its chords as they are shown.

    Raises
    ------
    FileFault
        There is no such kind of file.
    """
    way = OUT_WAYS.get(request.path_params["kind"])
    if way is None:
        fix = f"Kinds are {', '.join(OUT_WAYS)}"
        raise FileFault("there is no such kind of file", request.path_params["kind"][:40], fix)
    asked = _asked(request)
    as_numbers = asked.view.show in ("numbers", "roman")
    content = export_song(asked.chart, way.kind, as_numbers=as_numbers, part=asked.view.part)
    return _file(content, way.media_type, asked.name(way.ending))


def _lyrics(request: Request) -> Response:
    """The singer's sheet: words in playing order, chords over them.

    Raises
    ------
    FileFault
        The song has no words.
    """
    asked = _asked(request)
    if not has_words(asked.chart):
        raise FileFault("the song has no words", f"'{asked.chart.title}'", "Write them in 'words:' lines")
    sings, fit = asked.call.singer, asked.call.fit
    sheet = lyric_sheet(asked.chart, singer=sings.name if sings else "", one=fit.one if fit else None)
    pdf = pdf_pages([lyrics_record(sheet)], paper=asked.view.paper)
    return _file(pdf, "application/pdf", asked.name(", words.pdf"))


def _picture(request: Request) -> Response:
    """The singer's picture in the key that is shown, large.

    Raises
    ------
    FileFault
        It is nobody's page, or the song has no tune.
    """
    asked = _asked(request)
    tune, sings, fit = sung(asked.found.text), asked.call.singer, asked.call.fit
    if tune is None or sings is None or fit is None:
        where, fix = f"'{asked.chart.title}'", "Choose a singer, for a song with a tune"
        raise FileFault("there is no singer or no tune to draw", where, fix)
    best = ranking(asked.found.text, sings)
    svg = singer_picture(sung_profile(tune, sings, fit), sings.name, song=asked.chart.title, ranking=best)
    return Response(svg, media_type="image/svg+xml", headers=CLOSED)


def _staff(request: Request) -> Response:
    """The tune on a staff, as one picture.

    Raises
    ------
    FileFault
        The song has no tune.
    """
    asked = _asked(request)
    staff = staff_of_chart(asked.chart, asked.view)
    if staff is None:
        raise FileFault("the song has no tune", f"'{asked.chart.title}'", "Write it in 'tune:' lines")
    return _file(staff_picture(staff).encode(), "image/svg+xml", asked.name(", staff.svg"), CLOSED)


def _file(content: bytes, kind: str, name: str, headers: dict[str, str] | None = None) -> Response:
    return Response(
        content, media_type=kind, headers={"content-disposition": attachment(name), **(headers or {})}
    )


routes = [
    Route("/songs/{song_id:int}/song.pdf", _print, name="song-print"),
    Route("/songs/{song_id:int}/song.txt", _text, name="song-text"),
    Route("/songs/{song_id:int}/song.html", _screen, name="song-screen"),
    Route("/songs/{song_id:int}/export/{kind}", _export, name="song-export"),
    Route("/songs/{song_id:int}/words.pdf", _lyrics, name="song-words"),
    Route("/songs/{song_id:int}/staff.svg", _staff, name="song-staff-picture"),
    Route("/songs/{song_id:int}/picture.svg", _picture, name="song-picture"),
    Route("/songs/{song_id:int}/{name}.chart.md", _chart_text, name="song-chart"),
]
