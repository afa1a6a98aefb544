"""What can happen to a book's file: each is told with its mend, and the file stays as it is."""

import os
import resource
import shutil
import subprocess
import sys
import tempfile
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest

from fifthwise.book import (
    BookAway,
    BookLocked,
    NotABook,
    add_song,
    daily_backup,
    open_book,
    song,
    songs,
)
from fifthwise.book.engine import writing
from fifthwise.book.schema import MARK, REVISIONS
from tests.book.old_books import brought_to
from tests.book.texts import tune

TODAY = date(2026, 12, 5)
MEND = r"Put its backup of 2026-12-05 back, .*backups/band-2026-12-05\.sqlite, with: fifthwise book put-back"
COUNT = 40
FILLING = f"<!-- {'x' * 3000} -->\n"  # so that songs, not empty tables, make up most of the file
NOBODY = 65534
LARGE = f"{tune('Large')}<!-- {'x' * 900_000} -->\n"
# Takes the book for itself, says so, and holds on until it is killed.
HOLDER = """
import sqlite3, sys, time
connection = sqlite3.connect(sys.argv[1], isolation_level=None)
connection.execute("BEGIN EXCLUSIVE")
print("held", flush=True)
time.sleep(600)
"""


@pytest.fixture
def path():
    """A book of some pages with a backup, closed, where anybody may look."""
    folder = Path(tempfile.mkdtemp(prefix="fifthwise-book-"))
    folder.chmod(0o755)
    path = folder / "band.sqlite"
    with open_book(path) as book:
        for number in range(COUNT):
            add_song(book, f"{tune(f'Song {number}')}{FILLING}")
        daily_backup(book, TODAY)
    yield path
    shutil.rmtree(folder)


def overwritten(raw):
    """Nonsense over the middle half, as a failing disk leaves it."""
    start, end = len(raw) // 4, len(raw) * 3 // 4
    return raw[:start] + b"\xa5" * (end - start) + raw[end:]


