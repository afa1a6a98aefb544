"""Logs that say what happened and nothing about whose music it was.

A line holds the method, the route as it is written in the code (``/songs/{id}``), the status and the time
taken. No path, query, title, name, code or cookie. A fault is logged under a short reference that its page
shows too: where in the code it rose and of which class, without its words, which may quote a song.

Sources: OWASP Logging Cheat Sheet, "Data to exclude"; OWASP Error Handling Cheat Sheet.
"""

import asyncio
import logging
import secrets
import time
import traceback
from collections.abc import Callable
from typing import Any

from starlette.types import ASGIApp, Message, Receive, Scope, Send

from fifthwise.web.guard.refusal import PageOf, Refusal, plain_page, refuse

__all__ = ["LOG_CONFIG", "Logs", "fault_refusal", "log_fault", "reference_of", "where_rose"]

log = logging.getLogger("fifthwise.web")
ENDING = Refusal(
    503,
    "The workbench is being closed",
    "Start it again, then look whether this was kept.",
    (("connection", "close"),),
)
METHODS = frozenset({"GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"})
# uvicorn's own: faults of the server itself. Its lines of requests and sockets hold paths and queries.
LOG_CONFIG: dict[str, Any] = {
    "version": 1,
    "disable_existing_loggers": False,
    "formatters": {"plain": {"format": "%(asctime)s %(levelname)s %(message)s"}},
    "handlers": {"stderr": {"class": "logging.StreamHandler", "formatter": "plain"}},
    "loggers": {
        "fifthwise.web": {"handlers": ["stderr"], "level": "INFO", "propagate": False},
        "uvicorn": {"handlers": ["stderr"], "level": "WARNING", "propagate": False},
        "uvicorn.access": {"handlers": [], "level": "CRITICAL", "propagate": False},
        # It quotes what it cannot read of a form.
        "python_multipart": {"handlers": [], "level": "CRITICAL", "propagate": False},
    },
}


class Logs:
    """Log every request, and answer what nobody caught.

    The fault goes no further: the server would log it with its words.
    """

    def __init__(
        self, app: ASGIApp, page: PageOf = plain_page, clock: Callable[[], float] = time.monotonic
    ) -> None:
        self.app, self.page, self.clock = app, page, clock

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on and say what became of it."""
        if scope["type"] not in ("http", "websocket"):
            await self.app(scope, receive, send)
            return
        begun, status = self.clock(), 0

        async def noting(message: Message) -> None:
            nonlocal status
            if message["type"] == "http.response.start":
                status = message["status"]
            await send(message)

        scope["fifthwise.reference"] = secrets.token_hex(4)
        try:
            await self.app(scope, receive, noting)
        except asyncio.CancelledError:
            # The server does this when it ends and has waited enough; it would log it as a fault of ours.
            if not status:
                await refuse(scope, noting, ENDING, self.page)
        except Exception as fault:
            log_fault(scope, fault)
            if not status:
                await refuse(scope, noting, fault_refusal(scope), self.page)
        finally:
            taken_ms = (self.clock() - begun) * 1000
            log.info("%s %s %d %.0f ms", _method(scope), _route(scope), status, taken_ms)


def reference_of(scope: Scope) -> str:
    """The reference under which a fault of this request is logged."""
    return str(scope.get("fifthwise.reference", "none"))


def fault_refusal(scope: Scope) -> Refusal:
    """What a fault's page says."""
    words = f"Nothing more was done. If it happens again, report it with the reference {reference_of(scope)}."
    return Refusal(500, "Something went wrong here", words)


def log_fault(scope: Scope, fault: BaseException) -> None:
    """Log where a fault rose and of which class, without its words."""
    log.error("reference %s: %s", reference_of(scope), where_rose(fault))


def where_rose(fault: BaseException) -> str:
    """A fault's class and the places in the code that it came through, without its words."""
    frames = traceback.extract_tb(fault.__traceback__)
    places = " < ".join(f"{frame.filename}:{frame.lineno} {frame.name}" for frame in reversed(frames))
    return f"{type(fault).__qualname__} at {places}"


def _method(scope: Scope) -> str:
    if scope["type"] == "websocket":
        return "SOCKET"
    return scope["method"] if scope["method"] in METHODS else "OTHER"


def _route(scope: Scope) -> str:
    """The route as the code has it; a path that no route has may hold anything, so it is not said."""
    return str(getattr(scope.get("route"), "path", "-"))
