"""Prints under way and just done: one at a time, a few kept for a while, all stopped with the workbench."""

import itertools
import logging
import threading
import time
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import Literal

from fifthwise.book import NotThere
from fifthwise.errors import FifthwiseError
from fifthwise.jobs import JobsCancelled
from fifthwise.stage import Output, print_books
from fifthwise.web.guard import where_rose
from fifthwise.web.unprinted import Unprinted

__all__ = ["KEPT_S", "MOST_RUNS", "MOST_WAITING", "NoSuchPrint", "PrintRun", "PrintRuns", "TooManyPrints"]

KEPT_S = 30 * 60.0  # how long what was printed can be fetched
MOST_RUNS = 6  # whose files are in memory
MOST_WAITING = 3

State = Literal["waiting", "keys", "printing", "done", "stopped", "failed"]
log = logging.getLogger("fifthwise.web")


class NoSuchPrint(NotThere):
    """A print that is not kept, or not any more."""


class TooManyPrints(FifthwiseError):
    """More prints than may wait."""


@dataclass(slots=True)
class PrintRun:
    """One print: what is to be made, how far it is, and what was made.

    Attributes
    ----------
    name : str
        The evening's.
    total, made : int
        Files; 0 until they are known.
    last : str
        What was made last.
    unprinted : tuple of Unprinted
        What print leaves out.
    staff : bool
        Whether tunes stand on a staff too.
    files : dict of str to bytes
        By path, once all are made.
    """

    number: int
    set_id: int
    name: str
    unprinted: tuple[Unprinted, ...] = ()
    staff: bool = False
    state: State = "waiting"
    total: int = 0
    made: int = 0
    last: str = ""
    labels: dict[str, str] = field(default_factory=dict)
    files: dict[str, bytes] = field(default_factory=dict)
    fault: FifthwiseError | None = None
    ended_s: float | None = None
    stop: threading.Event = field(default_factory=threading.Event)

    @property
    def runs(self) -> bool:
        """Whether it is not yet over."""
        return self.ended_s is None


class PrintRuns:
    """The prints of one workbench.

    Parameters
    ----------
    clock : callable
        Seconds that only grow.
    """

    def __init__(self, clock: Callable[[], float] = time.monotonic) -> None:
        self._clock = clock
        self._lock = threading.Lock()
        self._numbers = itertools.count(1)
        self._runs: dict[int, PrintRun] = {}
        self._worker: ThreadPoolExecutor | None = None

    def start(
        self,
        set_id: int,
        name: str,
        outputs: Callable[[], tuple[Output, ...]],
        unprinted: tuple[Unprinted, ...] = (),
        *,
        staff: bool = False,
    ) -> PrintRun:
        """Begin to make an evening's files, once those asked for before are done.

        Parameters
        ----------
        outputs : callable
            Says what is to be made; it may take its time.
        unprinted : tuple of Unprinted
            What print leaves out.
        staff : bool
            Whether tunes stand on a staff too.

        Raises
        ------
        TooManyPrints
            ``MOST_WAITING`` are not yet done.
        """
        with self._lock:
            self._forget()
            if sum(run.runs for run in self._runs.values()) >= MOST_WAITING:
                raise TooManyPrints(
                    f"{MOST_WAITING} prints are not yet done", f"'{name}'", "Wait for one, or stop one"
                )
            run = PrintRun(next(self._numbers), set_id, name, unprinted, staff)
            self._runs[run.number] = run
            if self._worker is None:
                self._worker = ThreadPoolExecutor(1, thread_name_prefix="print")
            self._worker.submit(self._make, run, outputs)
        return run

    def find(self, set_id: int, number: int) -> PrintRun:
        """A print of a set.

        Raises
        ------
        NoSuchPrint
            There is none of that number, or it was too long ago.
        """
        with self._lock:
            self._forget()
            run = self._runs.get(number)
        if run is None or run.set_id != set_id:
            raise NoSuchPrint("this print is not kept any more", f"print {number}", "Print again")
        return run

    def close(self) -> None:
        """Stop all of them."""
        with self._lock:
            for run in self._runs.values():
                run.stop.set()
            worker, self._worker = self._worker, None
        if worker is not None:
            worker.shutdown(wait=True, cancel_futures=True)

    def _forget(self) -> None:
        ended = [run for run in self._runs.values() if run.ended_s is not None]
        old = [run for run in ended if self._clock() - (run.ended_s or 0.0) > KEPT_S]
        for run in (*old, *ended[: max(0, len(ended) - MOST_RUNS)]):
            self._runs.pop(run.number, None)

    def _make(self, run: PrintRun, outputs: Callable[[], tuple[Output, ...]]) -> None:
        state: State = "failed"
        try:
            if not run.stop.is_set():
                self._print(run, outputs)
            state = "stopped" if run.stop.is_set() else "done"
        except JobsCancelled:
            state = "stopped"
        except FifthwiseError as fault:
            run.fault = fault
        except Exception as error:
            log.error("a print failed: %s", where_rose(error))
        run.state, run.ended_s = state, self._clock()

    def _print(self, run: PrintRun, outputs: Callable[[], tuple[Output, ...]]) -> None:
        run.state = "keys"
        wanted = outputs()
        run.labels = {output.path: output.label for output in wanted}
        run.total, run.state = len(wanted), "printing"

        def told(label: str) -> None:
            run.last, run.made = label, run.made + 1

        run.files = print_books(wanted, on_done=told, cancelled=run.stop.is_set)
