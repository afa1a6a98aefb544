"""The workbench opened on a book: a backup made, and a damaged book offered its newest one."""

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from dataclasses import dataclass
from datetime import date

from starlette.applications import Starlette
from starlette.types import ASGIApp

from fifthwise.book import BookError, NotABook, check_file, daily_backup, newest_backup, open_book, put_back
from fifthwise.web.app import make_app
from fifthwise.web.rescue import Rescue
from fifthwise.web.sharing import Sharing, guarded

__all__ = ["open_workbench"]


@contextmanager
def open_workbench(
    place: str, sharing: Sharing | None = None, *, on_notice: Callable[[str], None]
) -> Iterator[ASGIApp]:
    """Open a book and the workbench over it, behind its guard; closes the book at the end.

    Parameters
    ----------
    place : str
        As for ``open_book``.
    sharing : Sharing or None
        How others may open it.
    on_notice : callable
        Called with what the user should know: a damaged book, a backup that could not be made.

    Raises
    ------
    BookFault
        The book cannot be used, and no backup of it is there.
    """
    with ExitStack() as books:
        opening = _Opening(place, sharing, on_notice, books)
        try:
            app: ASGIApp = opening.workbench()
        except NotABook as fault:
            backup = newest_backup(place)
            if backup is None:
                raise
            on_notice(str(fault))
            app = Rescue(fault, backup, lambda: opening.after(lambda: put_back(place, backup)))
        yield guarded(app, sharing)


@dataclass(frozen=True, slots=True)
class _Opening:
    """How a book is opened, now or after it was put right."""

    place: str
    sharing: Sharing | None
    on_notice: Callable[[str], None]
    books: ExitStack

    def workbench(self) -> Starlette:
        """The workbench over the book."""
        book = self.books.enter_context(open_book(self.place))
        check_file(book)
        try:
            daily_backup(book, date.today())
        except NotABook:
            raise
        except BookError as fault:
            # The book itself is whole: work goes on.
            self.on_notice(f"No backup was made today. {fault}")
        return make_app(book, self.sharing)

    def after(self, mend: Callable[[], object]) -> Starlette:
        """Put the book right, then open it."""
        self.books.close()
        mend()
        return self.workbench()
