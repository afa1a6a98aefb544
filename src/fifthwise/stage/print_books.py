"""An evening's books printed: on all cores, and a second time only what has changed.

Every core has a worker process that stays for the next print. It keeps what it set, so that a book in which
one song has changed costs that song and the writing of the file.
"""

import os
import pickle
import threading
from collections.abc import Callable, Sequence
from functools import lru_cache
from typing import Any

from fifthwise.errors import FifthwiseError
from fifthwise.jobs import Outcome, WorkerDied, Workers, map_jobs, usable_cores
from fifthwise.stage.books import Output
from fifthwise.stage.tonight import Tonight

__all__ = ["PrintFault", "end_printing", "print_books"]

# Songs that are worth the start of a process.
SONGS_A_WORKER = 30


class PrintFault(FifthwiseError):
    """A book that could not be made, through no fault of the evening."""


class _Press:
    """The standing workers; one print at a time."""

    def __init__(self) -> None:
        self.lock = threading.Lock()
        self._workers: Workers | None = None

    def workers(self, count: int) -> Workers:
        if self._workers is None or self._workers.count != count:
            if self._workers is not None:
                self._workers.close()
            self._workers = Workers(count, most_mb=_most_mb(count))
        return self._workers

    def close(self) -> None:
        """End the workers, once the print under way is over."""
        with self.lock:
            workers, self._workers = self._workers, None
        if workers is not None:
            workers.close()


_PRESS = _Press()


def print_books(
    outputs: Sequence[Output],
    *,
    workers: int | None = None,
    on_done: Callable[[str], None] | None = None,
    cancelled: Callable[[], bool] | None = None,
) -> dict[str, bytes]:
    """Make some of an evening's files, each the same bytes as ``Output.make`` gives.

    Parameters
    ----------
    workers : int or None
        How many processes; 1 works in this one. ``None`` takes what the evening is worth, at most one a core.
    on_done : callable
        Called with an output's label when it is made, in any order.
    cancelled : callable
        Asked often; what is under way is stopped where it says yes.

    Returns
    -------
    dict of str to bytes
        By path, in the order of ``outputs``.

    Raises
    ------
    PrintFault
        The process that made a book was ended. All others were made first.
    JobsCancelled
        ``cancelled`` said yes.
    """
    told = on_done or _nobody
    large = sorted((output for output in outputs if output.songs), key=lambda output: -output.songs)
    small = [output for output in outputs if not output.songs]
    made = _large(large, workers, told, cancelled)
    made |= _here(small, told, cancelled)
    return {output.path: _bytes(output, made[output.path]) for output in outputs}


def end_printing() -> None:
    """End the standing workers, once the print under way is over; the next print starts new ones."""
    _PRESS.close()


def _nobody(label: str) -> None:
    """Nobody is told."""


def _here(
    outputs: Sequence[Output], told: Callable[[str], None], cancelled: Callable[[], bool] | None
) -> dict[str, Outcome[bytes]]:
    """Made in this process."""
    outcomes = map_jobs(
        Output.make, outputs, workers=1, on_done=lambda i: told(outputs[i].label), cancelled=cancelled
    )
    return {output.path: outcome for output, outcome in zip(outputs, outcomes, strict=True)}


def _large(
    outputs: Sequence[Output],
    workers: int | None,
    told: Callable[[str], None],
    cancelled: Callable[[], bool] | None,
) -> dict[str, Outcome[bytes]]:
    """Made by the standing workers, where that is worth the start of one."""
    count = min(_worth(outputs) if workers is None else workers, len(outputs))
    if workers == 1 or count < 1:
        return _here(outputs, told, cancelled)
    evenings = {id(output.tonight): output.tonight for output in outputs}
    texts = {key: pickle.dumps(tonight) for key, tonight in evenings.items()}
    items = [(texts[id(output.tonight)], output.work) for output in outputs]
    with _PRESS.lock:
        outcomes = map_jobs(
            _made,
            items,
            workers=_PRESS.workers(count),
            on_done=lambda i: told(outputs[i].label),
            cancelled=cancelled,
            keys=[output.path for output in outputs],
        )
    return {output.path: outcome for output, outcome in zip(outputs, outcomes, strict=True)}


def _worth(outputs: Sequence[Output]) -> int:
    """How many processes some outputs are worth; on one core too, since a worker's memory has a bound."""
    return min(usable_cores(), sum(output.songs for output in outputs) // SONGS_A_WORKER)


def _most_mb(count: int) -> int | None:
    """How much a worker may keep: together half of the machine's memory; ``None`` where that is not known."""
    try:
        memory = os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES")
    except (AttributeError, ValueError, OSError):
        return None
    return memory // (1 << 20) // 2 // count


def _made(item: tuple[bytes, Callable[[Tonight], bytes]]) -> bytes:
    """In a worker: one output's bytes."""
    text, work = item
    return work(_tonight(text))


@lru_cache(1)
def _tonight(text: bytes) -> Tonight:
    """The evening, read once for all the books that a worker makes of it."""
    tonight: Any = pickle.loads(text)
    assert isinstance(tonight, Tonight)
    return tonight


def _bytes(output: Output, outcome: Outcome[bytes]) -> bytes:
    try:
        return outcome.get()
    except WorkerDied as fault:
        raise PrintFault(
            "the process that made it was ended, perhaps for want of memory",
            output.path,
            "Close other programs and print again",
        ) from fault
