"""Backups: whole or not there, made while others save, and put back without losing the damaged book."""

import shutil
import sqlite3
import subprocess
import sys
from contextlib import closing
from datetime import date, timedelta

import pytest

from fifthwise.book import (
    KEPT_BACKUPS,
    BackupFault,
    BookAway,
    NotABook,
    add_song,
    backup,
    daily_backup,
    newest_backup,
    open_book,
    put_back,
    song,
    songs,
    versions,
)
from tests.book.texts import tune

TODAY = date(2026, 12, 5)
# Saves for ever, and says each save's version once the book has acknowledged it.
SAVER = """
import sys
from fifthwise.book import open_book, save_song, song
book = open_book(sys.argv[1])
kept = song(book, 1)
text, version = kept.text, kept.row.version
while True:
    version = save_song(book, 1, f"{text}<!-- {version + 1} -->\\n", version).version
    print(version, flush=True)
"""
# Puts a backup back, or says why not.
PUT_BACK = """
import sys
from pathlib import Path
from fifthwise.book import BookLocked, put_back
try:
    put_back(sys.argv[1], Path(sys.argv[2]))
except BookLocked as fault:
    print(fault)
"""


@pytest.fixture
def path(tmp_path):
    """Where a book with one song is, closed."""
    path = tmp_path / "band.sqlite"
    with open_book(path) as book:
        add_song(book, tune())
    return path


def titles(path):
    """What a book has."""
    with open_book(path) as book:
        return [row.title for row in songs(book)]


def names(folder):
    """What a folder holds."""
    return sorted(path.name for path in folder.iterdir())


def test_a_backup_is_a_book(path, tmp_path):
    """One file with nothing beside it, that opens with the same songs; made again it is replaced."""
    file = tmp_path / "copies" / "band.backup"
    file.parent.mkdir()
    with open_book(path) as book:
        backup(book, file)
        add_song(book, tune("Keel"))
        assert names(file.parent) == ["band.backup"]
        assert titles(file) == ["Slack Water"]
        backup(book, file)
    assert names(file.parent) == ["band.backup"]
    assert titles(file) == ["Keel", "Slack Water"]


def test_a_backup_made_while_another_process_saves_is_whole(path, tmp_path):
    """Each of several backups has all that was acknowledged before it, and every version up to its newest."""
    with subprocess.Popen(
        [sys.executable, "-c", SAVER, str(path)], stdout=subprocess.PIPE, text=True
    ) as saver:
        try:
            with open_book(path) as book:
                for number in range(8):
                    acknowledged = int(saver.stdout.readline())
                    file = tmp_path / f"{number}.backup"
                    backup(book, file)
                    with open_book(file) as copy:
                        kept = versions(copy, 1)
                        assert song(copy, 1).text == kept[-1].text
                    assert kept[-1].version >= acknowledged
                    assert [version.version for version in kept] == list(range(1, len(kept) + 1))
        finally:
            saver.kill()


@pytest.mark.parametrize("content", [b"my thesis", b"", b"database"])
def test_what_is_no_book_is_not_overwritten(path, tmp_path, content):
    """A text, an empty file, another program's database."""
    file = tmp_path / "thesis"
    if content == b"database":
        with closing(sqlite3.connect(file)) as connection:
            connection.execute("CREATE TABLE bookmarks (id INTEGER)")
    else:
        file.write_bytes(content)
    before = file.read_bytes()
    with open_book(path) as book, pytest.raises(BackupFault, match="something else than a backup"):
        backup(book, file)
    assert file.read_bytes() == before


def test_a_book_in_use_is_not_overwritten(path, tmp_path):
    """Neither the book itself, by whatever name, nor another one that is open."""
    link = tmp_path / "link"
    link.symlink_to(path)
    with open_book(path) as book, open_book(tmp_path / "other.sqlite") as other:
        add_song(other, tune("Keel"))
        for file in (path, link):
            with pytest.raises(BackupFault, match="this is the book itself"):
                backup(book, file)
        with pytest.raises(BackupFault, match="this file is a book in use"):
            backup(book, tmp_path / "other.sqlite")
    assert titles(path) == ["Slack Water"]
    assert titles(tmp_path / "other.sqlite") == ["Keel"]


def test_a_backup_that_cannot_be_written_is_told(path, tmp_path):
    """The file is named; nothing is left behind."""
    with open_book(path) as book:
        with pytest.raises(BookAway, match="No such file or directory"):
            backup(book, tmp_path / "nowhere" / "band.backup")
        before = names(tmp_path)
        (tmp_path / "folder").mkdir()
        with pytest.raises(BackupFault, match="something else"):
            backup(book, tmp_path / "folder")
        assert names(tmp_path) == sorted([*before, "folder"])


