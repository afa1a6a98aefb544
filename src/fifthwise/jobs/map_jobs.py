"""One function over many items, on as many processes as there are cores."""

import os
from collections.abc import Callable, Hashable, Sequence
from concurrent.futures import FIRST_COMPLETED, Future, wait
from concurrent.futures.process import BrokenProcessPool
from dataclasses import dataclass
from typing import Any, Generic, TypeVar, cast

from fifthwise.jobs.errors import JobsCancelled, WorkerDied
from fifthwise.jobs.workers import Workers

__all__ = ["Outcome", "map_jobs", "usable_cores"]

Item = TypeVar("Item")
Result = TypeVar("Result")
LOOK_S = 0.1  # how often a caller is asked whether the work is still wanted


@dataclass(frozen=True, slots=True)
class Outcome(Generic[Result]):
    """What became of one item: its result, or why there is none."""

    value: Result | None = None
    error: Exception | None = None

    def get(self) -> Result:
        """The result; raises the item's own error where there is none."""
        if self.error is not None:
            raise self.error
        return cast("Result", self.value)


def usable_cores() -> int:
    """How many cores this process may use."""
    if hasattr(os, "sched_getaffinity"):
        return len(os.sched_getaffinity(0))
    return os.cpu_count() or 1


def map_jobs(
    function: Callable[[Item], Result],
    items: Sequence[Item],
    *,
    workers: Workers | int | None = None,
    on_done: Callable[[int], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
    keys: Sequence[Hashable] | None = None,
) -> list[Outcome[Result]]:
    """Do every item, and tell what became of each, in order.

    One failing item, or a worker that dies on one, leaves the others as they are. An item should last some
    milliseconds; smaller ones are better put together by the caller.

    Parameters
    ----------
    function : callable
        A module's own function, so that a worker can import it.
    workers : Workers, int or None
        Standing workers; or how many to start for this; ``None`` starts one a core, 1 works in this process.
    on_done : callable
        Called with an item's index when it is done, in any order.
    cancelled : callable
        Asked often; what is under way is stopped where it says yes.
    keys : sequence of hashable
        One an item: standing workers get the keys that they did before.

    Raises
    ------
    JobsCancelled
        ``cancelled`` said yes.
    """
    if isinstance(workers, Workers):
        return _Round(function, items, workers, on_done, cancelled, keys).outcomes()
    count = min(usable_cores() if workers is None else workers, len(items))
    if count <= 1:
        return _here(function, items, on_done, cancelled)
    with Workers(count) as started:
        return _Round(function, items, started, on_done, cancelled, keys).outcomes()


def _here(
    function: Callable[[Item], Result],
    items: Sequence[Item],
    on_done: Callable[[int], None] | None,
    cancelled: Callable[[], bool] | None,
) -> list[Outcome[Result]]:
    found: list[Outcome[Result]] = []
    for index, item in enumerate(items):
        if cancelled is not None and cancelled():
            raise JobsCancelled
        try:
            found.append(Outcome(function(item)))
        except Exception as error:
            found.append(Outcome(error=error))
        if on_done is not None:
            on_done(index)
    return found


@dataclass(slots=True)
class _Round:
    """One round of items over standing workers."""

    function: Callable[[Any], Any]
    items: Sequence[Any]
    workers: Workers
    on_done: Callable[[int], None] | None
    cancelled: Callable[[], bool] | None
    keys: Sequence[Hashable] | None

    def outcomes(self) -> list[Outcome[Any]]:
        waiting = list(range(len(self.items)))
        running: dict[Future[Any], tuple[int, int]] = {}
        found: dict[int, Outcome[Any]] = {}
        try:
            while waiting or running:
                self._start(waiting, running)
                for future in wait(running, LOOK_S, FIRST_COMPLETED).done:
                    place, index = running.pop(future)
                    found[index] = self._outcome(future, place, index)
                    if self.on_done is not None:
                        self.on_done(index)
                if self.cancelled is not None and self.cancelled():
                    raise JobsCancelled
        finally:
            for place, _ in running.values():
                self.workers.stop(place)
        return [found[index] for index in range(len(self.items))]

    def _start(self, waiting: list[int], running: dict[Future[Any], tuple[int, int]]) -> None:
        busy = {place for place, _ in running.values()}
        for place in range(self.workers.count):
            index = None if place in busy else self._next(waiting, place)
            if index is not None:
                waiting.remove(index)
                future = self.workers.start(place, self._key(index), self.function, self.items[index])
                running[future] = (place, index)

    def _next(self, waiting: list[int], place: int) -> int | None:
        """The first item that is this worker's own, else the first that nobody did before."""
        owners = {index: self.workers.place_of(self._key(index)) for index in waiting}
        for wanted in (place, None):
            for index, owner in owners.items():
                if owner == wanted:
                    return index
        return None

    def _key(self, index: int) -> Hashable:
        return ("item", index) if self.keys is None else self.keys[index]

    def _outcome(self, future: Future[Any], place: int, index: int) -> Outcome[Any]:
        try:
            value, used_mb = future.result()
        except BrokenProcessPool:
            self.workers.stop(place)
            return Outcome(
                error=WorkerDied(f"the process that worked on item {index + 1} ended without an answer")
            )
        except Exception as error:
            return Outcome(error=error)
        if self.workers.most_mb is not None and used_mb > self.workers.most_mb:
            self.workers.stop(place)
        return Outcome(value)
