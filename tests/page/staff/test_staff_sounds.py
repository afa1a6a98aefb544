from pathlib import Path

import pytest

from fifthwise.chart import parse, rekey
from fifthwise.theory import read_note
from tests.page.songs import lantern, song
from tests.page.staff.sounds import assert_sounds

DEMO = sorted((Path(__file__).resolve().parents[3] / "demo").glob("*.chart.md"))
TUNES = [path for path in DEMO if "tune:" in path.read_text()]


@pytest.mark.parametrize("path", TUNES, ids=lambda path: path.name.removesuffix(".chart.md"))
def test_what_is_engraved_sounds_as_the_tune(path):
    """Verovio plays, from what is written for it, each note of a demo song at its time and length."""
    assert_sounds(parse(path.read_text()))


@pytest.mark.parametrize("tonic", ["Cb", "C#", "Gb", "F#", "Ab"])
def test_it_sounds_so_in_keys_with_many_accidentals(tonic):
    """Accidentals of the key and of the bar are each heard once."""
    assert_sounds(rekey(lantern(), read_note(tonic)))


@pytest.mark.parametrize(
    ("metre", "bar", "tune"),
    [
        ("4/4", "1", "(1 2 3) (- 4) (5 - 6) 7"),
        ("4/4", "1", "(1 -) (2 (3 4 5)) (6 5 4 3 2) 1"),
        ("4/4", "1", "(1 2 3 4 5 6 7) (1 2 (3 4 5)) - 0"),
        ("4/4", "1", "(1 - 2) (- 3 -) (0 1 2) (3 0 4)"),
        ("3/4", "1", "(1 2 3) (4 - 5) (- - 6)"),
        ("6/8", "1", "(1 2 3) (4 - (5 6))"),
        ("6/8", "1", "(1 2) (3 4 5 6)"),
        ("12/8", "1", "(1 2 3) - (- 4 5) 0"),
        ("7/8 2+2+3", "1", "1 2 3 4 - 5 -"),
        ("7/8 3+2+2", "1", "1 - - - 2 - -"),
        ("5/4", "1", "1 (2 3) - 4 -"),
        ("2/2", "1", "(1 2 3 4) (5 - - 6)"),
    ],
)
def test_divided_beats_sound_as_they_are_counted(metre, bar, tune):
    """Tuplets, ties over beats and dotted notes add up to the lengths of the chart."""
    assert_sounds(song(f"{bar}\ntune: {tune}", meter=metre, octave="4"))


def test_a_tie_over_a_bar_line_is_one_note():
    """A note that is held into the next bars sounds once, as long as all of it."""
    assert_sounds(song("1 | 4 | 5 | 1\ntune: 1 - - 2 | - - 3 (- 4) | - | 0 5 - -", octave="4"))
