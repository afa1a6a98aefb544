"""What each kind of visitor may do; whatever is not allowed here is refused.

========  ==========================  ============================================
visitor   reads                       changes
========  ==========================  ============================================
owner     everything                  everything
leader    everything                  everything
guest     all but the leaders' pages  nothing; may become a leader, or leave
stranger  the open pages              nothing; may join, become a leader, or leave
========  ==========================  ============================================
"""

from collections.abc import Iterable
from dataclasses import dataclass
from enum import Enum
from pathlib import PurePosixPath

from starlette.types import ASGIApp, Receive, Scope, Send

from fifthwise.web.guard.people import People, Visitor, is_at_this_machine
from fifthwise.web.guard.refusal import PageOf, Refusal, header_values, plain_page, refuse

__all__ = ["Access", "Rules", "Verdict", "verdict"]

READING = frozenset({"GET", "HEAD"})
# A path that ends with a slash stands for all below it.
OPEN = (
    "/join",
    "/leader",
    "/leave",
    "/cautions",
    "/share/devices",
    "/share/ca.crt",
    "/static/",
    "/favicon.ico",
)
# What anyone may send: the ways in and out, and the look of one's own screen, which a cookie keeps.
POSTS = ("/join", "/leader", "/leave", "/theme")
LEADER_HOW = (
    "Nothing was changed. Guests read; to change things, go to /leader and give the leader's password."
)


class Verdict(Enum):
    """What is said to a request."""

    PASS = "pass"
    JOIN_FIRST = "join first"
    LEADERS_ONLY = "leaders only"


REFUSALS = {
    Verdict.JOIN_FIRST: Refusal(
        401, "Join first", "Go to /join and type the code that the band leader calls out."
    ),
    Verdict.LEADERS_ONLY: Refusal(403, "This is for the leader", LEADER_HOW),
}
NOT_SHARED = Refusal(
    403, "This workbench is not shared", "Whoever runs it can share it: fifthwise serve --share."
)


@dataclass(frozen=True, slots=True)
class Rules:
    """Which paths are open, and which are the leaders' own.

    Parameters
    ----------
    leaders : tuple of str
        What guests may not read; ``/backup`` is that page, ``/backup/`` all below it, and in
        ``/backups/*/file`` the star stands for one name.
    open : tuple of str
        What strangers may read.
    posts : tuple of str
        Where anyone may send a form; nothing that is kept may change by it.
    """

    leaders: tuple[str, ...] = ()
    open: tuple[str, ...] = OPEN
    posts: tuple[str, ...] = POSTS


def verdict(visitor: Visitor, kind: str, method: str, path: str, rules: Rules) -> Verdict:
    """Judge a request by who asks, its kind (``http`` or ``websocket``), its method and its path."""
    reads = kind == "http" and method in READING
    if visitor.may_change or (kind == "http" and method == "POST" and path in rules.posts):
        return Verdict.PASS
    if reads and _among(path, rules.open):
        return Verdict.PASS
    if visitor is Visitor.STRANGER:
        return Verdict.JOIN_FIRST
    return Verdict.PASS if reads and not _among(path, rules.leaders) else Verdict.LEADERS_ONLY


def _among(path: str, places: Iterable[str]) -> bool:
    return any(_is_at(path, place) for place in places)


def _is_at(path: str, place: str) -> bool:
    if place.endswith("/"):
        return path.startswith(place)
    return path == place or ("*" in place and PurePosixPath(path).match(place))


class Access:
    """Find out who asks, tell the pages (``request.state.visitor``), and refuse what they may not.

    Parameters
    ----------
    people : People or None
        Those who come in from other machines; ``None`` where the workbench is not shared.
    """

    def __init__(self, app: ASGIApp, people: People | None, rules: Rules, page: PageOf = plain_page) -> None:
        self.app, self.people, self.rules, self.page = app, people, rules, page

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on, send a stranger to the code's page, or refuse."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        refusal = self._refusal(scope)
        if refusal:
            await refuse(scope, send, refusal, self.page)
            return
        await self.app(scope, receive, send)

    def _refusal(self, scope: Scope) -> Refusal | None:
        if self.people is None:
            visitor = Visitor.OWNER
            if not is_at_this_machine(scope):
                return NOT_SHARED
        else:
            visitor = self.people.visitor(scope)
        scope.setdefault("state", {})["visitor"] = visitor
        method = scope.get("method", "")
        said = verdict(visitor, scope["type"], method, scope["path"], self.rules)
        if said is Verdict.JOIN_FIRST and method in READING:
            return _to_join(scope)
        return REFUSALS.get(said)


def _to_join(scope: Scope) -> Refusal:
    """Send a stranger's browser to the code's page; a fragment cannot be sent on, so its page is."""
    first = REFUSALS[Verdict.JOIN_FIRST]
    if header_values(scope, b"hx-request"):
        return Refusal(first.status, first.title, first.words, (("hx-redirect", "/join"),))
    return Refusal(303, first.title, first.words, (("location", "/join"),))
