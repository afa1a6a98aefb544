"""A text on its way into the book, and the page that it is written on."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from starlette.requests import Request
from starlette.responses import Response

from fifthwise.book import SongRow
from fifthwise.chart import LARGEST_TEXT, ChartFaults
from fifthwise.errors import FifthwiseError
from fifthwise.web.answers import go, show, status_of
from fifthwise.web.edit_text import text_in
from fifthwise.web.live_page import LivePage, live_page

__all__ = ["Editing", "editing_of", "saved", "show_editing", "version_in"]

DRAFT = re.compile(r"[0-9a-z]{1,24}\Z")
VERSION = re.compile(r"[0-9]{1,9}\Z", re.ASCII)
DRAFT_KEPT_S = 30 * 24 * 3600


@dataclass(frozen=True, slots=True)
class Editing:
    """A text on its way into the book.

    Attributes
    ----------
    song_id : int or None
        ``None`` for a new song.
    version : int
        That it was made from; 0 for a new song.
    text : str
        As it stands in the form.
    draft : str
        The name under which the browser keeps the text until it is saved; empty until it has one.
    key : str
        The key that the page is shown in; empty is the written one.
    view : {'text', 'page'}
        What a telephone shows first.
    """

    song_id: int | None
    version: int
    text: str
    draft: str = ""
    key: str = ""
    view: str = "text"

    @property
    def address(self) -> str:
        """Where it is saved."""
        return "/songs/new" if self.song_id is None else f"/songs/{self.song_id}/edit"

    @property
    def page_address(self) -> str:
        """Where its page is drawn."""
        return "/songs/new/page" if self.song_id is None else f"/songs/{self.song_id}/page"


def editing_of(request: Request, form: Mapping[str, str]) -> Editing:
    """What a form brings, for the song of the address."""
    draft = form.get("draft", "")
    return Editing(
        request.path_params.get("song_id"),
        version_in(form, "version"),
        text_in(form),
        draft if DRAFT.match(draft) else "",
        form.get("key", ""),
    )


def version_in(form: Mapping[str, str], name: str) -> int:
    """A version's number; 0 where there is none."""
    text = form.get(name, "")
    return int(text) if VERSION.match(text) else 0


def saved(row: SongRow, draft: str) -> Response:
    """Go to the song; the browser is told that it need not keep the draft any more."""
    answer = go(f"/songs/{row.id}")
    if draft:
        answer.set_cookie(f"saved-{draft}", "1", max_age=DRAFT_KEPT_S, samesite="strict")
    return answer


def show_editing(request: Request, editing: Editing, fault: FifthwiseError | None = None) -> Response:
    """The text with its page beside it.

    Parameters
    ----------
    fault : FifthwiseError, optional
        What kept it from being saved.
    """
    known = fault.faults if isinstance(fault, ChartFaults) else ()
    live = live_page(editing.text, editing.key, known)
    context = {
        "editing": editing,
        "live": live,
        "fault": None if known else fault,
        "refused": bool(known),
        "largest": LARGEST_TEXT,
        "said": _said(live),
    }
    return show(request, "edit.html", context, status=status_of(fault) if fault else 200)


def _said(live: LivePage) -> str:
    """The faults in a few words."""
    if not live.marks:
        return "Too long to be drawn while you write." if live.too_long else "No faults."
    count = f"{len(live.marks)} faults, the first in" if len(live.marks) > 1 else "1 fault,"
    return f"{count} line {live.marks[0].line}."
