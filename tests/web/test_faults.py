"""What befalls the book under a workbench that runs: it is told, what was typed stays, and work goes on."""

import os
import re
import resource
import sqlite3
import subprocess
import sys
from contextlib import closing
from html import unescape

import pytest

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_set,
    add_singer,
    add_song,
    check_book,
    kept_set,
    newest_backup,
    open_book,
    song,
    songs,
)
from fifthwise.book.engine import writing
from fifthwise.book.schema import MARK, REVISIONS
from tests.book.old_books import brought_to
from tests.book.people import a_singer
from tests.book.test_damage import HOLDER
from tests.book.texts import tune
from tests.serving import BOOK, serve_command, serving

AWAY = 503
NEW = tune("Typed Tide")
# A save of each kind: its address, what its form brings, and what of that must stand in the answer.
SAVES = (
    ("/songs/new", {"text": NEW, "version": "0"}, NEW),
    ("/songs/1/edit", {"text": NEW, "version": "1"}, NEW),
    ("/songs/import/paste", {"text": "Title: Typed Tide\nKey: G\n| G | C |"}, "\nKey: G\n| G | C |"),
    ("/sets", {"name": "Typed Night", "date": "a Friday"}, 'value="a Friday"'),
    ("/sets/1", {"songs": "1", "key-1": "Ab", "version": "1"}, "no singer, in A♭"),
    ("/sets/1/head", {"name": "Typed Night", "version": "1"}, 'value="Typed Night"'),
    (
        "/singers/new",
        {"name": "Typed", "low": "A3", "high": "D5", "easy_low": "C4", "easy_high": "B4"},
        'value="Typed"',
    ),
    (
        "/singers/1",
        {"name": "Typed", "low": "A3", "high": "D5", "easy_low": "C4", "easy_high": "B4", "version": "1"},
        'value="Typed"',
    ),
    ("/players/new", {"name": "Typed", "instrument": "violin"}, 'value="Typed"'),
)
# Where the system can take it from root, root is held by permissions as everybody else is.
AS_ANYBODY = ("setpriv", "--bounding-set=-dac_override") if os.geteuid() == 0 else ()


@pytest.fixture
def folder(tmp_path):
    """A book with a song, a singer and a set."""
    with open_book(tmp_path / BOOK) as book:
        add_song(book, tune())
        add_singer(book, a_singer())
        add_set(book, SetOrder("Night", songs=(KeptSetSong(1),)))
    return tmp_path


def kept(folder):
    """All that the pages of a book can tell."""
    with open_book(folder / BOOK) as book:
        return [song(book, row.id) for row in songs(book)], kept_set(book, 1)


def assert_told(answer, words, stays):
    """The trouble is told, and what was typed stands in the page."""
    assert answer.status_code == AWAY
    assert words in re.search(r'role="alert">(.*?)</div>', answer.text, re.DOTALL)[1]
    assert stays in unescape(answer.text)


def assert_reads_on(visitor):
    """All pages are there."""
    for address in ("/songs", "/songs/1", "/sets", "/sets/1", "/singers/1"):
        assert visitor.get(address).status_code == 200


def assert_saves(visitor):
    """A save is kept."""
    assert visitor.post("/songs/new", data={"text": NEW, "version": "0"}).status_code == 303


def test_a_disk_without_room_is_told_and_what_was_typed_stays(folder):
    """A bound on its files' size stands in for the disk; with room again, saving works without a restart."""
    before = kept(folder)
    with serving(folder) as served, served.visitor() as visitor:
        visitor.get("/songs")
        none, limit = (0, resource.RLIM_INFINITY), resource.RLIMIT_FSIZE
        resource.prlimit(served.run.pid, limit, none)
        for address, form, stays in SAVES:
            assert_told(visitor.post(address, data=form), "cannot be read or written", stays)
        assert_reads_on(visitor)
        assert kept(folder) == before
        resource.prlimit(served.run.pid, limit, (resource.RLIM_INFINITY, resource.RLIM_INFINITY))
        assert_saves(visitor)


