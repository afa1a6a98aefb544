"""A workbench that is stopped by Ctrl+C or a signal, with what it has started or is being sent."""

import re
import signal
import socket
import subprocess
import time
from contextlib import closing
from datetime import date
from urllib.parse import urlsplit

import pytest

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_player,
    add_set,
    add_song,
    check_book,
    daily_backup,
    open_book,
    songs,
)
from tests.book.people import a_player
from tests.book.texts import tune
from tests.serving import BOOK, serving

MANY = 60  # songs in a set that takes a while to print
PRINTING = r">\d+ of \d+"
PRINTED = "All as one ZIP"
FILES = 4000  # that take far longer to take in than a workbench takes to end
ENDS_S = 10


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


@pytest.mark.parametrize("sent", [signal.SIGINT, signal.SIGTERM, signal.SIGHUP])
def test_a_workbench_that_is_stopped_closes_its_book(folder, sent):
    """Everything is in the one file then: nothing is left in a log beside it."""
    with serving(folder) as served, served.visitor() as visitor:
        assert visitor.post("/songs/new", data={"text": tune("Last Words"), "version": 0}).status_code == 303
        assert (folder / f"{BOOK}-wal").stat().st_size
        served.run.send_signal(sent)
        assert served.run.wait(timeout=ENDS_S) == 0
        assert not (folder / f"{BOOK}-wal").exists()


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


def test_a_workbench_that_was_rescued_ends_soon_too(folder):
    """It was opened late, after the newest backup was put back; what it prints is ended all the same."""
    with open_book(folder / BOOK) as book:
        daily_backup(book, date.today())
    with (folder / BOOK).open("r+b") as file:
        file.write(bytes(100))
    with serving(folder) as served, served.visitor() as visitor:
        assert visitor.post("/rescue").status_code == 303
        at = visitor.post("/sets/1/print").headers["location"]
        workers = workers_once(PRINTING, visitor, at, served.run.pid)
        served.run.send_signal(signal.SIGTERM)
        assert served.run.wait(timeout=ENDS_S) in (0, -signal.SIGTERM)
        time.sleep(0.3)
        assert not any(map(is_alive, workers))
        for words in ("Traceback", "leaked", "Warning", "ERROR"):
            assert words not in served.log()


def test_an_import_is_broken_off_by_the_stop(tmp_path):
    """The workbench ends within seconds; what was taken in by then is kept whole."""
    files = [("files", (f"{n}.chart.md", tune(f"Tide {n}").encode())) for n in range(FILES)]
    with serving(tmp_path) as served, served.visitor() as visitor:
        at = visitor.post("/songs/import", files=files).headers["location"]
        while not re.search(rf"[1-9]\d* of {FILES}", page := visitor.get(at).text):
            assert f"0 of {FILES}" in page
        served.run.send_signal(signal.SIGINT)
        assert served.run.wait(timeout=ENDS_S) == 0
        assert "Traceback" not in served.log()
    with open_book(tmp_path / BOOK) as book:
        assert 0 < len(songs(book)) < FILES
        assert check_book(book) == ()


def test_half_a_form_does_not_hold_the_stop_up(tmp_path):
    """Its sender is told within seconds, nothing of it is kept, and the log has no trace of it."""
    with serving(tmp_path) as served, served.visitor() as visitor:
        visitor.get("/songs")
        here = urlsplit(served.address)
        form = (
            f"POST /songs/new HTTP/1.1\r\nHost: {here.netloc}\r\nOrigin: http://{here.netloc}\r\n"
            "Content-Type: application/x-www-form-urlencoded\r\nContent-Length: 999\r\n\r\ntext=Tide"
        )
        with closing(socket.create_connection((here.hostname, here.port), timeout=ENDS_S)) as sender:
            sender.sendall(form.encode())
            # The server has it by the time it has answered the next one.
            visitor.get("/songs")
            served.run.send_signal(signal.SIGINT)
            assert sender.recv(12) == b"HTTP/1.1 503"
            assert served.run.wait(timeout=ENDS_S) == 0
        log = served.log()
    assert "Traceback" not in log
    assert "Tide" not in log
    with open_book(tmp_path / BOOK) as book:
        assert songs(book) == ()
