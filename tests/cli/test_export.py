"""Songs written for other programs on the command line."""

import json
from pathlib import Path
from zipfile import ZipFile

import pytest

from fifthwise.chart import parse
from tests.cli.running import run

DEMO = Path(__file__).parents[2] / "demo"
SONG = DEMO / "northerly.chart.md"


@pytest.mark.parametrize("kind", ["musicxml", "abc", "text", "json", "chart"])
def test_one_text_is_shown(kind):
    """Without --out a kind that is text goes to the output, and names the song."""
    done = run("export", SONG, "--as", kind)
    assert (done.code, done.err) == (0, "")
    assert "Northerly" in done.out


@pytest.mark.parametrize("kind", ["mxl", "midi"])
def test_what_is_no_text_needs_a_file(kind):
    """A packed file is not shown on the screen."""
    done = run("export", SONG, "--as", kind)
    assert (done.code, done.out) == (2, "")
    assert "--out" in done.err


@pytest.mark.parametrize("name", ["n.mxl", "n.musicxml", "n.mid", "n.abc", "n.json", "n.chart.md"])
def test_a_file_that_goes_out_comes_in_again(tmp_path, name):
    """The kind is the file's ending; read again it is the same song in the key that was asked for."""
    out = tmp_path / name
    assert run("export", SONG, "--key", "C#m", "--out", out).code == 0
    back = run("import", out)
    assert back.code == 0
    chart = parse(back.out)
    assert (chart.title, chart.key.short) == ("Northerly", "C#m")


def test_a_file_that_is_there_is_kept(tmp_path):
    """It is replaced only when --force says so."""
    out = tmp_path / "n.json"
    out.write_text("mine")
    done = run("export", SONG, "--out", out)
    assert (done.code, out.read_text()) == (2, "mine")
    assert "--force" in done.err
    assert run("export", SONG, "--out", out, "--force").code == 0
    assert json.loads(out.read_text())["title"] == "Northerly"


def test_an_evening_goes_out_whole_in_its_keys(tmp_path):
    """Every song stands in the packed file in each kind, in the key of the night."""
    out = tmp_path / "evening.zip"
    done = run("export", DEMO / "harbour-lamp.set.yaml", "--as", "json", "--as", "musicxml", "--out", out)
    assert done.code == 0
    with ZipFile(out) as packed:
        names = packed.namelist()
        keys = {json.loads(packed.read(n))["title"]: json.loads(packed.read(n))["key"] for n in names[::2]}
    assert len(names) == 2 * len(keys)
    assert all(".." not in name and "/" not in name for name in names)
    assert names == sorted(names, key=lambda name: (name.split("-")[0], not name.endswith(".json")))


def test_songs_of_one_title_get_files_of_their_own(tmp_path):
    """Nothing is written over the song before."""
    done = run("export", SONG, SONG, "--as", "json", "--out", tmp_path / "out")
    assert done.code == 0
    assert sorted(each.name for each in (tmp_path / "out").iterdir()) == [
        "northerly-2.json",
        "northerly.json",
    ]


def test_a_title_makes_no_path(tmp_path):
    """A title such as ../x names a file in the folder that was asked for."""
    song = tmp_path / "x.chart.md"
    song.write_text("---\ntitle: ../../é x\nkey: Cb\n---\n1 | 4 | 57 | 1\n", "utf-8")
    assert run("export", song, "--as", "musicxml", "--out", tmp_path / "out").code == 0
    assert [each.name for each in (tmp_path / "out").iterdir()] == ["é-x.musicxml"]


def test_a_transposing_player_reads_the_written_key():
    """A trumpet in B flat reads a song in E minor in F sharp minor, its harmony too."""
    done = run("export", SONG, "--for", "trumpet in Bb", "--as", "musicxml")
    assert "<fifths>3</fifths><mode>minor</mode>" in done.out
    assert "<root-step>F</root-step><root-alter>1</root-alter>" in done.out
    assert "<transpose>" in done.out


@pytest.mark.parametrize(
    ("name", "args"),
    [("q.pdf", []), ("z.musicxml", ["--as", "midi"]), ("z.json", ["--as", "json", "--as", "abc"])],
)
def test_a_file_is_named_for_what_is_in_it(tmp_path, name, args):
    """Another ending is refused, and nothing is written."""
    done = run("export", SONG, *args, "--out", tmp_path / name)
    assert done.code == 2
    assert name in done.err or "folder" in done.err
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("key", "fifths", "tune"), [("B", -5, "Db"), ("A", 5, "B"), ("Ab", -2, "Bb"), ("E", 6, "F#")]
)
def test_a_horn_reads_the_file_in_the_key_of_its_page(key, fifths, tune):
    """Seven sharps become five flats, in MusicXML and in ABC, as on paper."""
    song = DEMO / "wet-sail-waltz.chart.md"
    ask = ["export", song, "--for", "trumpet in Bb", "--key", key]
    assert f"<fifths>{fifths}</fifths>" in run(*ask, "--as", "musicxml").out
    assert f"\nK:{tune}\n" in run(*ask, "--as", "abc").out
