"""The book on the command line: where it lies, out to files and in again, backed up, checked, put back."""

import shutil
from datetime import date
from pathlib import Path

import pytest

from fifthwise.book import add_song, daily_backup, open_book, songs
from fifthwise.cli import book_place
from tests.cli.evenings import SONG, small_evening
from tests.cli.running import run


@pytest.fixture
def kept(tmp_path):
    """A book with one song."""
    with open_book(tmp_path / "band.sqlite") as book:
        add_song(book, SONG)
    return tmp_path / "band.sqlite"


def titles(path):
    """What a book has."""
    with open_book(path) as book:
        return [row.title for row in songs(book)]


def test_the_demo_comes_in_and_goes_out_and_prints(tmp_path):
    """A folder made by hand is taken in; its export is an evening that ``fifthwise set`` prints."""
    book, out = tmp_path / "band.sqlite", tmp_path / "out"
    done = run("book", "import", "demo", "--book", book)
    assert (done.code, done.err) == (0, "")
    assert "12 files kept, 0 said nothing new, 0 at fault" in done.out
    assert run("book", "export", out, "--book", book).code == 0
    assert run("book", "import", out, "--book", book).lines[-1].startswith("0 files kept")
    (evening,) = (out / "sets").iterdir()
    assert run("check", evening, *(out / "songs").iterdir()).code == 0


def test_files_at_fault_are_named_and_the_good_ones_kept(tmp_path):
    """Each fault with its file and place; the exit code is 2."""
    small_evening(tmp_path)
    (tmp_path / "bell.chart.md").write_text("---\ntitle: Bell\nkey: C\n---\n8x | 1\n")
    done = run("book", "import", tmp_path, "--book", tmp_path / "band.sqlite")
    assert done.code == 2
    assert "bell.chart.md:5:1: '8x' is no " in done.err
    assert "small.set.yaml:11:1: there is no sound chart bell.chart.md in this folder." in done.err
    assert "1 files kept, 0 said nothing new, 2 at fault" in done.out
    assert titles(tmp_path / "band.sqlite") == ["Rope Walk"]


def test_a_set_says_itself_who_its_singers_are(tmp_path):
    """As the page on the book says: one whom only ``singers.yaml`` has may not sing in a set."""
    evening = small_evening(tmp_path)
    whole = evening.read_text("utf-8")
    line = "  Wenke: {usable: F3-D5, comfort: A3-Bb4}\n"
    (tmp_path / "singers.yaml").write_text(line.strip() + "\n", "utf-8")
    evening.write_text(whole.replace(f"singers:\n{line}", ""), "utf-8")
    done = run("book", "import", tmp_path, "--book", tmp_path / "band.sqlite")
    assert done.code == 2
    assert "no singer is named 'Wenke'. Add 'Wenke' to the singers, with a usable and a comfort" in done.err
    evening.write_text(whole, "utf-8")
    assert run("book", "import", tmp_path, "--book", tmp_path / "band.sqlite").code == 0
    told = " ".join(Path("docs/book.md").read_text("utf-8").split())
    assert "also of those whom the book or `singers.yaml` has" in told


def test_a_book_is_backed_up_and_checked(kept, tmp_path):
    """The copy is a sound book; what is no book is not overwritten."""
    done = run("book", "backup", tmp_path / "copy.sqlite", "--book", kept)
    assert done.code == 0
    assert run("book", "check", "--book", tmp_path / "copy.sqlite").lines == [
        f"{tmp_path / 'copy.sqlite'}: sound"
    ]
    (tmp_path / "thesis").write_text("mine")
    done = run("book", "backup", tmp_path / "thesis", "--book", kept)
    assert (done.code, (tmp_path / "thesis").read_text()) == (2, "mine")
    assert "something else than a backup" in done.err


def test_a_damaged_book_is_told_and_put_back(kept):
    """The message is the command to type, and that command mends it."""
    with open_book(kept) as book:
        daily_backup(book, date(2026, 12, 5))
    kept.write_bytes(b"\0" * 9000)
    done = run("book", "check", "--book", kept)
    assert done.code == 2
    assert "Put its backup of 2026-12-05 back" in done.err
    done = run("book", "put-back", "--book", kept)
    assert done.code == 0, done.err
    assert f"kept as {kept}.damaged-1" in done.out
    assert titles(kept) == ["Rope Walk"]
    shutil.rmtree(kept.parent / "backups")
    done = run("book", "put-back", "--book", kept)
    assert (done.code, "There is no daily backup" in done.err) == (2, True)


