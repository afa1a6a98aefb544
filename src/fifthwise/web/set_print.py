"""Everyone's books of a set, printed while the page tells how far it is."""

import io
import zipfile
from functools import partial

from starlette.concurrency import run_in_threadpool
from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import Book, evening_of
from fifthwise.evening import file_name
from fifthwise.stage import Output, books, plan
from fifthwise.web.answers import book_of, form_of, go, show
from fifthwise.web.guard import attachment
from fifthwise.web.print_runs import PrintRun, PrintRuns
from fifthwise.web.set_form import SetFormFault
from fifthwise.web.set_music import without_faults
from fifthwise.web.unprinted import unprinted_evening

__all__ = ["routes", "zipped"]

NOT_THERE = 404
# The earliest that a ZIP can name, so that the same files give the same bytes.
DAY = (1980, 1, 1, 0, 0, 0)
READABLE = 0o644 << 16
KINDS = {"pdf": "application/pdf", "svg": "image/svg+xml", "md": "text/markdown"}


def runs_of(request: Request) -> PrintRuns:
    """The prints of this workbench."""
    runs: PrintRuns = request.app.state.prints
    return runs


async def _start(request: Request) -> Response:
    """Begin to print, and lead to the page that tells how far it is."""
    form = await form_of(request)
    run = await run_in_threadpool(_started, request, staff="staff" in form)
    return go(f"/sets/{run.set_id}/print/{run.number}")


def _started(request: Request, *, staff: bool) -> PrintRun:
    book, set_id = book_of(request), request.path_params["set_id"]
    evening, charts = evening_of(book, set_id)
    if not evening.songs:
        raise SetFormFault("there is no song in it", f"'{evening.name}'", "Put in a song, then print")
    unprinted = unprinted_evening(evening, charts)
    made = partial(_outputs, book, set_id, staff=staff)
    return runs_of(request).start(set_id, evening.name, made, unprinted, staff=staff)


def _outputs(book: Book, set_id: int, *, staff: bool) -> tuple[Output, ...]:
    """What is to be printed; a called key that is no key of its song stops nobody's book."""
    evening, charts = evening_of(book, set_id)
    return books(plan(without_faults(evening, charts), charts), staff=staff)


def _run(request: Request) -> PrintRun:
    return runs_of(request).find(request.path_params["set_id"], request.path_params["run"])


def _show(request: Request) -> Response:
    """How far it is; then what was made."""
    run = _run(request)
    return show(request, "set_print.html", {"run": run, "fault": run.fault})


async def _stop(request: Request) -> Response:
    """Stop it."""
    run = _run(request)
    run.stop.set()
    return go(f"/sets/{run.set_id}/print/{run.number}")


def _file(request: Request) -> Response:
    """One file."""
    run, path = _run(request), request.path_params["path"]
    if path not in run.files:
        raise HTTPException(NOT_THERE)
    name = path.rpartition("/")[2]
    kind = KINDS[path.rpartition(".")[2]]
    headers = {"content-disposition": attachment(f"{file_name(run.name)}-{name}")}
    return Response(run.files[path], media_type=kind, headers=headers)


def _zip(request: Request) -> Response:
    """All files as one."""
    run = _run(request)
    if not run.files:
        raise HTTPException(NOT_THERE)
    folder = file_name(run.name)
    headers = {"content-disposition": attachment(f"{folder}.zip")}
    return Response(zipped(run.files, folder), media_type="application/zip", headers=headers)


def zipped(files: dict[str, bytes], folder: str) -> bytes:
    """Put files into a ZIP, in a folder; the same files give the same bytes. A PDF is small already."""
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        for path, content in files.items():
            entry = zipfile.ZipInfo(f"{folder}/{path}", DAY)
            entry.external_attr = READABLE
            entry.create_system = 3  # else the system that wrote it would stand in the bytes
            stored = path.endswith(".pdf")
            entry.compress_type = zipfile.ZIP_STORED if stored else zipfile.ZIP_DEFLATED
            archive.writestr(entry, content)
    return made.getvalue()


routes = [
    Route("/sets/{set_id:int}/print", _start, methods=["POST"], name="set-print"),
    Route("/sets/{set_id:int}/print/{run:int}", _show, name="set-printing"),
    Route("/sets/{set_id:int}/print/{run:int}/stop", _stop, methods=["POST"], name="set-print-stop"),
    Route("/sets/{set_id:int}/print/{run:int}/all.zip", _zip, name="set-print-zip"),
    Route("/sets/{set_id:int}/print/{run:int}/files/{path:path}", _file, name="set-print-file"),
]
