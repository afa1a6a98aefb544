"""Prints under way: one after the other, bounded, stopped, forgotten."""

import threading

import pytest

from fifthwise.errors import FifthwiseError
from fifthwise.evening import Evening
from fifthwise.stage import books, plan
from fifthwise.web import print_runs
from fifthwise.web.print_runs import MOST_RUNS, MOST_WAITING, NoSuchPrint, PrintRuns, TooManyPrints

WAIT_S = 20
EMPTY = books(plan(Evening("Empty", None, (), (), ()), {}))[-1:]  # the summary alone


class Clock:
    """Seconds that a test moves."""

    now = 0.0

    def __call__(self):
        """The time."""
        return self.now


@pytest.fixture
def clock():
    """A clock at its beginning."""
    return Clock()


@pytest.fixture
def runs(clock):
    """No print yet."""
    made = PrintRuns(clock)
    yield made
    made.close()


def ended(run):
    """The print, once it is over."""
    for _ in range(WAIT_S * 100):
        if not run.runs:
            return run
        threading.Event().wait(0.01)
    raise AssertionError(f"print {run.number} does not end: {run.state}")


def test_what_was_printed_can_be_fetched(runs):
    """Its files by path, and what was made last."""
    run = ended(runs.start(3, "Evening", lambda: EMPTY))
    assert runs.find(3, run.number) is run
    assert (run.state, run.made, run.total, run.last) == ("done", 1, 1, "summary")
    assert run.files["summary.md"].startswith(b"# Empty")


def test_a_print_belongs_to_its_set(runs):
    """Another set has no such print."""
    run = ended(runs.start(3, "Evening", lambda: EMPTY))
    with pytest.raises(NoSuchPrint, match="not kept any more"):
        runs.find(4, run.number)


def test_a_print_is_forgotten_after_a_time(runs, clock):
    """Its files are let go, and that is told."""
    run = ended(runs.start(3, "Evening", lambda: EMPTY))
    clock.now = print_runs.KEPT_S
    assert runs.find(3, run.number) is run
    clock.now += 1
    with pytest.raises(NoSuchPrint):
        runs.find(3, run.number)


def test_few_prints_are_kept(runs):
    """The oldest goes first."""
    made = [ended(runs.start(3, "Evening", lambda: EMPTY)) for _ in range(MOST_RUNS + 1)]
    assert runs.find(3, made[1].number) is made[1]
    with pytest.raises(NoSuchPrint):
        runs.find(3, made[0].number)


def test_few_prints_wait(runs):
    """One more is refused, and may come when they are done."""
    gate = threading.Event()

    def held():
        gate.wait(WAIT_S)
        return EMPTY

    waiting = [runs.start(3, "Evening", held) for _ in range(MOST_WAITING)]
    with pytest.raises(TooManyPrints, match="Wait for one, or stop one"):
        runs.start(3, "Evening", held)
    gate.set()
    assert [ended(run).state for run in waiting] == ["done"] * MOST_WAITING
    assert ended(runs.start(3, "Evening", held)).state == "done"


def test_a_print_is_stopped(runs):
    """One under way, and one that waits, without a file of them."""
    gate, begun = threading.Event(), threading.Event()

    def held():
        begun.set()
        gate.wait(WAIT_S)
        return EMPTY

    first, second = (runs.start(3, "Evening", held) for _ in range(2))
    assert begun.wait(WAIT_S)
    first.stop.set()
    second.stop.set()
    gate.set()
    assert (ended(first).state, first.files) == ("stopped", {})
    assert (ended(second).state, second.files) == ("stopped", {})


def test_a_fault_is_kept_for_its_page(runs, caplog):
    """What is wrong with the evening is told there; another error goes to the log, without its words."""

    def faulty():
        raise FifthwiseError("no ink", "printer", "Fill it")

    def broken():
        raise ZeroDivisionError("Slack Water")

    found = ended(runs.start(3, "Evening", faulty))
    assert (found.state, found.fault.what) == ("failed", "no ink")
    found = ended(runs.start(3, "Evening", broken))
    assert (found.state, found.fault) == ("failed", None)
    assert "ZeroDivisionError at " in caplog.text
    assert "Slack Water" not in caplog.text


def test_closing_stops_what_is_under_way(clock):
    """No print outlives its workbench."""
    runs, begun = PrintRuns(clock), threading.Event()

    def held():
        begun.set()
        return EMPTY * 10_000

    run = runs.start(3, "Evening", held)
    assert begun.wait(WAIT_S)
    runs.close()
    assert not run.runs
