"""Worker processes that stay for the next work, each with what it has learned.

A worker does one item at a time, so that one that dies takes no other item with it.
"""

import multiprocessing
import multiprocessing.util
import os
import signal
import sys
import threading
from collections.abc import Callable, Hashable
from concurrent.futures import Future, ProcessPoolExecutor
from types import TracebackType
from typing import Any, Self

__all__ = ["Workers"]


class Workers:
    """So many worker processes, started when they are first needed.

    An item with a key goes to the worker that did that key before, which may have kept something of it.

    Parameters
    ----------
    count : int
        How many, at least 1.
    most_mb : int or None
        A worker that has used more memory than this is ended after its item, and what it kept is lost.
        ``None`` lets it grow.
    """

    def __init__(self, count: int, *, most_mb: int | None = None) -> None:
        if count < 1:
            raise ValueError("there must be at least one worker")
        self.count = count
        self.most_mb = most_mb
        self._places: list[ProcessPoolExecutor | None] = [None] * count
        self._did: dict[Hashable, int] = {}
        # A process that multiprocessing started would wait for its own workers for ever. The priority is
        # above that of their queues, which carry the word to end.
        multiprocessing.util.Finalize(self, _end_all, (self._places,), exitpriority=100)

    def __enter__(self) -> Self:
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        self.close()

    def place_of(self, key: Hashable) -> int | None:
        """Which worker did a key before; ``None`` for a new one."""
        return self._did.get(key)

    def start(self, place: int, key: Hashable, function: Callable[[Any], Any], item: Any) -> Future[Any]:
        """Let one worker, which must be idle, do one item; gives the result and the memory used, in MB."""
        self._did[key] = place
        worker = self._places[place]
        if worker is None:
            # Spawned, not forked: a web server has threads, and a fork would copy their locks.
            worker = self._places[place] = ProcessPoolExecutor(
                1, mp_context=multiprocessing.get_context("spawn"), initializer=_begin
            )
        return worker.submit(_measured, function, item)

    def stop(self, place: int) -> None:
        """End one worker at once, whatever it does; the next item gets a new one."""
        worker, self._places[place] = self._places[place], None
        self._did = {key: where for key, where in self._did.items() if where != place}
        if worker is not None:
            for process in (worker._processes or {}).values():  # terminate_workers() came with Python 3.14
                process.terminate()
            worker.shutdown(wait=True, cancel_futures=True)

    def close(self) -> None:
        """End every worker once it is idle."""
        _end_all(self._places)
        self._did = {}


def _end_all(places: list[ProcessPoolExecutor | None]) -> None:
    for place, worker in enumerate(places):
        places[place] = None
        if worker is not None:
            worker.shutdown()


def _measured(function: Callable[[Any], Any], item: Any) -> tuple[Any, int]:
    return function(item), _peak_mb()


def _peak_mb() -> int:
    """The most memory that this process has used; 0 where the system does not say."""
    if sys.platform == "win32":
        return 0
    import resource

    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak // (1 << 20 if sys.platform == "darwin" else 1 << 10)


def _begin() -> None:
    """In a new worker: Ctrl-C is the parent's affair, and no worker outlives its parent."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
