"""The page *Set*: the running order, each song in tonight's key, changed row by row."""

from collections.abc import Callable
from typing import Any

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import (
    BookFault,
    Conflict,
    NameFault,
    NotThere,
    SetFault,
    SetOrder,
    find_songs,
    kept_set,
    remove_set,
    save_set,
)
from fifthwise.errors import FifthwiseError
from fifthwise.web.answers import AWAY, CONFLICT, FAULT, book_of, form_of, go, is_fragment, show
from fifthwise.web.set_form import Change, number, read_change, read_head, read_here, read_order
from fifthwise.web.set_lost import lost_words
from fifthwise.web.set_view import set_view

__all__ = ["routes"]

MOST_FOUND = 12
LONGEST_WORDS = 100
# What is told after a change, by the word in the address.
TOLD = {
    "put": "It is in, at the end.",
    "played": "Noted: who sang what, in which key.",
    "kept": "Kept.",
}

Read = Callable[[dict[str, str], SetOrder], SetOrder]


def _show(request: Request) -> Response:
    """The running order, with the row and the songs that are asked for."""
    asked = request.query_params
    told = TOLD.get(asked.get("told", ""), "")
    return _page(request, row=number(asked.get("row", "")), told=told)


def _find(request: Request) -> Response:
    """The songs that could be put in, where a script asks; else the whole page with them."""
    return show(request, "set_found.html", _context(request)) if is_fragment(request) else _page(request)


async def _save_order(request: Request) -> Response:
    """Keep the running order that the form has."""
    form = await form_of(request)
    return await run_in_threadpool(_saved, request, form, read_order)


async def _save_here(request: Request) -> Response:
    """Keep who is there."""
    form = await form_of(request)
    return await run_in_threadpool(_saved, request, form, read_here)


async def _save_head(request: Request) -> Response:
    """Keep the name, the day and the paper."""
    form = await form_of(request)
    return await run_in_threadpool(_saved, request, form, read_head)


def _saved(request: Request, form: dict[str, str], read: Read) -> Response:
    """Save what a form says over the version that it was made from, or tell why that was not kept."""
    book, set_id = book_of(request), request.path_params["set_id"]
    newest = kept_set(book, set_id).order
    order, change = read(form, newest), read_change(form)
    try:
        save_set(book, set_id, order, number(form.get("version", "")))
    except Conflict:
        lost = lost_words(book, order, kept_set(book, set_id).order, change)
        return _page(request, status=CONFLICT, lost=lost, conflict=True)
    except (BookFault, NameFault, SetFault, NotThere) as fault:
        lost = lost_words(book, order, newest, change)
        status = AWAY if isinstance(fault, BookFault) else FAULT
        return _page(request, status=status, lost=lost, fault=fault, head=order)
    return go(_address(set_id, change, len(order.songs)))


def _address(set_id: int, change: Change, count: int) -> str:
    row = change.shown(count)
    return f"/sets/{set_id}?row={row}#row-{row}" if row else f"/sets/{set_id}"


def _page(
    request: Request,
    *,
    status: int = 200,
    row: int = 0,
    told: str = "",
    lost: tuple[str, ...] = (),
    conflict: bool = False,
    fault: FifthwiseError | None = None,
    head: SetOrder | None = None,
) -> Response:
    """The page.

    Parameters
    ----------
    lost : tuple of str
        What was not kept, in words.
    head : SetOrder, optional
        What stands in the fields of the head; else what is kept.
    """
    view = set_view(book_of(request), request.path_params["set_id"], row)
    context = {
        "view": view,
        "told": told,
        "lost": lost,
        "conflict": conflict,
        "fault": fault,
        "head": head or view.kept.order,
    }
    return show(request, "set.html", {**_context(request), **context}, status=status)


def _context(request: Request) -> dict[str, Any]:
    """The songs that the words asked for find, those first that have them in the title."""
    words = request.query_params.get("find", "").strip()
    found = find_songs(book_of(request), words=words[:LONGEST_WORDS]).songs if words else ()
    in_title_first = sorted(found, key=lambda row: words.casefold() not in row.title.casefold())
    return {
        "set_id": request.path_params["set_id"],
        "words": words,
        "found": in_title_first[:MOST_FOUND],
        "more": max(0, len(found) - MOST_FOUND),
    }


def _ask(request: Request) -> Response:
    """Ask whether the set is to go."""
    return show(
        request, "set_remove.html", {"kept": kept_set(book_of(request), request.path_params["set_id"])}
    )


async def _remove(request: Request) -> Response:
    """Take the set out of the book, if it is still the version that was seen."""
    form = await form_of(request)
    version = number(form.get("version", ""))
    await run_in_threadpool(remove_set, book_of(request), request.path_params["set_id"], version)
    return go("/sets")


routes = [
    Route("/sets/{set_id:int}", _show, name="set"),
    Route("/sets/{set_id:int}", _save_order, methods=["POST"], name="set-order"),
    Route("/sets/{set_id:int}/find", _find, name="set-find"),
    Route("/sets/{set_id:int}/here", _save_here, methods=["POST"], name="set-here"),
    Route("/sets/{set_id:int}/head", _save_head, methods=["POST"], name="set-head"),
    Route("/sets/{set_id:int}/remove", _ask, name="set-ask-remove"),
    Route("/sets/{set_id:int}/remove", _remove, methods=["POST"], name="set-remove"),
]
