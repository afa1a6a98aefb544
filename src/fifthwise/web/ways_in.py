"""The ways in and out for those at other machines: the code, the password, and leaving."""

import math

from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.web.answers import form_of, go, show
from fifthwise.web.guard import Entry, Visitor, clear_cookie, cookie_of, give_cookie
from fifthwise.web.sharing import sharing_of, visitor_of

__all__ = ["routes"]

WRONG, TOO_OFTEN = 422, 429
WRONG_CODE = "That is not tonight's code. Ask the leader to read it out again."
WRONG_PASSWORD = "That is not the password."


def ask_code(request: Request) -> Response:
    """The form for the code."""
    return _form(request, "join.html")


async def join(request: Request) -> Response:
    """Come in as a guest."""
    sharing = sharing_of(request)
    if sharing is None:
        return go("/share")
    form = await form_of(request)
    entry = sharing.people.join(request.scope, form.get("code", ""))
    return _came_in(request, "join.html", entry, WRONG_CODE)


def ask_password(request: Request) -> Response:
    """The form for the leader's password."""
    return _form(request, "leader.html")


async def lead(request: Request) -> Response:
    """Come in as a leader."""
    sharing = sharing_of(request)
    if sharing is None:
        return go("/share")
    form = await form_of(request)
    entry = await sharing.people.lead(request.scope, form.get("password", ""))
    return _came_in(request, "leader.html", entry, WRONG_PASSWORD)


def ask_leave(request: Request) -> Response:
    """The button to leave by."""
    return _form(request, "leave.html")


def leave(request: Request) -> Response:
    """End the session, for every copy of its cookie."""
    sharing = sharing_of(request)
    if sharing is None:
        return go("/share")
    sharing.people.sessions.leave(cookie_of(request.scope))
    answer = go("/join")
    clear_cookie(answer, secure=request.url.scheme == "https")
    return answer


def _form(request: Request, template: str) -> Response:
    if sharing_of(request) is None:
        return go("/share")
    return show(request, template, {"visitor": visitor_of(request), "wrong": None})


def _came_in(request: Request, template: str, entry: Entry, wrong: str) -> Response:
    if entry.cookie is not None:
        answer = go("/")
        # Whoever was a guest is that no longer.
        sharing = sharing_of(request)
        if sharing is not None:
            sharing.people.sessions.leave(cookie_of(request.scope))
        give_cookie(answer, entry.cookie, secure=request.url.scheme == "https")
        return answer
    if not entry.wait_s:
        return show(request, template, {"visitor": Visitor.STRANGER, "wrong": wrong}, status=WRONG)
    wait_s = math.ceil(entry.wait_s)
    wrong = f"Too many tries. Wait {wait_s} seconds, then try again."
    context = {"visitor": Visitor.STRANGER, "wrong": wrong}
    return show(request, template, context, status=TOO_OFTEN, headers={"retry-after": str(wait_s)})


routes = [
    Route("/join", ask_code, name="join"),
    Route("/join", join, methods=["POST"]),
    Route("/leader", ask_password, name="leader"),
    Route("/leader", lead, methods=["POST"]),
    Route("/leave", ask_leave, name="leave"),
    Route("/leave", leave, methods=["POST"]),
]
