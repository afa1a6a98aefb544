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


def test_a_sheet_without_a_key_says_what_was_taken_and_how_to_settle_it(tmp_path):
    """The key that was found and the chords a bar are told with their options."""
    file = tmp_path / "w.txt"
    file.write_text("[Verse]\nG        C\nDown the rope walk\nD      G\nwhere the tar is warm\n")
    done = run("import", file)
    assert done.code == 0
    assert "--key C" in done.err
    assert "--bars 2" in done.err
    settled = run("import", file, "--key", "D", "--bars", "2")
    assert (parse(settled.out).key.short, len(parse(settled.out).sections[0].bars)) == ("D", 2)
    assert "Which key" not in settled.err


def test_many_files_go_on_past_one_at_fault(sheet, tmp_path):
    """The sound ones are written, the others told; the exit code says that some were not."""
    (tmp_path / "bad.musicxml").write_text("<score-partwise>")
    (tmp_path / "empty.mid").write_bytes(b"")
    out = tmp_path / "out"
    files = (tmp_path / "bad.musicxml", sheet, tmp_path / "empty.mid", tmp_path / "away.abc")
    done = run("import", *files, "--key", "G", "--out", out)
    assert done.code == 2
    assert [each.name for each in out.iterdir()] == ["rope-walk.chart.md"]
    assert all(name in done.err for name in ("bad.musicxml", "empty.mid", "away.abc"))


TUNES = """X:1
T:Rope Reel
M:4/4
L:1/8
K:Ador
"Am"eAAB c2 BA|"G"GBdB "Em"g2 fg:|

X:2
T:Wet Jig
M:6/8
L:1/8
K:D
|:A|"D"dfa agf|"G"gbg "A7"a2:|
"""


def test_each_tune_of_a_file_is_a_song(tmp_path):
    """Two tunes give two files, each in its key; alone on the screen they have no place."""
    file = tmp_path / "tunes.abc"
    file.write_text(TUNES)
    assert run("import", file, "--out", tmp_path / "out").code == 0
    charts = [parse(each.read_text("utf-8")) for each in sorted((tmp_path / "out").iterdir())]
    assert [(chart.title, chart.key.short) for chart in charts] == [
        ("Rope Reel", "A dorian"),
        ("Wet Jig", "D"),
    ]
    refused = run("import", file)
    assert refused.code == 2
    assert "2 songs" in refused.err


NUMBER_SHEET = "Boat\nKey: G\nVerse\n1 4 2 5\n1 6 2 1\n"


def test_a_number_sheet_comes_in_as_it_is_meant(tmp_path):
    """Plain 2 and 6 are taken as minor where no other sign of minor stands; the option makes them major."""
    file = tmp_path / "boat.txt"
    file.write_text(NUMBER_SHEET)
    guessed = run("import", file)
    assert "1 | 6- | 2- | 1" in guessed.out
    assert "--numbers plain=major" in guessed.err
    settled = run("import", file, "--numbers", "plain=major")
    assert "1 | 6 | 2 | 1" in settled.out
    refused = run("import", file, "--numbers", "plain=minor")
    assert (refused.code, refused.out) == (2, "")
    assert "plain=major|scale" in refused.err