def test_a_sound_book_is_put_back_only_by_force(kept):
    """It is told; with ``--force`` what was saved since is kept beside."""
    with open_book(kept) as book:
        daily_backup(book, date(2026, 12, 5))
        add_song(book, SONG.replace("Rope Walk", "Rope Run"))
    before = kept.read_bytes()
    done = run("book", "put-back", "--book", kept)
    assert done.code == 2
    assert "this book is not damaged" in done.err
    assert "add --force" in done.err
    assert kept.read_bytes() == before
    done = run("book", "put-back", "--force", "--book", kept)
    assert (done.code, titles(kept)) == (0, ["Rope Walk"])
    assert titles(f"{kept}.damaged-1") == ["Rope Run", "Rope Walk"]


@pytest.mark.parametrize("command", ["check", "put-back"])
def test_a_place_that_is_no_file_is_told(tmp_path, command):
    """An empty one and a folder, with what to write instead."""
    done = run("book", command, "--book", "")
    assert (done.code, "--book: no place is named. Name a file" in done.err) == (2, True)
    done = run("book", command, "--book", tmp_path)
    assert done.code == 2
    assert f"{tmp_path}: this is a folder. Name a file in it, as in '{tmp_path / 'book.sqlite'}'" in done.err


@pytest.mark.parametrize("args", [["check"], ["export", "out"], ["backup", "file"]])
def test_a_book_that_is_only_read_is_not_made(tmp_path, args):
    """A slip in its name is told."""
    done = run("book", *args, "--book", tmp_path / "typo.sqlite")
    assert done.code == 2
    assert "typo.sqlite: there is no book here. Check its name." in done.err
    assert list(tmp_path.iterdir()) == []


def test_a_missing_driver_is_told_with_the_command_to_type(tmp_path):
    """Nobody has to know what a driver is called."""
    done = run("book", "check", "--book", "nosuchdatabase://host/name")
    assert (done.code, "no driver is installed" in done.err) == (2, True)


@pytest.mark.parametrize(
    ("platform", "variables", "folder"),
    [
        ("linux", {}, ".local/share/fifthwise"),
        ("linux", {"XDG_DATA_HOME": "{home}/data"}, "data/fifthwise"),
        ("linux", {"XDG_DATA_HOME": "data"}, ".local/share/fifthwise"),
        ("darwin", {"XDG_DATA_HOME": "{home}/data"}, "Library/Application Support/fifthwise"),
        ("win32", {}, "AppData/Local/fifthwise"),
        ("win32", {"LOCALAPPDATA": "{home}/local"}, "local/fifthwise"),
    ],
)
def test_a_book_lies_where_the_system_keeps_data(monkeypatch, tmp_path, platform, variables, folder):
    """XDG Base Directory Specification: XDG_DATA_HOME, ignored where relative, else ~/.local/share."""
    monkeypatch.setattr(book_place.sys, "platform", platform)
    monkeypatch.setenv("HOME", str(tmp_path))
    for name in ("XDG_DATA_HOME", "LOCALAPPDATA", book_place.VARIABLE):
        monkeypatch.delenv(name, raising=False)
    for name, value in variables.items():
        monkeypatch.setenv(name, value.format(home=tmp_path))
    assert book_place.book_place(None) == str(tmp_path / folder / "book.sqlite")
    assert (tmp_path / folder).is_dir()


def test_the_option_comes_before_the_environment(monkeypatch):
    """Both are taken as they are."""
    monkeypatch.setenv(book_place.VARIABLE, "postgresql://host/band")
    assert book_place.book_place(None) == "postgresql://host/band"
    assert book_place.book_place("here.sqlite") == "here.sqlite"


def test_every_command_stands_in_the_docs():
    """The page on the book names each of its commands."""
    page = Path("docs/book.md").read_text("utf-8")
    listed = run("book", "--help").out.partition("Commands:")[2].partition("Example")[0].split("\n")
    names = [line.split()[0] for line in listed if line.startswith("  ") and line.strip()]
    assert {"export", "import", "backup", "check", "put-back"} <= set(names)
    assert [name for name in names if f"fifthwise book {name}" not in page] == []
