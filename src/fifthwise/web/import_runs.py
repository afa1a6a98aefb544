"""Imports under way and just done, each with what became of its files; the oldest are forgotten."""

import logging
import secrets
import threading
from collections import OrderedDict
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from fifthwise.book import Book, SongRow, add_song
from fifthwise.chart import Fault, TextFaults
from fifthwise.errors import FifthwiseError
from fifthwise.web.guard import where_rose
from fifthwise.web.import_text import file_chart, same_song

__all__ = ["FailedFile", "ImportRun", "ImportRuns", "KeptFile"]

MOST_RUNS = 20
log = logging.getLogger("fifthwise.web")


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A file that is a song now.

    Attributes
    ----------
    twin : bool
        Whether the book had another song of its title.
    """

    name: str
    row: SongRow
    twin: bool = False


@dataclass(frozen=True, slots=True)
class FailedFile:
    """A file that was not kept, and why."""

    name: str
    faults: tuple[Fault, ...]


@dataclass(slots=True)
class ImportRun:
    """One import. Whoever looks at it while it goes on sees what is done so far.

    Attributes
    ----------
    unchanged : list of KeptFile
        Files that the book had already, word for word.
    stop : Event
        Set where the rest is not to be taken in.
    """

    id: str
    total: int
    kept: list[KeptFile] = field(default_factory=list)
    unchanged: list[KeptFile] = field(default_factory=list)
    failed: list[FailedFile] = field(default_factory=list)
    ended: bool = False
    stop: threading.Event = field(default_factory=threading.Event)

    @property
    def done(self) -> int:
        """How many files are done with."""
        return len(self.kept) + len(self.unchanged) + len(self.failed)

    def go(self, book: Book, files: Sequence[tuple[str, bytes]]) -> None:
        """Take the files in, one after the other, so that others may save in between."""
        try:
            for name, raw in files:
                if self.stop.is_set():
                    break
                self._take(book, name, raw)
        finally:
            self.ended = True

    def _take(self, book: Book, name: str, raw: bytes) -> None:
        try:
            chart, text = file_chart(name, raw)
            same, twin = same_song(book, chart, text)
            if same:
                self.unchanged.append(KeptFile(name, same))
            else:
                self.kept.append(KeptFile(name, add_song(book, text), twin))
        except TextFaults as error:
            self.failed.append(FailedFile(name, error.faults))
        except FifthwiseError as error:
            self.failed.append(FailedFile(name, (Fault(error.what, error.fix, 0, 1, 1, "", name),)))


class ImportRuns:
    """The last imports, by their names in the address; one that goes on by itself at a time."""

    def __init__(self) -> None:
        self._runs: OrderedDict[str, ImportRun] = OrderedDict()
        self._worker: ThreadPoolExecutor | None = None

    def new(self, total: int) -> ImportRun:
        """Begin another; the oldest that is over goes."""
        run = ImportRun(secrets.token_urlsafe(9), total)
        self._runs[run.id] = run
        over = [each.id for each in self._runs.values() if each.ended]
        for name in over[: max(0, len(self._runs) - MOST_RUNS)]:
            del self._runs[name]
        return run

    def start(self, run: ImportRun, book: Book, files: Sequence[tuple[str, bytes]]) -> None:
        """Let an import go on by itself, once those started before are over."""
        if self._worker is None:
            self._worker = ThreadPoolExecutor(1, thread_name_prefix="import")
        self._worker.submit(_go, run, book, files)

    def close(self) -> None:
        """Break off what goes on; the files done with stay kept."""
        for run in self._runs.values():
            run.stop.set()
        worker, self._worker = self._worker, None
        if worker is not None:
            worker.shutdown(wait=True)

    def get(self, name: str) -> ImportRun | None:
        """One that is still known."""
        return self._runs.get(name)


def _go(run: ImportRun, book: Book, files: Sequence[tuple[str, bytes]]) -> None:
    try:
        run.go(book, files)
    except Exception as error:
        log.error("an import failed: %s", where_rose(error))
