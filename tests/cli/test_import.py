"""A chart in letters made into numbers on the command line."""

import pytest

from fifthwise.chart import parse
from tests.cli.running import run

LETTERS = """Rope Walk
[Verse]
| G | C | D/F# Em7 | F D |
down the rope walk
[Chorus]
|: C | G/B :| x3
"""


@pytest.fixture
def sheet(tmp_path):
    """The letters' file."""
    file = tmp_path / "rope.txt"
    file.write_text(LETTERS, "utf-8")
    return file


def test_letters_become_numbers_in_the_settled_layout(sheet):
    """The text is a sound chart."""
    done = run("import", sheet, "--key", "G")
    assert done.code == 0
    assert "1 | 4 | 5/7 6-7 | b7 5" in done.out
    assert parse(done.out).title == "Rope Walk"


def test_a_file_that_is_there_is_kept(sheet, tmp_path):
    """It is replaced only when --force says so."""
    out = tmp_path / "rope.chart.md"
    assert run("import", sheet, "--key", "G", "--out", out).code == 0
    first = out.read_text()
    done = run("import", sheet, "--key", "A", "--out", out)
    assert (done.code, out.read_text()) == (2, first)
    assert "--force" in done.err
    assert run("import", sheet, "--key", "A", "--out", out, "--force").code == 0
    assert out.read_text() != first


@pytest.mark.parametrize(
    ("old", "new", "args", "words"),
    [
        ("D/F#", "H", ["--key", "G"], "'H' is no chord"),
        ("D/F# Em7", "D Em C", ["--key", "G"], "3 chords cannot share"),
    ],
)
def test_a_faulty_sheet_is_told_and_nothing_is_written(sheet, tmp_path, old, new, args, words):
    """Exit code 2; no file appears."""
    sheet.write_text(LETTERS.replace(old, new))
    done = run("import", sheet, *args, "--out", tmp_path / "out.chart.md")
    assert (done.code, done.out, (tmp_path / "out.chart.md").exists()) == (2, "", False)
    assert words in done.err


def test_a_key_that_is_not_said_is_found(sheet):
    """The numbers are counted in it, and it is told on the error stream with the runner-up."""
    sheet.write_text(LETTERS)
    done = run("import", sheet)
    assert done.code == 0
    assert "key: G" in done.out
    assert "the key is not said; by its chords it is G" in done.err
