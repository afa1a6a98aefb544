"""What every page's route needs: forms in, pages and faults out."""

from collections.abc import Callable, Mapping
from typing import Any

from starlette.datastructures import UploadFile
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import RedirectResponse, Response

from fifthwise.book import Book, BookFault, Conflict, NotABook, NotThere, StandsInSets
from fifthwise.errors import FifthwiseError
from fifthwise.web.guard import reference_of
from fifthwise.web.pages import render

__all__ = [
    "AWAY",
    "CONFLICT",
    "FAULT",
    "OddForm",
    "book_of",
    "fault_handlers",
    "form_of",
    "go",
    "is_fragment",
    "show",
    "status_of",
]

SEE_OTHER = 303
HALF = 400
NOT_THERE = 404
CONFLICT = 409
FAULT = 422
MOST_BYTES = 2_000_000  # of a field; no more than the guard lets through, so that a long text comes back
MOST_FIELDS = 5000  # a running order of a thousand songs
BROKEN = 500
AWAY = 503  # the book: nothing is wrong with what was asked
STATUS: dict[type[FifthwiseError], int] = {
    NotThere: NOT_THERE,
    Conflict: CONFLICT,
    StandsInSets: CONFLICT,
    BookFault: AWAY,
}


class OddForm(FifthwiseError):
    """A form that does not come from a page of ours."""


def book_of(request: Request) -> Book:
    """The book that the workbench is open on."""
    book: Book = request.app.state.book
    return book


async def form_of(request: Request) -> dict[str, str]:
    """A form's texts, each field once; line ends as a chart has them.

    Raises
    ------
    OddForm
        It has more fields than any of ours, or cannot be read.
    """
    try:
        async with request.form(max_fields=MOST_FIELDS, max_part_size=MOST_BYTES) as form:
            return {name: _text(value) for name, value in form.items()}
    except HTTPException as error:
        raise OddForm("no page of ours sends such a form", "form", "Load the page and try again") from error


def _text(value: UploadFile | str) -> str:
    return value.replace("\r\n", "\n") if isinstance(value, str) else ""


def is_fragment(request: Request) -> bool:
    """Whether a script asked for a part of the page; going back in the history asks for all of it."""
    headers = request.headers
    return headers.get("hx-request") == "true" and headers.get("hx-history-restore-request") != "true"


def show(
    request: Request,
    template: str,
    context: Mapping[str, Any],
    *,
    status: int = 200,
    headers: Mapping[str, str] | None = None,
) -> Response:
    """A page, or its fragment where that is what was asked for.

    Parameters
    ----------
    template : str
        The page's template. Its fragment has the same name with ``_`` before it, where there is one.
    context : mapping
        What it shows. A ``fault`` in it is told without the place where the book lies.
    """
    fault = context.get("fault")
    if isinstance(fault, FifthwiseError):
        context = {**context, "fault": _without_place(request, fault)}
    return render(request, template, context, fragment=is_fragment(request), status=status, headers=headers)


def go(address: str) -> RedirectResponse:
    """Send the browser on after a change, so that a reload does not repeat it."""
    return RedirectResponse(address, SEE_OTHER)


def fault_handlers() -> dict[Any, Callable[[Request, Exception], Response]]:
    """One answer for every fault of ours; others for what leads nowhere, is cut off, or is our own slip."""
    return {FifthwiseError: _fault, HTTPException: _no_page, ClientDisconnect: _left, Exception: _broken}


def status_of(fault: Exception) -> int:
    """The status that a fault of ours is answered with."""
    return next((code for kind, code in STATUS.items() if isinstance(fault, kind)), FAULT)


def _fault(request: Request, error: Exception) -> Response:
    assert isinstance(error, FifthwiseError)
    context = {"fault": error, "damaged": isinstance(error, NotABook)}
    return show(request, "fault.html", context, status=status_of(error))


def _without_place(request: Request, fault: FifthwiseError) -> FifthwiseError:
    """A fault as it is told; where the book lies its owner reads where the workbench was started."""
    book: Book | None = getattr(request.app.state, "book", None)
    where = "the book" if book is not None and fault.where == book.where else fault.where
    return FifthwiseError(fault.what, where, fault.fix)


def _no_page(request: Request, error: Exception) -> Response:
    assert isinstance(error, HTTPException)
    context = {"status": error.status_code}
    return show(request, "no_page.html", context, status=error.status_code, headers=error.headers)


def _left(request: Request, error: Exception) -> Response:
    # Whoever sent half a form is gone: nobody reads this, and the log needs no fault.
    return Response(status_code=HALF)


def _broken(request: Request, error: Exception) -> Response:
    # The guard's log has it under the same reference.
    return show(request, "broken.html", {"reference": reference_of(request.scope)}, status=BROKEN)
