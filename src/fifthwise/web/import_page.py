"""The page *Import*: songs dropped as files, or pasted and seen as numbers before they are kept."""

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import add_song
from fifthwise.errors import FifthwiseError
from fifthwise.web.answers import book_of, form_of, go, is_fragment, show, status_of
from fifthwise.web.import_runs import ImportRun, ImportRuns, WaitingFile
from fifthwise.web.import_text import Paste, Pasted, pasted, read_paste, seen

__all__ = ["ImportFault", "routes"]

FAULT = 422
MOST_FILES = 5000
FEW = 50  # files that a browser waits for
SHOWN = 500  # songs, or files at fault, that one page names
SHOWN_FAULTS = 12  # of one file


class ImportFault(FifthwiseError):
    """Nothing that could be imported came."""


def ask(request: Request) -> Response:
    """Both ways in."""
    return _page(request, Pasted(Paste()))


async def take_files(request: Request) -> Response:
    """Take files in: a few before the answer, many after it, while the browser looks on."""
    files = await _files(request)
    run = _runs(request).new(len(files))
    if len(files) > FEW:
        _runs(request).start(run, book_of(request), files)
    else:
        await run_in_threadpool(run.go, book_of(request), files)
    return go(f"/songs/import/{run.id}")


async def _files(request: Request) -> list[tuple[str, bytes]]:
    try:
        async with request.form(max_files=MOST_FILES, max_fields=10) as form:
            sent = [each for each in form.getlist("files") if isinstance(each, UploadFile)]
            files = [(each.filename, await each.read()) for each in sent if each.filename]
    except HTTPException as error:
        what = f"the files could not be taken ({error.detail.rstrip('.').lower()})"
        raise ImportFault(what, "import", f"Send at most {MOST_FILES} files at once") from error
    if not files:
        raise ImportFault("no file was chosen", "import", "Choose files, or drop them on the page")
    return [(name, raw) for name, raw in files if name]


def show_run(request: Request) -> Response:
    """What became of the files so far."""
    run = _runs(request).get(request.path_params["run"])
    if run is None:
        raise HTTPException(404)
    context = {"run": run, "shown": SHOWN, "shown_faults": SHOWN_FAULTS}
    return show(request, "import_run.html", context)


async def look(request: Request) -> Response:
    """A pasted text as numbers; nothing is kept."""
    paste = read_paste(await form_of(request))
    live = is_fragment(request)
    return _page(request, await run_in_threadpool(pasted, book_of(request), paste, live=live))


async def save(request: Request) -> Response:
    """Keep a pasted text and go to the song; where it has faults, they are told and the text stays."""
    paste = read_paste(await form_of(request))
    return await run_in_threadpool(_save, request, paste)


def _save(request: Request, paste: Paste) -> Response:
    book = book_of(request)
    read = pasted(book, paste)
    if not read.songs:
        return _page(request, read, refused=True)
    try:
        rows = [add_song(book, song.text) for song in read.songs]
    except FifthwiseError as fault:
        return _page(request, read, fault=fault)
    return go(f"/songs/{rows[0].id}" if len(rows) == 1 else "/songs?order=saved")


def settle(request: Request) -> Response:
    """A file that waits: its song as it was read, or as is wished in the address, and what may be settled."""
    run, waiting = _waiting(request)
    if waiting.kept is not None:
        return go(f"/songs/{waiting.kept.id}")
    return _settle(request, run, waiting, read_paste(request.query_params))


async def settled(request: Request) -> Response:
    """Keep the song of a file that waits, as it is settled, and go on with the next."""
    paste = read_paste(await form_of(request))
    return await run_in_threadpool(_settled, request, paste)


def _settled(request: Request, paste: Paste) -> Response:
    run, waiting = _waiting(request)
    if waiting.kept is None:
        read = seen(book_of(request), paste, waiting.raw, waiting.name)
        if not read.songs:
            return _settle(request, run, waiting, paste, refused=True)
        waiting.kept = run.keep(book_of(request), waiting.name, read.songs[0])
        waiting.raw = b""
    return go(f"/songs/import/{run.id}")


def _settle(
    request: Request, run: ImportRun, waiting: WaitingFile, paste: Paste, *, refused: bool = False
) -> Response:
    read = seen(book_of(request), paste, waiting.raw, waiting.name)
    context = {
        "run": run, "waiting": waiting, "place": run.waiting.index(waiting), "read": read,
        "refused": refused, "shown": SHOWN_FAULTS,
    }  # fmt: skip
    return show(request, "settle.html", context, status=FAULT if refused else 200)


def _waiting(request: Request) -> tuple[ImportRun, WaitingFile]:
    run = _runs(request).get(request.path_params["run"])
    place: int = request.path_params["place"]
    if run is None or place >= len(run.waiting):
        raise HTTPException(404)
    return run, run.waiting[place]


def _page(
    request: Request, read: Pasted, *, refused: bool = False, fault: FifthwiseError | None = None
) -> Response:
    context = {"read": read, "refused": refused, "fault": fault, "shown": SHOWN_FAULTS, "waiting": None}
    status = status_of(fault) if fault else FAULT if refused else 200
    return show(request, "import.html", context, status=status)


def _runs(request: Request) -> ImportRuns:
    runs: ImportRuns = request.app.state.imports
    return runs


routes = [
    Route("/songs/import", ask, name="import"),
    Route("/songs/import", take_files, methods=["POST"]),
    Route("/songs/import/look", look, methods=["POST"]),
    Route("/songs/import/paste", save, methods=["POST"]),
    Route("/songs/import/{run}", show_run, name="import-run"),
    Route("/songs/import/{run}/{place:int}", settle, name="import-settle"),
    Route("/songs/import/{run}/{place:int}", settled, methods=["POST"]),
]
