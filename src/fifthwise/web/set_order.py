"""The page *Set*: the running order, each song in tonight's key, changed row by row."""

from typing import Any
from urllib.parse import urlencode

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
from fifthwise.web.set_changes import twins
from fifthwise.web.set_form import HEAD, HERE, OFFERED, ORDER, Change, Part, number, read_change
from fifthwise.web.set_lost import clash_words, lost_words
from fifthwise.web.set_merge import merge
from fifthwise.web.set_view import set_view

__all__ = ["routes"]

MOST_FOUND = 12
LONGEST_WORDS = 100
TRIES = 5  # as in putting in a song: others save meanwhile
# What is told after a change, by the word in the address.
TOLD = {
    "put": "It is in, at the end.",
    "played": "Noted: who sang what, in which key.",
    "kept": "Kept.",
    "beside": "Kept, beside what somebody else changed meanwhile.",
}


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
    return await run_in_threadpool(_saved, request, form, ORDER)


async def _save_here(request: Request) -> Response:
    """Keep who is there."""
    form = await form_of(request)
    return await run_in_threadpool(_saved, request, form, HERE)


async def _save_head(request: Request) -> Response:
    """Keep the name, the day and the paper."""
    form = await form_of(request)
    return await run_in_threadpool(_saved, request, form, HEAD)


def _saved(request: Request, form: dict[str, str], part: Part) -> Response:
    """Save what a form says beside what others saved meanwhile, or tell what of it was not kept and why."""
    book, set_id = book_of(request), request.path_params["set_id"]
    change = read_change(form)
    for left in reversed(range(TRIES)):
        kept = kept_set(book, set_id)
        current = number(form.get("version", "")) == kept.version
        base = kept.order if current else part.made_from(form.get("was", ""))
        mine = part.read(form, base)
        merged = merge(base, mine, kept.order)
        try:
            kept = save_set(book, set_id, merged.order, kept.version)
        except Conflict:
            if left:
                continue
            raise
        except (BookFault, NameFault, SetFault, NotThere) as fault:
            lost = lost_words(book, merged.order, kept.order, change)
            status = AWAY if isinstance(fault, BookFault) else FAULT
            return _page(request, status=status, lost=lost, fault=fault, head=merged.order)
        if merged.clashes:
            offer = _offer(part, base, mine, kept.order)
            return _page(request, status=CONFLICT, lost=clash_words(book, merged), offer=offer)
        return go(_address(set_id, _row(change, mine, kept.order), "" if current else "beside"))
    raise AssertionError


def _offer(part: Part, base: SetOrder, mine: SetOrder, theirs: SetOrder) -> dict[str, str]:
    """The fields of a form that puts one's own values over theirs where they clash."""
    fields = part.fields(merge(base, theirs, mine).order)
    return {**fields, "was": part.written(theirs), OFFERED: "on"}


def _row(change: Change, mine: SetOrder, kept: SetOrder) -> int:
    """The row to show: where the song that was changed stands now; 0 for none."""
    row = change.shown(len(mine.songs))
    places = {twin: place for place, twin in enumerate(twins(kept.songs), 1)}
    return places.get(twins(mine.songs)[row - 1], 0) if row else 0


def _address(set_id: int, row: int, told: str) -> str:
    asked = ({"row": row} if row else {}) | ({"told": told} if told else {})
    return f"/sets/{set_id}" + (f"?{urlencode(asked)}" if asked else "") + (f"#row-{row}" if row else "")


def _page(
    request: Request,
    *,
    status: int = 200,
    row: int = 0,
    told: str = "",
    lost: tuple[str, ...] = (),
    offer: dict[str, str] | None = None,
    fault: FifthwiseError | None = None,
    head: SetOrder | None = None,
) -> Response:
    """The page.

    Parameters
    ----------
    lost : tuple of str
        What was not kept, in words.
    offer : dict of str to str, optional
        The fields of the form that keeps it after all, where somebody else changed the same.
    head : SetOrder, optional
        What stands in the fields of the head; else what is kept.
    """
    view = set_view(book_of(request), request.path_params["set_id"], row)
    order = view.kept.order
    context = {
        "view": view,
        "told": told,
        "lost": lost,
        "offer": offer,
        "was": {"order": ORDER.written(order), "here": HERE.written(order), "head": HEAD.written(order)},
        "fault": fault,
        "head": head or order,
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
