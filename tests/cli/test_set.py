"""An evening's books on the command line: what is made, what is replaced, and what is refused."""

import io
import re

import pytest
from pypdf import PdfReader

from tests.cli.evenings import small_evening
from tests.cli.running import run


def made(folder):
    """Everything below a folder but the record of what was written."""
    files = (path for path in folder.rglob("*") if path.is_file() and not path.name.startswith("."))
    return {str(path.relative_to(folder)): path.read_bytes() for path in files}


def text_of(pdf):
    """A PDF's text."""
    return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages)


@pytest.fixture(scope="module")
def evening(tmp_path_factory):
    """The small evening, made once."""
    folder = tmp_path_factory.mktemp("evening")
    file = small_evening(folder)
    done = run("set", file, "--out", folder / "out")
    assert done.code == 0, done.err
    return file, made(folder / "out")


def test_everyone_gets_a_book(evening):
    """A book a player, a lyric sheet and pictures for the singer, the key sheet and the summary."""
    assert sorted(evening[1]) == [
        "books/isa-violin.pdf",
        "books/lotte-trumpet-in-bb.pdf",
        "books/ole-guitar.pdf",
        "key-sheet.pdf",
        "lyrics/wenke.pdf",
        "pictures/wenke/01-rope-walk-keys.svg",
        "pictures/wenke/01-rope-walk.svg",
        "summary.md",
    ]


def test_the_same_evening_gives_the_same_bytes(evening, tmp_path):
    """Nothing in a book depends on when or where it was made."""
    again = small_evening(tmp_path)
    assert run("set", again, "--out", tmp_path / "elsewhere").code == 0
    assert made(tmp_path / "elsewhere") == evening[1]


def test_changing_the_singers_range_changes_her_key_in_every_book(evening, tmp_path):
    """Two whole steps lower, the song moves; the song that nobody sings stays."""
    file = small_evening(tmp_path)
    lower = file.read_text().replace("F3-D5", "Db3-Bb4").replace("A3-Bb4", "F3-Gb4")
    file.write_text(lower)
    assert run("set", file, "--out", tmp_path / "out").code == 0
    keys = [
        re.findall(r"^\| (\d) \| [^|]+ \| [^|]* \| ([^|]+) \|", files["summary.md"].decode(), re.M)
        for files in (evening[1], made(tmp_path / "out"))
    ]
    assert keys[0][0] != keys[1][0]
    assert keys[0][1] == keys[1][1] == ("2", "Am")
    for book in (name for name in evening[1] if name.endswith(".pdf")):
        assert made(tmp_path / "out")[book] != evening[1][book], book


def test_books_hold_the_chords_in_the_readers_own_key(evening):
    """The trumpet reads a whole step above what sounds; the guitar reads shapes."""
    summary = evening[1]["summary.md"].decode()
    assert re.search(r"\| 1 \| Rope Walk \| Wenke \| (\w+) \|", summary)
    assert "written in" in text_of(evening[1]["books/lotte-trumpet-in-bb.pdf"])
    assert "Rope Walk" in text_of(evening[1]["lyrics/wenke.pdf"])


def test_what_was_changed_by_hand_is_not_replaced(tmp_path):
    """A second run over an annotated book asks for --force and changes nothing."""
    file = small_evening(tmp_path)
    out = tmp_path / "out"
    run("set", file, "--out", out)
    (out / "books" / "isa-violin.pdf").write_bytes(b"with my bowings")
    before = made(out)
    done = run("set", file, "--out", out)
    assert (done.code, made(out)) == (2, before)
    assert "isa-violin.pdf was changed" in done.err
    assert run("set", file, "--out", out, "--force").code == 0


@pytest.mark.parametrize(
    ("file", "old", "new", "words"),
    [
        ("small.set.yaml", "comfort: A3-Bb4", "comfort: Bb4-A3", "upside down"),
        ("small.set.yaml", "singers:", "sniger:", "Did you mean 'singers'?"),
        ("small.set.yaml", "bell.chart.md", "bel.chart.md", "there is no such file: bel.chart.md"),
        ("small.set.yaml", "singer: Wenke", "singer: Wenke, key: H", "'H' is no key"),
        ("small.set.yaml", "songs:", "songs: [", "this is no YAML"),
        ("rope.chart.md", "5/7", "15", "Did you mean '1 5' or '1(5)'?"),
        (
            "bell.chart.md",
            "5\n",
            "[2/4] 5\n# tag\n[pickup 5/2] 1\n1\n",
            "longer than the bar played before it",
        ),
    ],
)
def test_a_faulty_evening_makes_nothing(tmp_path, file, old, new, words):
    """The fault is said, the exit code is 2, and no folder appears."""
    evening = small_evening(tmp_path)
    (tmp_path / file).write_text((tmp_path / file).read_text("utf-8").replace(old, new), "utf-8")
    done = run("set", evening, "--out", tmp_path / "out")
    assert (done.code, (tmp_path / "out").exists()) == (2, False)
    assert words in done.err
    assert "Traceback" not in done.err


def test_an_output_folder_that_cannot_be_written_is_said(tmp_path):
    """A folder below a file is nowhere."""
    evening = small_evening(tmp_path)
    (tmp_path / "file").write_text("x")
    done = run("set", evening, "--out", tmp_path / "file" / "out")
    assert done.code == 2
    assert "cannot be made" in done.err
