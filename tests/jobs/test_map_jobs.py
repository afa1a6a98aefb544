"""Work over processes: order, errors, killed workers, progress and cancelling."""

import multiprocessing
import os
import signal
import time

import pytest

from fifthwise.jobs import JobsCancelled, WorkerDied, Workers, map_jobs, usable_cores

both_ways = pytest.mark.parametrize("workers", [1, 2])


def square(number):
    """A number times itself."""
    return number * number


def square_unless_three(number):
    """Fails on three."""
    if number == 3:
        raise ValueError("three is not squared")
    return number * number


def die_on_three(number):
    """Kills its own process on three."""
    if number == 3:
        os.kill(os.getpid(), signal.SIGKILL)
    return number * number


def process_of(_):
    """The process that does it."""
    return os.getpid()


def sleep_long(_):
    """Lasts longer than any test."""
    time.sleep(600)


STANDING = []


def leave_workers_standing():
    """Works with workers of its own and closes none of them."""
    STANDING.append(Workers(2))
    map_jobs(square, range(2), workers=STANDING[0])


class Unpicklable(Exception):
    """An error that does not come back from another process."""

    def __init__(self, first, second):
        super().__init__(first)


def fail_unpicklably(_):
    """Fails with an error that cannot be read back."""
    raise Unpicklable("one", "two")


@both_ways
def test_results_come_in_order(workers):
    """Whichever is done first, the results stand as the items did; every item is told done once."""
    told = []
    outcomes = map_jobs(square, range(7), workers=workers, on_done=told.append)
    assert [outcome.get() for outcome in outcomes] == [0, 1, 4, 9, 16, 25, 36]
    assert sorted(told) == list(range(7))


@both_ways
def test_nothing_to_do_is_done_at_once(workers):
    """No item, no outcome."""
    assert map_jobs(square, [], workers=workers) == []


@both_ways
def test_a_failing_item_tells_its_own_error(workers):
    """The others have their results."""
    outcomes = map_jobs(square_unless_three, range(5), workers=workers)
    assert [outcome.value for outcome in outcomes] == [0, 1, 4, None, 16]
    with pytest.raises(ValueError, match="three is not squared"):
        outcomes[3].get()


def test_a_killed_worker_fails_its_own_item_alone():
    """Its item is told so; all others are done, by a new worker where need be."""
    outcomes = map_jobs(die_on_three, range(8), workers=2)
    assert [outcome.value for outcome in outcomes] == [0, 1, 4, None, 16, 25, 36, 49]
    with pytest.raises(WorkerDied, match="item 4 ended without an answer"):
        outcomes[3].get()


def test_an_error_that_cannot_be_sent_fails_its_item_alone():
    """It is told as a failure, not left hanging."""
    outcomes = map_jobs(fail_unpicklably, range(2), workers=2)
    assert all(outcome.error is not None for outcome in outcomes)


def test_work_that_is_no_longer_wanted_is_stopped():
    """Items that would last minutes end when the caller wants no more."""
    start = time.monotonic()
    with Workers(2) as workers, pytest.raises(JobsCancelled):
        map_jobs(sleep_long, range(4), workers=workers, cancelled=lambda: time.monotonic() - start > 1)
    assert time.monotonic() - start < 60


def test_cancelled_in_this_process_does_no_further_item():
    """One process asks before every item."""
    told = []
    with pytest.raises(JobsCancelled):
        map_jobs(square, range(9), workers=1, on_done=told.append, cancelled=lambda: len(told) == 2)
    assert told == [0, 1]


def test_standing_workers_get_the_keys_that_they_did_before():
    """A second round in another order meets the same processes, none of them this one."""
    with Workers(2) as workers:
        first = map_jobs(process_of, [0] * 6, workers=workers, keys="abcdef")
        did = {key: outcome.get() for key, outcome in zip("abcdef", first, strict=True)}
        again = map_jobs(process_of, [0] * 6, workers=workers, keys="fedcba")
    assert [outcome.get() for outcome in again] == [did[key] for key in "fedcba"]
    assert os.getpid() not in did.values()


def test_standing_workers_go_on_after_one_was_killed():
    """A round after a death has every result."""
    with Workers(1) as workers:
        map_jobs(die_on_three, [3], workers=workers)
        assert map_jobs(square, [5], workers=workers)[0].get() == 25


def test_a_process_ends_with_its_standing_workers():
    """One that another process started, such as a server's, does not wait for them for ever."""
    process = multiprocessing.get_context("spawn").Process(target=leave_workers_standing)
    process.start()
    process.join(60)
    left, code = process.is_alive(), process.exitcode
    process.kill()
    process.join()
    assert not left
    assert code == 0


def test_a_worker_that_has_grown_too_large_is_replaced():
    """Every item is done, each by a new process where none may grow at all."""
    with Workers(1, most_mb=1) as workers:
        outcomes = map_jobs(process_of, range(3), workers=workers)
    assert len({outcome.get() for outcome in outcomes}) == 3


def test_there_is_a_core_to_work_on():
    """A process may use at least one core, and no more than the machine has."""
    assert 1 <= usable_cores() <= (os.cpu_count() or 1)


def test_no_workers_are_refused():
    """Zero workers would wait for ever."""
    with pytest.raises(ValueError, match="at least one worker"):
        Workers(0)
