"""The workbench as one ASGI application over an open book."""

from starlette.applications import Starlette
from starlette.middleware import Middleware
from starlette.middleware.gzip import GZipMiddleware
from starlette.routing import BaseRoute, Route

from fifthwise.book import Book
from fifthwise.web import help, song, songs, theme_choice
from fifthwise.web.answers import fault_handlers, go
from fifthwise.web.static_files import static_route

__all__ = ["make_app"]

PAGES = (songs, song, help, theme_choice)


def make_app(book: Book) -> Starlette:
    """Put the workbench together; whoever opened the book closes it.

    Parameters
    ----------
    book : Book
        Where everything is kept.
    """
    home = Route("/", lambda request: go("/songs"), name="home")
    routes: list[BaseRoute] = [home, *(route for page in PAGES for route in page.routes), static_route()]
    app = Starlette(
        routes=routes,
        middleware=[Middleware(GZipMiddleware, minimum_size=500, compresslevel=5)],
        exception_handlers=fault_handlers(),
    )
    app.state.book = book
    return app
