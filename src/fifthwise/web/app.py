"""The workbench as one ASGI application over an open book."""

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.routing import BaseRoute

from fifthwise.book import Book
from fifthwise.stage import end_printing
from fifthwise.web import (
    cautions,
    edit,
    help,
    history,
    import_page,
    merge,
    players,
    set_files,
    set_list,
    set_order,
    set_print,
    set_songs,
    share,
    singers,
    song,
    songs,
    start,
    theme_choice,
    ways_in,
)
from fifthwise.web.answers import fault_handlers
from fifthwise.web.import_runs import ImportRuns
from fifthwise.web.print_runs import PrintRuns
from fifthwise.web.sharing import Sharing
from fifthwise.web.static_files import static_route

__all__ = ["make_app"]

PAGES = (
    start, songs, import_page, song, edit, merge, history, set_list, set_order, set_songs, set_print,
    set_files, singers, players, help, theme_choice, share, ways_in, cautions,
)  # fmt: skip


@asynccontextmanager
async def _open(app: Starlette) -> AsyncIterator[None]:
    """While the workbench is open; what goes on by itself is stopped when it closes."""
    yield
    await run_in_threadpool(_close, app.state.prints, app.state.imports)


def _close(prints: PrintRuns, imports: ImportRuns) -> None:
    imports.close()
    prints.close()
    # A signal may end the process before Python would end them.
    end_printing()


def make_app(book: Book, sharing: Sharing | None = None) -> Starlette:
    """Put the workbench together; whoever opened the book closes it.

    Parameters
    ----------
    book : Book
        Where everything is kept.
    sharing : Sharing or None
        How others may open it; ``None`` where only this computer can.
    """
    routes: list[BaseRoute] = [*(route for page in PAGES for route in page.routes), static_route()]
    app = Starlette(
        routes=routes,
        middleware=[Middleware(GZipMiddleware, minimum_size=500, compresslevel=5)],
        exception_handlers=fault_handlers(),
        lifespan=_open,
    )
    app.state.prints, app.state.imports = PrintRuns(), ImportRuns()
    app.state.book, app.state.sharing = book, sharing
    return app
