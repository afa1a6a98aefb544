"""The page *Edit*: a song's text, its page beside it, its faults at their places."""

from dataclasses import replace

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import SongConflict, SongRow, add_song, save_song, song
from fifthwise.errors import FifthwiseError
from fifthwise.web.answers import book_of, form_of, is_fragment, show
from fifthwise.web.edit_text import mended, new_text
from fifthwise.web.editing import Editing, editing_of, saved, show_editing
from fifthwise.web.merge import show_conflict

__all__ = ["routes"]


def new_song(request: Request) -> Response:
    """Ask for the title; with it, the text to begin with."""
    title, key = (request.query_params.get(name, "") for name in ("title", "key"))
    if not title.strip():
        return show(request, "new_song.html", {})
    return show_editing(request, Editing(None, 0, new_text(title, key)))


def edit_song(request: Request) -> Response:
    """The newest text of a song."""
    found = song(book_of(request), request.path_params["song_id"])
    key = request.query_params.get("key", "")
    return show_editing(request, Editing(found.row.id, found.row.version, found.text, key=key))


async def save(request: Request) -> Response:
    """Save and go to the song; whatever is in the way, the text stays in the form."""
    return await run_in_threadpool(_save, request, editing_of(request, await form_of(request)))


def _save(request: Request, editing: Editing) -> Response:
    try:
        return saved(_kept(request, editing), editing.draft)
    except SongConflict as conflict:
        return show_conflict(request, conflict, editing)
    except FifthwiseError as fault:
        return show_editing(request, editing, fault)


def _kept(request: Request, editing: Editing) -> SongRow:
    if editing.song_id is None:
        return add_song(book_of(request), editing.text)
    return save_song(book_of(request), editing.song_id, editing.text, editing.version)


async def look(request: Request) -> Response:
    """The page of a text that is not saved; without a script a mend comes this way too."""
    form = await form_of(request)
    editing = editing_of(request, form)
    # With a script, a form still names the button that was pressed last; its mend is in the text already.
    if not is_fragment(request):
        mend = form.get("mend", "")
        editing = replace(editing, text=mended(editing.text, mend), view="text" if mend else "page")
    return await run_in_threadpool(show_editing, request, editing)


routes = [
    Route("/songs/new", new_song, name="new_song"),
    Route("/songs/new", save, methods=["POST"], name="add_song"),
    Route("/songs/new/page", look, methods=["POST"], name="new_page"),
    Route("/songs/{song_id:int}/edit", edit_song, name="edit_song"),
    Route("/songs/{song_id:int}/edit", save, methods=["POST"], name="save_song"),
    Route("/songs/{song_id:int}/page", look, methods=["POST"], name="live_page"),
]
