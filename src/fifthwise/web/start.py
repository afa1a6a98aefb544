"""The page *Start*: what an empty book may begin with. A book with anything in it begins with its songs."""

from importlib.resources import as_file, files

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import Book, import_folder, players, sets, singers, song_count
from fifthwise.web.answers import book_of, go, show

__all__ = ["routes"]


def home(request: Request) -> Response:
    """The start, or the songs."""
    return show(request, "start.html", {}) if _is_empty(book_of(request)) else go("/songs")


async def put_demo_in(request: Request) -> Response:
    """Put the demo evening into the book; done again, it changes nothing."""
    return go(await run_in_threadpool(_put_demo_in, book_of(request)))


def _put_demo_in(book: Book) -> str:
    """Where to go on: the demo's set, which is the newest."""
    with as_file(files("fifthwise.web") / "demo") as folder:
        import_folder(book, folder)
    return f"/sets/{max(each.id for each in sets(book))}"


def _is_empty(book: Book) -> bool:
    return not (song_count(book) or sets(book) or singers(book) or players(book))


routes = [
    Route("/", home, name="home"),
    Route("/start/demo", put_demo_in, methods=["POST"], name="demo"),
]
