"""The page *Sets*: every evening in the book, the newest first, and a new one."""

from dataclasses import dataclass

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import Book, SetOrder, SetRow, add_set, evening_of, players, sets, singers
from fifthwise.errors import FifthwiseError
from fifthwise.page import printed_date
from fifthwise.web.answers import book_of, form_of, go, show, status_of
from fifthwise.web.set_form import read_head
from fifthwise.web.set_lengths import seconds_of

__all__ = ["routes"]


@dataclass(frozen=True, slots=True)
class Evening:
    """One set of the list.

    Attributes
    ----------
    day : str
        Written out, where it is a date.
    minutes : int
        Of music.
    """

    row: SetRow
    day: str
    minutes: int


def _list(request: Request) -> Response:
    """The evenings."""
    return _shown(request, {})


async def _add(request: Request) -> Response:
    """Begin a new evening; all singers and players of the book are there until somebody says otherwise."""
    form = await form_of(request)
    return await run_in_threadpool(_added, request, form)


def _added(request: Request, form: dict[str, str]) -> Response:
    book = book_of(request)
    here = SetOrder(
        "",
        singer_ids=tuple(kept.id for kept in singers(book)),
        player_ids=tuple(kept.id for kept in players(book)),
    )
    try:
        kept = add_set(book, read_head(form, here))
    except FifthwiseError as fault:
        return _shown(request, form, fault)
    return go(f"/sets/{kept.id}")


def _shown(request: Request, typed: dict[str, str], fault: FifthwiseError | None = None) -> Response:
    book = book_of(request)
    evenings = [Evening(row, printed_date(row.date or ""), _minutes(book, row)) for row in sets(book)]
    context = {"evenings": evenings, "typed": typed, "fault": fault}
    return show(request, "sets.html", context, status=status_of(fault) if fault else 200)


def _minutes(book: Book, row: SetRow) -> int:
    evening, charts = evening_of(book, row.id)
    return round(sum(seconds_of(charts[song.chart]) for song in evening.songs) / 60)


routes = [Route("/sets", _list, name="sets"), Route("/sets", _add, methods=["POST"], name="sets-add")]
