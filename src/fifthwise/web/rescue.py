"""A damaged book: what can be done about it, instead of the workbench, until it is done."""

from collections.abc import AsyncIterator, Callable
from contextlib import AsyncExitStack, asynccontextmanager
from dataclasses import dataclass

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import BaseRoute, Route
from starlette.types import Receive, Scope, Send

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
    app : Starlette
        What answers now.
    opened : AsyncExitStack
        Closes the workbench with the server, which knows only of the rescue.
    """

    fault: NotABook
    backup: Backup
    put_back: Callable[[], Starlette]
    app: Starlette
    opened: AsyncExitStack

    def __init__(self, fault: NotABook, backup: Backup, put_back: Callable[[], Starlette]) -> None:
        self.fault, self.backup, self.put_back = fault, backup, put_back
        self.opened = AsyncExitStack()
        routes: list[BaseRoute] = [
            Route("/rescue", self._put_back, methods=["POST"]),
            *theme_choice.routes,
            static_route(),
            Route("/{path:path}", self._offer),
        ]
        rescue = Starlette(routes=routes, exception_handlers=fault_handlers(), lifespan=self._open)
        rescue.state.sharing = None
        self.app = rescue

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer as what stands here now."""
        await self.app(scope, receive, send)

    @asynccontextmanager
    async def _open(self, _rescue: Starlette) -> AsyncIterator[None]:
        async with self.opened:
            yield

    def _offer(self, request: Request) -> Response:
        return show(request, "rescue.html", {"fault": self.fault, "backup": self.backup}, status=AWAY)

    async def _put_back(self, _request: Request) -> Response:
        workbench = await run_in_threadpool(self.put_back)
        await self.opened.enter_async_context(workbench.router.lifespan_context(workbench))
        self.app = workbench
        return go("/")
