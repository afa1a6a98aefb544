"""The page of a conflict: two texts of one song side by side, brought together by choice."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import (
    TAKES,
    Agreed,
    Difference,
    SongConflict,
    Take,
    differences,
    save_song,
    song,
    taken,
    versions,
)
from fifthwise.errors import FifthwiseError
from fifthwise.web.answers import CONFLICT, book_of, form_of, show
from fifthwise.web.editing import Editing, editing_of, saved, show_editing, version_in

__all__ = ["routes", "show_conflict"]

SHOWN = 3  # agreed lines around a difference


@dataclass(frozen=True, slots=True)
class PieceView:
    """A piece of the two texts.

    Attributes
    ----------
    number : int
        Of the difference, from 1; 0 where they agree.
    difference : Difference or None
        ``None`` where they agree.
    take : {'mine', 'theirs', 'both'}
        What is chosen at first.
    before, after : str
        The agreed lines next to the differences.
    hidden : int
        Agreed lines between ``before`` and ``after`` that are not shown.
    """

    number: int
    difference: Difference | None = None
    take: Take = "mine"
    before: str = ""
    after: str = ""
    hidden: int = 0


def show_conflict(request: Request, conflict: SongConflict, editing: Editing) -> Response:
    """Both texts, with a choice for each place where they differ."""
    kept = {each.version: each.text for each in versions(book_of(request), editing.song_id or 0)}
    pieces = _pieces(kept, editing, conflict.version)
    views = tuple(_views(pieces))
    context = {
        "editing": editing,
        "theirs": conflict.version,
        "pieces": views,
        "count": sum(view.difference is not None for view in views),
        "twice": sum(piece.changed == "both" for piece in pieces if isinstance(piece, Difference)),
        "takes": TAKES,
    }
    return show(request, "conflict.html", context, status=CONFLICT)


def _pieces(kept: Mapping[int, str], editing: Editing, theirs: int) -> tuple[Agreed | Difference, ...]:
    newest = _plain(kept[theirs])
    # Of a version that never was, nothing is known: then all that differs is the player's own change.
    return differences(_plain(kept.get(editing.version, newest)), editing.text, newest)


def _plain(text: str) -> str:
    """A text with the line ends that a form's text has."""
    return text.replace("\r\n", "\n").replace("\r", "\n")


def _views(pieces: tuple[Agreed | Difference, ...]) -> list[PieceView]:
    views: list[PieceView] = []
    number = 0
    for place, piece in enumerate(pieces):
        if isinstance(piece, Difference):
            number += 1
            take: Take = "theirs" if piece.changed == "theirs" else "mine"
            views.append(PieceView(number, piece, take))
        else:
            views.append(_agreed(piece.text, first=place == 0, last=place + 1 == len(pieces)))
    return views


def _agreed(text: str, *, first: bool, last: bool) -> PieceView:
    lines = text.splitlines(keepends=True)
    start, end = (0 if first else SHOWN), (len(lines) if last else len(lines) - SHOWN)
    if end - start <= 1:
        return PieceView(0, before=text)
    return PieceView(0, before="".join(lines[:start]), after="".join(lines[end:]), hidden=end - start)


async def merge(request: Request) -> Response:
    """Save what is chosen, or go on writing with it."""
    return await run_in_threadpool(_merge, request, await form_of(request))


def _merge(request: Request, form: Mapping[str, str]) -> Response:
    mine = editing_of(request, form)
    assert mine.song_id is not None
    theirs = version_in(form, "theirs")
    kept = {each.version: each.text for each in versions(book_of(request), mine.song_id)}
    if theirs not in kept:  # a form that was tampered with: compare with the newest again
        newest = song(book_of(request), mine.song_id)
        return show_conflict(request, _again(mine, newest.row.title, newest.text, newest.row.version), mine)
    pieces = _pieces(kept, mine, theirs)
    chosen = replace(mine, text=taken(pieces, _takes(pieces, form)), version=theirs)
    if form.get("do") == "edit":
        return show_editing(request, chosen)
    try:
        return saved(save_song(book_of(request), mine.song_id, chosen.text, theirs), mine.draft)
    except SongConflict as conflict:
        return show_conflict(request, conflict, chosen)
    except FifthwiseError as fault:
        return show_editing(request, chosen, fault)


def _again(mine: Editing, title: str, text: str, version: int) -> SongConflict:
    return SongConflict(title, mine.text, text, version)


def _takes(pieces: tuple[Agreed | Difference, ...], form: Mapping[str, str]) -> list[Take]:
    asked = [form.get(f"piece-{view.number}", view.take) for view in _views(pieces) if view.difference]
    return [next((take for take in TAKES if take == word), "mine") for word in asked]


routes = [Route("/songs/{song_id:int}/merge", merge, methods=["POST"], name="merge_song")]
