"""What the pages of singers and of players share: a new one, one changed, one removed."""

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from typing import Any, Generic, Protocol, TypeVar

from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.book import Book, BookFault, Conflict, NameFault
from fifthwise.errors import FifthwiseError
from fifthwise.web.answers import AWAY, CONFLICT, FAULT, book_of, form_of, go, show
from fifthwise.web.person_forms import Reading, read_version

__all__ = ["PersonPages"]


class _Kept(Protocol):
    @property
    def id(self) -> int: ...

    @property
    def version(self) -> int: ...


Person = TypeVar("Person")
Kept = TypeVar("Kept", bound=_Kept)


@dataclass(frozen=True, slots=True)
class PersonPages(Generic[Person, Kept]):
    """The pages of one kind of people.

    Attributes
    ----------
    word : str
        What one is called; the address is ``/`` with it and an s, the template ``word.html``.
    labels : mapping
        What each field of the form is called.
    said : mapping
        Words for what a field holds, where it is not written as it is read.
    read, texts : callable
        From the form's texts to a reading, and from a person to the form's texts.
    person : callable
        The person that is kept.
    one, add, save, remove : callable
        The book's.
    more : callable
        What else the page shows: the form as it stands and who is kept, ``None`` for a new one.
    """

    word: str
    labels: Mapping[str, str]
    said: Mapping[str, str]
    read: Callable[[Mapping[str, str]], Reading[Person]]
    texts: Callable[[Person], dict[str, str]]
    person: Callable[[Kept], Person]
    one: Callable[[Book, int], Kept]
    add: Callable[[Book, Person], Kept]
    save: Callable[[Book, int, Person, int], Kept]
    remove: Callable[[Book, int, int], None]
    more: Callable[[Book, Reading[Person], Kept | None], dict[str, Any]]

    @property
    def routes(self) -> list[Route]:
        """Where they stand."""
        all_of, one = f"/{self.word}s", f"/{self.word}s/{{number:int}}"

        def route(path: str, name: str, get: Any, post: Any) -> list[Route]:
            return [
                Route(path, get, name=f"{self.word}-{name}"),
                Route(path, post, methods=["POST"], name=f"{self.word}-{name}-post"),
            ]

        return [
            *route(f"{all_of}/new", "new", self._new, self._posted(self._add)),
            *route(one, "form", self._form, self._posted(self._save)),
            *route(f"{one}/remove", "remove", self._ask, self._posted(self._remove)),
        ]

    def _posted(
        self, act: Callable[[Request, dict[str, str]], Response]
    ) -> Callable[[Request], Awaitable[Response]]:
        async def answer(request: Request) -> Response:
            return await run_in_threadpool(act, request, await form_of(request))

        return answer

    def _new(self, request: Request) -> Response:
        return self._page(request, Reading(self.read({}).texts, None, {}), None)

    def _form(self, request: Request) -> Response:
        kept = self._kept(request)
        return self._page(request, Reading(self.texts(self.person(kept)), self.person(kept), {}), kept)

    def _add(self, request: Request, form: dict[str, str]) -> Response:
        reading = self.read(form)
        if reading.person is None:
            return self._page(request, reading, None, status=FAULT)
        try:
            kept = self.add(book_of(request), reading.person)
        except NameFault as fault:
            return self._page(request, _with_name_fault(reading, fault), None, status=FAULT)
        except BookFault as fault:
            return self._page(request, reading, None, fault=fault, status=AWAY)
        return go(f"/{self.word}s/{kept.id}?saved=1")

    def _save(self, request: Request, form: dict[str, str]) -> Response:
        kept, reading, version = self._kept(request), self.read(form), read_version(form, self.word)
        if reading.person is None:
            return self._page(request, reading, kept, version=version, status=FAULT)
        try:
            self.save(book_of(request), kept.id, reading.person, version)
        except NameFault as fault:
            named = _with_name_fault(reading, fault)
            return self._page(request, named, kept, version=version, status=FAULT)
        except BookFault as fault:
            return self._page(request, reading, kept, version=version, fault=fault, status=AWAY)
        except Conflict:
            newest = self._kept(request)
            theirs = self.texts(self.person(newest))
            return self._page(request, reading, newest, theirs=theirs, status=CONFLICT)
        return go(f"/{self.word}s/{kept.id}?saved=1")

    def _ask(self, request: Request) -> Response:
        kept = self._kept(request)
        name = self.texts(self.person(kept))["name"]
        return show(request, "person_remove.html", {"kept": kept, "name": name, "word": self.word})

    def _remove(self, request: Request, form: dict[str, str]) -> Response:
        version = read_version(form, self.word)
        self.remove(book_of(request), request.path_params["number"], version)
        return go(f"/{self.word}s")

    def _kept(self, request: Request) -> Kept:
        return self.one(book_of(request), request.path_params["number"])

    def _page(
        self,
        request: Request,
        reading: Reading[Person],
        kept: Kept | None,
        *,
        version: int | None = None,
        theirs: Mapping[str, str] | None = None,
        fault: FifthwiseError | None = None,
        status: int = 200,
    ) -> Response:
        """The form with what it says, what is wrong with it, and what the book has where that is another.

        Parameters
        ----------
        version : int, optional
            That which was seen; the newest unless given.
        fault : FifthwiseError, optional
            Of the book, not of what was written.
        """
        context = {
            "form": reading,
            "kept": kept,
            "name": self.texts(self.person(kept))["name"] if kept else "",
            "version": version or (kept.version if kept else 0),
            "theirs": theirs,
            "fault": fault,
            "labels": self.labels,
            "said": self.said,
            "saved": request.method == "GET" and request.query_params.get("saved") == "1",
            **self.more(book_of(request), reading, kept),
        }
        return show(request, f"{self.word}.html", context, status=status)


def _with_name_fault(reading: Reading[Person], fault: NameFault) -> Reading[Person]:
    return Reading(reading.texts, None, {"name": fault})