def test_a_book_that_another_program_holds_is_told_and_what_was_typed_stays(folder):
    """Readers go on; when the other is gone, saving works without a restart."""
    before = kept(folder)
    command = [sys.executable, "-c", HOLDER, folder / BOOK]
    with serving(folder) as served, served.visitor() as visitor:
        with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as holder:
            assert holder.stdout.readline() == "held\n"
            address, form, stays = SAVES[0]
            assert_told(visitor.post(address, data=form), "another program is writing", stays)
            assert_reads_on(visitor)
            holder.kill()
        assert kept(folder) == before
        assert_saves(visitor)


def test_a_book_that_may_not_be_written_is_told_and_what_was_typed_stays(folder):
    """It is read; once it may be written to, saving works without a restart."""
    file = folder / BOOK
    before = file.read_bytes()
    file.chmod(0o444)
    with serving(folder, bound=AS_ANYBODY) as served, served.visitor() as visitor:
        for address, form, stays in SAVES:
            assert_told(visitor.post(address, data=form), "may not be written to", stays)
        assert_reads_on(visitor)
        assert file.read_bytes() == before
        # SQLite gave the files beside it the book's own permissions.
        for each in (file, *folder.glob(f"{BOOK}-*")):
            each.chmod(0o644)
        # A connection from before may still be in use; the first save that fails on it ends them all.
        visitor.post("/songs/new", data={"text": NEW, "version": "0"})
        assert_saves(visitor)


def test_a_book_of_a_newer_fifthwise_is_refused(folder):
    """With the mend and exit code 2; not a byte is changed."""
    with open_book(folder / BOOK) as book, writing(book) as connection:
        connection.execute(MARK.update().values(version_num="9999"))
    before = (folder / BOOK).read_bytes()
    run = subprocess.run(serve_command(folder, "--port", "0"), capture_output=True, text=True, check=False)
    assert run.returncode == 2
    assert "made by a newer fifthwise. Install the newest fifthwise." in run.stderr
    assert "Traceback" not in run.stderr
    assert (folder / BOOK).read_bytes() == before


def test_a_book_of_an_older_fifthwise_is_brought_up_to_date(tmp_path):
    """It is served, and lies beside itself as it was."""
    with brought_to(tmp_path / BOOK, REVISIONS[0]):
        pass
    with serving(tmp_path) as served, served.visitor() as visitor:
        assert_saves(visitor)
    with closing(sqlite3.connect(tmp_path / "backups" / f"b-shape-{REVISIONS[0]}.sqlite")) as copy:
        assert copy.execute("SELECT version_num FROM alembic_version").fetchall() == [(REVISIONS[0],)]
        assert copy.execute("SELECT * FROM song").fetchall() == []
    with open_book(tmp_path / BOOK) as book:
        assert check_book(book) == ()


def test_a_book_that_is_damaged_under_a_workbench_is_told(folder):
    """The page says to start again; the start says what is wrong, and offers the newest backup."""
    with open_book(folder / BOOK) as book:
        for number in range(60):  # more than SQLite keeps in memory
            add_song(book, f"{tune(f'Tide {number}')}<!-- {'x' * 60_000} -->\n")
    with serving(folder) as served, served.visitor() as visitor:
        assert newest_backup(folder / BOOK) is not None
        spoilt = (folder / BOOK).read_bytes()
        (folder / BOOK).write_bytes(spoilt[:4096] + b"\xa5" * (len(spoilt) - 4096))
        answer = visitor.get("/songs")
        assert answer.status_code == AWAY
        assert "this book is damaged" in answer.text
        assert "stop the workbench and start it again: it then offers the newest backup" in answer.text
        address, form, stays = SAVES[0]
        assert_told(visitor.post(address, data=form), "this book is damaged", stays)
    with serving(folder) as served, served.visitor() as visitor:
        page = visitor.get("/songs")
        assert page.status_code == AWAY
        assert "Go back to that backup" in page.text
        assert visitor.post("/rescue").status_code == 303
        assert "Slack Water" in visitor.get("/songs").text
        assert_saves(visitor)