@pytest.mark.parametrize(
    "damage",
    [
        overwritten,
        lambda raw: raw[: len(raw) // 2],
        lambda raw: raw[:50],
        lambda raw: b"",
        lambda raw: bytes(100) + raw[100:],
        lambda raw: bytes(len(raw)),
        lambda raw: raw[:100] + bytes(4096) + raw[4196:],
    ],
    ids=["middle", "half", "stump", "nothing", "head", "zeros", "first page"],
)
def test_a_damaged_file_is_told_and_left_as_it_is(path, damage):
    """Opening it or reading all of it names the newest backup; not a byte of the file is changed."""
    after = damage(path.read_bytes())
    path.write_bytes(after)

    def read_all():
        with open_book(path) as book:
            return [song(book, row.id) for row in songs(book)]

    with pytest.raises(NotABook, match=MEND):
        read_all()
    assert path.read_bytes() == after


def test_a_damaged_file_without_a_backup_is_told_too(path):
    """The mend then names none."""
    shutil.rmtree(path.parent / "backups")
    path.write_bytes(path.read_bytes()[:9000])
    with pytest.raises(NotABook, match=r"damaged. Go back to the newest backup\."):
        open_book(path)


def test_a_file_too_large_for_its_owner_is_told(path):
    """The system's own bound on a file's size stands in for the disk; the songs from before stay."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    with open_book(path) as book:
        resource.setrlimit(resource.RLIMIT_FSIZE, (path.stat().st_size // 2, hard))
        try:
            with pytest.raises(BookAway, match=r"disk"):
                add_song(book, LARGE)
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))
        assert len(songs(book)) == COUNT
        add_song(book, tune("After"))


def test_a_full_disk_is_told_and_nothing_is_lost(path, tmp_path):
    """On a disk of one megabyte; once there is room again, the same open book goes on."""
    disk = tmp_path / "disk"
    disk.mkdir()
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=1m", "tmpfs", disk], check=False)
    if mounted.returncode:
        pytest.skip("only root mounts a small disk")
    try:
        shutil.copyfile(path, disk / "band.sqlite")
        with open_book(disk / "band.sqlite") as book:
            (disk / "ballast").write_bytes(bytes(100_000))
            with pytest.raises(BookAway, match=r"the disk is full. Make room, then save again"):
                add_song(book, LARGE)
            assert len(songs(book)) == COUNT
            with pytest.raises(BookAway, match=r"disk is full|No space left"):
                daily_backup(book, TODAY)
            assert not list((disk / "backups").glob(".*"))
            shutil.rmtree(disk / "backups")
            (disk / "ballast").unlink()
            add_song(book, tune("After"))
        with open_book(disk / "band.sqlite") as book:
            assert len(songs(book)) == COUNT + 1
    finally:
        subprocess.run(["umount", disk], check=True)


@contextmanager
def as_anybody():
    """Let root be held by permissions as everybody else is."""
    is_root = os.geteuid() == 0
    if is_root:
        os.seteuid(NOBODY)
    try:
        yield
    finally:
        if is_root:
            os.seteuid(0)


@pytest.mark.parametrize("mode", [0o444, 0o000])
def test_a_file_that_may_not_be_written_is_told(path, mode):
    """Read-only or shut: a save says which permissions to look at, and changes nothing."""
    path.chmod(mode)
    path.parent.chmod(0o777)
    before = path.read_bytes()
    words = "may not be written|cannot be opened|may not be opened"
    with as_anybody(), pytest.raises(BookAway, match=rf"({words}).*[Cc]heck .*its permissions"):
        add_song(open_book(path), tune())
    assert path.read_bytes() == before


def test_a_folder_that_may_not_be_written_is_told(path):
    """SQLite needs its log beside the book."""
    path.chmod(0o666)
    path.parent.chmod(0o555)
    before = path.read_bytes()
    with as_anybody(), pytest.raises(BookAway, match=r"Check .*its permissions"):
        add_song(open_book(path), tune())
    assert path.read_bytes() == before


def test_a_book_that_another_program_holds_is_told(path):
    """Readers go on; a writer is refused once it has waited, and goes on when the other is gone."""
    with subprocess.Popen(
        [sys.executable, "-c", HOLDER, str(path)], stdout=subprocess.PIPE, text=True
    ) as holder:
        try:
            assert holder.stdout.readline() == "held\n"
            before = path.read_bytes()
            with open_book(path, wait_ms=50) as book:
                assert len(songs(book)) == COUNT
                with pytest.raises(
                    BookLocked, match=r"another program is writing in this book. Wait a little"
                ):
                    add_song(book, tune())
            assert path.read_bytes() == before
        finally:
            holder.kill()
    with open_book(path) as book:
        add_song(book, tune())


def test_an_older_book_that_may_not_be_written_is_told(path):
    """It cannot be brought up to date; the reason is told, and not a byte is changed."""
    path.unlink()
    with brought_to(path, REVISIONS[0]):
        pass
    path.chmod(0o444)
    path.parent.chmod(0o777)
    before = path.read_bytes()
    with (
        as_anybody(),
        pytest.raises(BookAway, match=r"this book may not be written to. Check its permissions"),
    ):
        open_book(path)
    assert path.read_bytes() == before
    path.chmod(0o666)
    with open_book(path) as book:
        assert songs(book) == ()


def test_a_book_without_its_mark_is_told(path):
    """Which shape it has cannot be known, so nothing is made in it."""
    with open_book(path) as book, writing(book) as connection:
        connection.execute(MARK.delete())
    before = path.read_bytes()
    with pytest.raises(NotABook, match=MEND):
        open_book(path)
    assert path.read_bytes() == before


@pytest.mark.skipif(os.name == "nt", reason="an open file cannot be moved there")
@pytest.mark.parametrize("then", ["gone", "another"])
def test_a_file_that_was_taken_from_under_an_open_book_is_told(path, then):
    """Nothing is read or saved that nobody would see; back in its place, the same open book goes on."""
    aside = path.with_suffix(".aside")
    with open_book(path) as book:
        path.rename(aside)
        if then == "another":
            shutil.copyfile(aside, path)
        after = path.read_bytes() if path.exists() else None
        for work in (lambda: add_song(book, tune()), lambda: songs(book)):
            with pytest.raises(BookAway, match=r"file is not the one that was opened. Stop every fifthwise"):
                work()
        assert (path.read_bytes() if path.exists() else None) == after
        aside.rename(path)
        add_song(book, tune())
        assert len(songs(book)) == COUNT + 1
