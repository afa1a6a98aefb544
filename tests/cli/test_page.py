"""One song's page, keys and faults on the command line."""

import io
import json
import subprocess
import sys
from pathlib import Path

import pytest
from pypdf import PdfReader

from fifthwise.chart import LARGEST_TEXT
from tests.cli.evenings import SONG, small_evening
from tests.cli.running import run


@pytest.fixture
def song(tmp_path):
    """The song's file."""
    small_evening(tmp_path)
    return tmp_path / "rope.chart.md"


def test_a_page_as_text_is_the_default(song):
    """Numbers with the letters of the key asked for."""
    done = run("page", song, "--key", "Cb")
    assert done.code == 0
    assert "C♭" in done.out
    assert "5/7" in done.out


@pytest.mark.parametrize("kind", ["pdf", "html", "txt"])
def test_a_page_is_written_by_the_ending_of_its_name(song, tmp_path, kind):
    """Each kind holds the title and the chords in A."""
    out = tmp_path / f"page.{kind}"
    assert run("page", song, "--key", "A", "--show", "letters", "--out", out).code == 0
    content = out.read_bytes()
    text = PdfReader(io.BytesIO(content)).pages[0].extract_text() if kind == "pdf" else content.decode()
    assert "Rope Walk" in text
    assert ("E over G sharp" if kind == "html" else "E/G♯") in text.replace("\n", "")


def test_an_instrument_reads_its_own_key(song):
    """B-flat trumpet: concert C is written D (common practice, no source)."""
    assert "D" in run("page", song, "--for", "trumpet in Bb").out
    assert "written in D" in run("page", song, "--for", "trumpet in Bb").out


def test_lyrics_stand_under_chords(song):
    """The words in playing order, with the note to start on."""
    out = run("page", song, "--lyrics").out
    assert "down the rope walk" in out
    assert "Starts on C4, the 1" in out


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (["--out", "page.doc"], "name it .pdf, .html or .txt"),
        (["--key", "H"], "'H' is no key"),
        (["--key", "Am"], "'Rope Walk' is in C"),
        (["--for", "voilin"], "Did you mean 'violin'?"),
        (["--out", "nowhere/page.pdf"], "there is no such folder"),
    ],
)
def test_what_cannot_be_printed_is_said(song, args, words):
    """Exit code 2, the words on the error stream."""
    done = run("page", song, *args)
    assert (done.code, done.out) == (2, "")
    assert words in done.err


def test_keys_are_ranked_for_a_singer_of_an_evening(song):
    """Twelve keys as JSON, the best first, each with reasons."""
    done = run("keys", song, "--singer", "Wenke", "--set", song.with_name("small.set.yaml"), "--json")
    record = json.loads(done.out)
    costs = [key["cost"] for key in record["keys"]]
    assert len(costs) == 12
    assert costs[0] <= min(costs) + 0.005
    assert all(key["reasons"] for key in record["keys"])


def test_the_table_of_keys_keeps_its_columns_apart(song):
    """Every row has its cells where the head has them, however long a mode's name is."""
    modal = song.with_name("modal.chart.md")
    modal.write_text(song.read_text("utf-8").replace("key: C", "key: C mixolydian"), "utf-8")
    done = run("keys", modal, "--usable", "F3-D5", "--comfort", "A3-Bb4")
    head, *rows = done.out.splitlines()[2:15]
    at = head.index("sung")
    assert len(rows) == 12
    assert all("mixolydian  " in row[:at] and row[at - 2 : at] == "  " for row in rows)
    assert all(row[at] != " " for row in rows)


@pytest.mark.parametrize(
    ("args", "words"),
    [
        ([], "Give the singer's ranges"),
        (["--usable", "D5-F3", "--comfort", "A3-Bb4"], "upside down"),
        (["--usable", "F3-D5", "--comfort", "A2-Bb4"], "beyond the usable"),
    ],
)
def test_a_singer_is_asked_for_ranges(song, args, words):
    """Nothing is guessed from a voice type."""
    done = run("keys", song, *args)
    assert done.code == 2
    assert words in done.err


@pytest.mark.parametrize(
    ("raw", "words"),
    [
        (b"", "the chart is empty"),
        (b"\xff\xfe1\x00", "NUL bytes"),
        ("---\ntitle: Küste\nkey: C\n---\n1\n".encode("latin-1"), "not UTF-8"),
        (b"x" * (LARGEST_TEXT + 1), "1.0 MB"),
        (b"hello", "does not begin with its head"),
        (b"---\ntitle: a\n", "not closed"),
        (SONG.encode().replace(b"key: C", b"kee: C"), "Did you mean 'key'?"),
        (SONG.encode().replace(b"1 | 4", b"1 4 5 | 4"), "3 chords cannot share"),
        (SONG.encode().replace(b"---\n#", b"form: verse, chorus\n---\n#"), "no section is named 'chorus'"),
    ],
)
def test_broken_charts_are_told_by_check(tmp_path, raw, words):
    """Every fault with its place; exit code 2."""
    file = tmp_path / "broken.chart.md"
    file.write_bytes(raw)
    done = run("check", file)
    assert done.code == 2
    assert words in done.err
    assert "Traceback" not in done.err


def test_check_tells_sound_files(song):
    """A chart and an evening, both sound."""
    done = run("check", song, song.with_name("small.set.yaml"))
    assert done.code == 0
    assert done.lines == [f"{song}: sound", f"{song.with_name('small.set.yaml')}: sound"]


def test_help_is_quick_and_has_examples():
    """No page engine is loaded for help."""
    for name in ("number", "letters", "page", "keys", "set", "check"):
        assert "Example" in run(name, "--help").out
    code = (
        "import sys; from fifthwise.cli.main import fifthwise; fifthwise(['--help'], standalone_mode=False); "
    )
    check = "assert not {'typst', 'jinja2', 'yaml', 'fifthwise.chart'} & set(sys.modules)"
    done = subprocess.run([sys.executable, "-c", code + check], capture_output=True, check=False)
    assert done.returncode == 0, done.stderr


def test_a_few_systems_too_many_are_drawn_smaller(tmp_path):
    """A tune whose last system alone would stand on a third page is set a little smaller, on two."""
    out, demo = tmp_path / "tune.pdf", Path(__file__).parents[2] / "demo"
    done = run("page", demo / "low-water.chart.md", "--staff", "--for", "viola", "--key", "G#m", "--out", out)
    assert done.code == 0
    assert len(PdfReader(out).pages) == 2
