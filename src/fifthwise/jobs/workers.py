"""Worker processes that stay for the next work, each with what it has learned.

A worker does one item at a time, so that one that dies takes no other item with it.
"""

import multiprocessing
import os
import signal
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
    """

    def __init__(self, count: int) -> None:
        if count < 1:
            raise ValueError("there must be at least one worker")
        self.count = count
        self._places: list[ProcessPoolExecutor | None] = [None] * count
        self._did: dict[Hashable, int] = {}

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
        """Let one worker, which must be idle, do one item."""
        self._did[key] = place
        worker = self._places[place]
        if worker is None:
            # Spawned, not forked: a web server has threads, and a fork would copy their locks.
            worker = self._places[place] = ProcessPoolExecutor(
                1, mp_context=multiprocessing.get_context("spawn"), initializer=_begin
            )
        return worker.submit(function, item)

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
        for worker in self._places:
            if worker is not None:
                worker.shutdown()
        self._places = [None] * self.count
        self._did = {}


def _begin() -> None:
    """In a new worker: Ctrl-C is the parent's affair, and no worker outlives its parent."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    threading.Thread(target=_end_with_parent, daemon=True).start()


def _end_with_parent() -> None:
    parent = multiprocessing.parent_process()
    if parent is not None:
        parent.join()
        os._exit(1)
