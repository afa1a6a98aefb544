"""The fingerboard on the command line."""

import io
import re
import xml.etree.ElementTree as ET
from pathlib import Path

import pytest
from pypdf import PdfReader

from tests.cli.running import run

DOCS = Path(__file__).parents[2] / "docs" / "fingerboard.md"


def test_a_board_as_text_is_the_default():
    """Strings, degrees, fingers and distances in rows, the open strings and the hand beneath."""
    done = run("board", "Bb")
    assert done.code == 0
    assert "1   ·     4    [1]    5       18 mm" in done.out
    assert "Open strings in B♭: G 6, D 3, A 7, E no." in done.out
    assert "Fingers: G 1 and 2 touch; D all apart; A 3 and 4 touch; E 3 and 4 touch." in done.out


def test_a_chord_tells_what_the_open_strings_are():
    """Over the 5 of G the open G is its sus4, and no chord tone."""
    out = run("board", "G", "--chord", "5").out
    assert "5 is D" in out
    assert "Open strings over D: G sus4 (colour), D root, A 5, E 9 (colour)." in out
    assert run("board", "G", "--chord", "D").out == out


def test_anchors_are_told_in_words():
    """The best way first, and each other way as another choice."""
    lines = run("board", "Eb", "--anchors").lines
    ways = [line for line in lines if "same finger" in line]
    assert ways[0].startswith("1: D string, low first finger. 5: same finger, A string. 4: same finger")
    assert all(line.startswith("Or ") for line in ways[1:])


def test_a_minor_key_counts_as_asked():
    """G minor's home is 6 or 1."""
    assert "[6]" in run("board", "Gm").out
    assert "[1]" in run("board", "Gm", "--minor", "from-one").out


@pytest.mark.parametrize("kind", ["svg", "pdf", "png", "txt"])
def test_a_board_is_written_by_the_ending_of_its_name(tmp_path, kind):
    """Each kind is what its name says, with the title in it."""
    out = tmp_path / f"board.{kind}"
    done = run("board", "Ab", "-i", "viola", "--mm", "--out", out)
    assert (done.code, done.out) == (0, f"Ab on the viola: {out}\n")
    content = out.read_bytes()
    if kind == "svg":
        assert ET.fromstring(content)[0].text == "A♭ on the viola"
    elif kind == "pdf":
        assert "A♭ on the viola" in PdfReader(io.BytesIO(content)).pages[0].extract_text()
    elif kind == "png":
        assert content.startswith(b"\x89PNG")
    else:
        assert content.decode().startswith("A♭ on the viola")


@pytest.mark.parametrize(
    ("args", "words"),
    [
        (["Bb", "-i", "violn"], "no fingerboard for 'violn'. Did you mean 'violin'?"),
        (["Bb", "--tuning", "AEA"], "3 strings for a violin with 4. Write 4 notes, low to high"),
        (["Gbb"], "would have 13 flats. Write F"),
        (["Bb", "--position", "thrid"], "no position 'thrid' on a violin. Did you mean 'third'?"),
        (["Bb", "--position", "zzz"], "Known are half, first, low second"),
        (["Bb", "--chord", "9"], "'9' is no chord number. Write 1 to 7"),
        (["Bb", "--out", "board.gif"], "name it .svg, .pdf, .png or .txt"),
        (["Bb", "--anchors", "--chord", "1"], "leave out --chord and --position"),
        (["Bb", "--out", "nowhere/board.svg"], "there is no such folder"),
    ],
)
def test_what_cannot_be_drawn_is_a_fault(args, words):
    """It says what is wrong and how to mend it, and exits with 2."""
    done = run("board", *args)
    assert done.code == 2
    assert words in done.err.replace("\n", " ")
    assert "Traceback" not in done.err


def test_a_position_shows_its_hand():
    """By name or number, with its fingers at the side and the board long enough for them."""
    assert run("board", "D", "--position", "third").out == run("board", "D", "--position", "3").out
    assert "Fingers of third position" in run("board", "D", "--position", "3").out
    assert "144 mm" in run("board", "D", "--position", "3").out


def test_the_page_about_it_shows_what_the_command_prints():
    """The first example of docs/fingerboard.md is the command's own output, and so is the way it tells."""
    text = DOCS.read_text(encoding="utf-8")
    shown = re.search(r"```\n\$ fifthwise board Bb\n(.*?)```", text, re.DOTALL)
    assert shown[1] == run("board", "Bb").out
    (way,) = re.findall(r"^> (.*)$", text, re.MULTILINE)
    assert way in run("board", "Eb", "--anchors").lines
