"""A tune on a staff, on the command line."""

import pytest
from pypdf import PdfReader

from tests.cli.running import run

SONG = """---
title: Pier
key: C
octave: 4
---
# verse
1 | 4
tune: 1 2 3 4 | 5 - - 0
"""


@pytest.fixture
def song(tmp_path):
    """A chart file."""
    file = tmp_path / "pier.chart.md"
    file.write_text(SONG)
    return file


def test_its_numbers_are_told_as_text(song):
    """Without a file to write, the tune is said bar by bar."""
    assert run("staff", song).out == "Verse: 1 2 3 4 | 5\n"


def test_a_picture_is_in_the_key_and_clef_that_are_asked_for(song, tmp_path):
    """It says so in its title."""
    done = run("staff", song, "--key", "Ab", "--for", "viola", "--out", tmp_path / "pier.svg")
    assert done.code == 0
    assert "<title>Staff: Pier in A♭, alto clef</title>" in (tmp_path / "pier.svg").read_text()


def test_another_program_gets_mei(song, tmp_path):
    """What is engraved can be taken on."""
    run("staff", song, "--out", tmp_path / "pier.mei")
    assert '<note xml:id="n0-0" dur="4" pname="c" oct="4">' in (tmp_path / "pier.mei").read_text()


def test_a_page_has_the_staff_where_it_is_wanted(song, tmp_path):
    """Print has a page more, and one file for a screen the picture."""
    run("page", song, "--staff", "--out", tmp_path / "pier.html")
    assert 'class="staff"' in (tmp_path / "pier.html").read_text()
    sizes = []
    for more in ((), ("--staff",)):
        run("page", song, *more, "--out", tmp_path / "pier.pdf")
        sizes.append(len(PdfReader(tmp_path / "pier.pdf").pages))
    assert sizes == [1, 2]


@pytest.mark.parametrize(
    ("text", "args", "told"),
    [
        (SONG, ["--out", "tune.gif"], "name it .svg or .mei"),
        (SONG.replace("tune:", "words:"), [], "the song has no tune. Write it in 'tune:' lines"),
        (SONG, ["--for", "violn"], "Did you mean 'violin'?"),
    ],
)
def test_what_cannot_be_had_is_said(song, text, args, told):
    """With how to mend it."""
    song.write_text(text)
    done = run("staff", song, *args)
    assert done.code == 2
    assert told in done.err
