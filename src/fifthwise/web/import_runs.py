"""Imports under way and just done, each with what became of its files; the oldest are forgotten.

A song about which something had to be guessed that may as well be otherwise waits to be settled.
"""

import logging
import secrets
import threading
from collections import OrderedDict
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field

from fifthwise.book import Book, SongRow, add_song, same_text, songs_titled
from fifthwise.chart import Fault, TextFaults
from fifthwise.errors import FifthwiseError
from fifthwise.exchange import FoundSong, Wish
from fifthwise.web.guard import where_rose
from fifthwise.web.import_text import file_songs

__all__ = ["FailedFile", "ImportRun", "ImportRuns", "KeptFile", "WaitingFile"]

MOST_RUNS = 20
MOST_WAITING = 8_000_000  # bytes of files that a run keeps to be settled; the rest is kept as it was guessed
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
    told: tuple[str, ...] = ()


@dataclass(slots=True)
class WaitingFile:
    """A file whose song waits until what was guessed is settled.

    Attributes
    ----------
    raw : bytes
        The file, to be read again as is wished; empty once it is kept.
    kept : SongRow or None
        The song, once it is kept.
    """

    name: str
    raw: bytes
    title: str
    asked: tuple[str, ...]
    kept: SongRow | None = None


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
    waiting: list[WaitingFile] = field(default_factory=list)
    failed: list[FailedFile] = field(default_factory=list)
    done: int = 0
    ended: bool = False
    stop: threading.Event = field(default_factory=threading.Event)

    @property
    def open(self) -> list[WaitingFile]:
        """The files that still wait."""
        return [each for each in self.waiting if each.kept is None]

    def go(self, book: Book, files: Sequence[tuple[str, bytes]]) -> None:
        """Take the files in, one after the other, so that others may save in between."""
        try:
            for name, raw in files:
                if self.stop.is_set():
                    break
                self._take(book, name, raw)
                self.done += 1
        finally:
            self.ended = True

    def _take(self, book: Book, name: str, raw: bytes) -> None:
        try:
            found = file_songs(name, raw, Wish())
        except FifthwiseError as error:
            self._fail(name, error)
            return
        for fault in found.failed:
            self._fail(name, fault)
        if len(found.songs) == 1 and found.songs[0].doubtful and self._has_room(raw):
            asked = tuple(each.text for each in found.songs[0].questions if not each.sure)
            self.waiting.append(WaitingFile(name, raw, found.songs[0].chart.title, asked))
            return
        for song in found.songs:
            self.keep(book, name, song)

    def _has_room(self, raw: bytes) -> bool:
        return len(raw) + sum(len(each.raw) for each in self.waiting) <= MOST_WAITING

    def keep(self, book: Book, name: str, song: FoundSong) -> SongRow | None:
        """Keep a song, unless the book has it word for word; a fault is noted."""
        try:
            same = same_text(book, song.chart.title, song.text)
            if same is not None:
                self.unchanged.append(KeptFile(name, same))
                return same
            twin = bool(songs_titled(book, song.chart.title))
            row = add_song(book, song.text)
        except FifthwiseError as error:
            self._fail(name, error)
            return None
        self.kept.append(KeptFile(name, row, twin, _told(song)))
        return row

    def _fail(self, name: str, error: FifthwiseError) -> None:
        faults = error.faults if isinstance(error, TextFaults) else (_fault(error, name),)
        self.failed.append(FailedFile(name, faults))


def _fault(error: FifthwiseError, name: str) -> Fault:
    return Fault(error.what, error.fix, 0, 1, 1, "", name)


def _told(song: FoundSong) -> tuple[str, ...]:
    """What is told of a song, and what was taken where something was open."""
    taken = (
        f"{question.text} {next(o.words for o in question.options if o.value == question.chosen)} was taken"
        for question in song.questions
        if not question.sure
    )
    return (*song.told, *(notice.what for notice in song.notices), *taken)


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
