"""Bodies bounded in length and in time, before a handler holds them in memory.

A length that is told is refused at once; one that is not (chunked, RFC 9112, 7.1) is counted as it comes.
A sender has ``grace_s`` and then a second more for every ``SLOWEST_BYTES`` received: the rule, and the
defaults, of Apache's mod_reqtimeout (``body=20,MinRate=500``).
"""

from collections.abc import Iterable
from dataclasses import dataclass

import anyio
from starlette.routing import compile_path
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fifthwise.web.guard.refusal import PageOf, Refusal, header_values, plain_page, refuse

__all__ = ["DEFAULT_LIMIT", "BodyLimit", "BodyLimits"]

MB = 1_000_000
DEFAULT_LIMIT = 2 * MB
GRACE_S = 20.0
SLOWEST_BYTES = 500
# What follows on the connection is a body that nobody reads.
CLOSE = (("connection", "close"),)
ODD_LENGTH = Refusal(400, "The length of what was sent makes no sense", "Load the page and try again.", CLOSE)
TOO_SLOW = Refusal(
    408,
    "What was sent came too slowly",
    "Nothing was changed. Come nearer to the network and try again.",
    CLOSE,
)


@dataclass(frozen=True, slots=True)
class BodyLimit:
    """A route that takes more, or less, than the default.

    Parameters
    ----------
    path : str
        As a route has it: ``/songs/{id}/takes``.
    most : int
        Bytes.
    """

    path: str
    most: int


class BodyTooMuch(Exception):
    """Raised into the handler that was reading; it never reaches the server."""


class BodyLimits:
    """Bound every request's body; it stands innermost, so that nobody is refused for length who may not ask.

    Parameters
    ----------
    limits : iterable of BodyLimit
        The first whose path fits is taken.
    grace_s : float
        Seconds before a sender has to be quick enough.
    """

    def __init__(
        self,
        app: ASGIApp,
        limits: Iterable[BodyLimit] = (),
        page: PageOf = plain_page,
        grace_s: float = GRACE_S,
    ) -> None:
        self.app, self.page, self.grace_s = app, page, grace_s
        self.limits = tuple((compile_path(limit.path)[0], limit.most) for limit in limits)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse a long body with 413 and a slow one with 408."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        most = self._most(scope["path"])
        told = _told_refusal(header_values(scope, b"content-length"), most)
        if told:
            await refuse(scope, send, told, self.page)
            return
        body = _Body(receive, send, most, self.grace_s)
        try:
            await self.app(scope, body.receive, body.send)
        except Exception:
            if body.refusal is None or body.started:
                raise
        if body.refusal and not body.started:
            await refuse(scope, send, body.refusal, self.page)

    def _most(self, path: str) -> int:
        return next((most for pattern, most in self.limits if pattern.match(path)), DEFAULT_LIMIT)


def _too_long(most: int) -> Refusal:
    words = f"Nothing was changed. At most {most / MB:g} MB are taken here; send less, or in parts."
    return Refusal(413, "That is too much at once", words, CLOSE)


def _told_refusal(told: list[str], most: int) -> Refusal | None:
    """What is wrong with the Content-Length headers; digits only, and all the same (RFC 9110, 8.6)."""
    if not told:
        return None
    if len(set(told)) > 1 or not (told[0].isascii() and told[0].isdigit()):
        return ODD_LENGTH
    digits = told[0].lstrip("0")
    # So many digits are too much, whatever they say; Python would refuse to read the longest.
    return _too_long(most) if len(digits) > len(str(most)) or int(digits or "0") > most else None


class _Body:
    """One request's way in and out: it counts, watches the clock, and holds back an answer to half a body."""

    def __init__(self, receive: Receive, send: Send, most: int, grace_s: float) -> None:
        self._receive, self._send = receive, send
        self.most, self.left, self.until = most, most, anyio.current_time() + grace_s
        self.whole = self.started = False
        self.refusal: Refusal | None = None

    async def receive(self) -> Message:
        """The next part. After the last one this waits for the client to leave, as long as it takes."""
        if self.whole:
            return await self._receive()
        with anyio.move_on_after(self.until - anyio.current_time()) as waiting:
            message = await self._receive()
        if waiting.cancelled_caught:
            return self._give_up(TOO_SLOW)
        length = len(message.get("body", b""))
        self.left -= length
        self.until += length / SLOWEST_BYTES
        self.whole = not message.get("more_body", False)
        return self._give_up(_too_long(self.most)) if self.left < 0 else message

    def _give_up(self, refusal: Refusal) -> Message:
        self.refusal = refusal
        raise BodyTooMuch(refusal.title)

    async def send(self, message: Message) -> None:
        """Pass the answer on, unless the refusal takes its place."""
        if self.refusal is None or self.started:
            self.started = True
            await self._send(message)
