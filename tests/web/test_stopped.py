"""A workbench that is stopped by Ctrl+C or a signal, with what it has started."""

import re
import signal
import subprocess
import time

import pytest

from fifthwise.book import KeptSetSong, SetOrder, add_player, add_set, add_song, open_book
from tests.book.people import a_player
from tests.book.texts import tune
from tests.serving import BOOK, serving

MANY = 60  # songs in a set that takes a while to print
PRINTING = r">\d+ of \d+"
PRINTED = "All as one ZIP"


@pytest.fixture
def folder(tmp_path):
    """A book with a set that is worth a process for its print."""
    with open_book(tmp_path / BOOK) as book:
        numbers = [add_song(book, tune(f"Tide {n}", "1 4 | 5 1\n" * 20)).id for n in range(MANY)]
        player = add_player(book, a_player()).id
        add_set(book, SetOrder("Night", player_ids=(player,), songs=tuple(map(KeptSetSong, numbers))))
    return tmp_path


def children(process):
    """The processes that a process has started, as the system lists them."""
    listed = subprocess.run(["ps", "-eo", "pid=,ppid="], capture_output=True, text=True, check=True).stdout
    pairs = [tuple(map(int, line.split())) for line in listed.splitlines()]
    return [pid for pid, parent in pairs if parent == process]


def workers_once(state, visitor, at, process):
    """The workers of a workbench, once the page of its print says so."""
    until = time.monotonic() + 60
    while time.monotonic() < until:
        workers = children(process)
        # Beside the workers there is the one that keeps track of what they share.
        if len(workers) > 1 and re.search(state, visitor.get(at).text):
            return workers
        time.sleep(0.02)
    raise AssertionError(visitor.get(at).text)


def is_alive(pid):
    """Whether a process still runs; one that has ended may be listed until somebody asks how."""
    asked = ["ps", "-o", "stat=", "-p", str(pid)]
    state = subprocess.run(asked, capture_output=True, text=True, check=False).stdout.strip()
    return bool(state) and not state.startswith("Z")


@pytest.mark.parametrize("sent", [signal.SIGINT, signal.SIGTERM])
@pytest.mark.parametrize("state", [PRINTING, PRINTED], ids=["printing", "printed"])
def test_a_workbench_that_is_stopped_ends_soon(folder, state, sent):
    """Within some seconds, with all that printed, and Python has nothing to say about it."""
    with serving(folder) as served, served.visitor() as visitor:
        at = visitor.post("/sets/1/print").headers["location"]
        workers = workers_once(state, visitor, at, served.run.pid)
        served.run.send_signal(sent)
        assert served.run.wait(timeout=10) in (0, -sent)
        time.sleep(0.3)
        assert not any(map(is_alive, workers))
        log = served.log()
    for words in ("Traceback", "leaked", "Warning", "ERROR"):
        assert words not in log