@pytest.mark.parametrize("empty_place", ["postgresql"], indirect=True)
def test_postgresql_has_its_own_tool(book, tmp_path):
    """It is named, and the daily backup leaves such a book alone."""
    with pytest.raises(BackupFault, match="Use its own tool, as in: pg_dump"):
        backup(book, tmp_path / "band.backup")
    assert daily_backup(book, TODAY) is None
    assert newest_backup(book.where) is None
    assert list(tmp_path.iterdir()) == []


def test_a_day_has_one_backup_and_ten_days_are_kept(path):
    """The second of a day changes nothing; the oldest go, other files stay."""
    folder = path.parent / "backups"
    with open_book(path) as book:
        first = daily_backup(book, TODAY)
        assert first.path == folder / "band-2026-12-05.sqlite"
        before = first.path.read_bytes()
        add_song(book, tune("Keel"))
        assert daily_backup(book, TODAY) == first
        assert first.path.read_bytes() == before
        for name in ("notes.txt", "band-2020-13-45.sqlite", "band-2-2026-01-01.sqlite"):
            (folder / name).write_bytes(b"mine")
        for day in range(1, 13):
            daily_backup(book, TODAY + timedelta(days=day))
    kept = [name for name in names(folder) if name.startswith("band-2026")]
    assert len(kept) == KEPT_BACKUPS
    assert kept[0] == "band-2026-12-08.sqlite"
    assert newest_backup(path).path == folder / kept[-1]
    assert {"notes.txt", "band-2020-13-45.sqlite", "band-2-2026-01-01.sqlite"} <= set(names(folder))
    assert titles(newest_backup(f"sqlite:///{path}").path) == ["Keel", "Slack Water"]


def test_a_damaged_book_is_not_backed_up(path):
    """The backups from before the damage stay, all of them."""
    with open_book(path) as book:
        for day in range(KEPT_BACKUPS):
            daily_backup(book, TODAY + timedelta(days=day))
        before = names(path.parent / "backups")
    raw = bytearray(path.read_bytes())
    raw[-4096:] = b"\xff" * 4096
    path.write_bytes(raw)
    with open_book(path) as book, pytest.raises(NotABook, match=r"damaged.*backup of 2026-12-14"):
        daily_backup(book, TODAY + timedelta(days=99))
    assert names(path.parent / "backups") == before


def test_a_backup_is_put_back_and_the_damaged_book_kept(path):
    """Twice, with what stood beside it; the book then opens with what the backup had."""
    with open_book(path) as book:
        daily_backup(book, TODAY)
    for number in (1, 2):
        path.write_bytes(b"damaged %d" % number)
        for end in ("-wal", "-shm"):
            path.with_name(path.name + end).write_bytes(b"beside")
        aside = put_back(path, newest_backup(path))
        assert aside == path.with_name(f"band.sqlite.damaged-{number}")
        assert aside.read_bytes() == b"damaged %d" % number
        assert path.with_name(aside.name + "-wal").read_bytes() == b"beside"
        assert names(path.parent)[:2] == ["backups", "band.sqlite"]
        assert titles(path) == ["Slack Water"]
    assert newest_backup(path) is not None


def test_a_missing_book_is_put_back_too(path):
    """There is then nothing to keep."""
    with open_book(path) as book:
        daily_backup(book, TODAY)
    path.unlink()
    assert put_back(path, newest_backup(path)) is None
    assert titles(path) == ["Slack Water"]


def test_a_damaged_backup_is_not_put_back(path):
    """The book stays as it is."""
    with open_book(path) as book:
        made = daily_backup(book, TODAY)
    before = path.read_bytes()
    for content, words in ((b"no book", "no book"), (made.path.read_bytes()[:5000], "damaged")):
        made.path.write_bytes(content)
        with pytest.raises(NotABook, match=words):
            put_back(path, made)
    made.path.unlink()
    with pytest.raises(BackupFault, match="no such backup"):
        put_back(path, made.path)
    assert path.read_bytes() == before
    assert names(path.parent) == ["backups", "band.sqlite"]


def test_a_book_that_is_open_is_not_replaced(path):
    """Whoever has it open would go on saving into the file that was moved aside."""
    with open_book(path) as book:
        made = daily_backup(book, TODAY)
        done = subprocess.run(
            [sys.executable, "-c", PUT_BACK, str(path), str(made.path)],
            capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert "this book is open in another program" in done.stdout
        add_song(book, tune("Ebb"))
    assert "Ebb" in titles(path)


def test_what_stands_in_the_log_of_a_backup_comes_with_it(path, tmp_path):
    """A book that was not closed keeps its last saves beside its file."""
    other = tmp_path / "other.sqlite"
    with open_book(other) as book:
        add_song(book, tune("Ebb"))
        killed = tmp_path / "killed.sqlite"
        for end in ("", "-wal"):
            shutil.copyfile(f"{other}{end}", f"{killed}{end}")
    put_back(path, killed)
    assert titles(path) == ["Ebb"]
