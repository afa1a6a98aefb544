"""A damaged book: what can be done about it, instead of the workbench, until it is done."""

from collections.abc import Callable
from dataclasses import dataclass

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route
from starlette.types import ASGIApp, Receive, Scope, Send

from fifthwise.book import Backup, NotABook
from fifthwise.web import theme_choice
from fifthwise.web.answers import fault_handlers, go, show
from fifthwise.web.static_files import static_route

__all__ = ["Rescue"]

AWAY = 503


@dataclass(slots=True)
class Rescue:
    """An application that offers the newest backup, and is the workbench once that is put back.

    Attributes
    ----------
    fault : NotABook
        What is wrong with the book.
    backup : Backup
        The newest.
    put_back : callable
        Puts it in the book's place and opens the workbench on it.
    app : ASGI application
        What answers now.
    """

    fault: NotABook
    backup: Backup
    put_back: Callable[[], ASGIApp]
    app: ASGIApp

    def __init__(self, fault: NotABook, backup: Backup, put_back: Callable[[], ASGIApp]) -> None:
        self.fault, self.backup, self.put_back = fault, backup, put_back
        routes: list[BaseRoute] = [
            Route("/rescue", self._put_back, methods=["POST"]),
            *theme_choice.routes,
            static_route(),
            Route("/{path:path}", self._offer),
        ]
        rescue = Starlette(routes=routes, exception_handlers=fault_handlers())
        rescue.state.sharing = None
        self.app = rescue

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer as what stands here now."""
        await self.app(scope, receive, send)

    def _offer(self, request: Request) -> Response:
        return show(request, "rescue.html", {"fault": self.fault, "backup": self.backup}, status=AWAY)

    async def _put_back(self, _request: Request) -> Response:
        self.app = await run_in_threadpool(self.put_back)
        return go("/")
