import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.chart import FEELS
from fifthwise.strings.bowing import bowing_named, bowing_text, bowings_for, sign_of
from fifthwise.theory import read_metre
from tests.strategies import metres


@pytest.mark.parametrize(
    ("name", "metre", "lines"),
    [
        ("bow and chop", "4/4", ["1 & 2 & 3 & 4 &", "d . x . d . x ."]),
        ("simple shuffle", "4/4", ["1 & 2 & 3 & 4 &", "d - u d u - d u", "    >       >"]),
        ("chop on the backbeat", "3/4", ["1 2 3", ". x x"]),
        ("two and one", "6/8", ["1 & a 2 & a", "d ~ u d ~ u"]),
        ("simple shuffle", "2/4", ["1 e & a 2 e & a", "d - u d u - d u", "    >       >"]),
        ("down on each group", "7/8 2+2+3", ["1 2 3 4 5 6 7", "d u d u d ~ u"]),
        (
            "chop on the backbeat",
            "11/8 2+2+3+2+2",
            ["1  2  3  4  5  6  7  8  9  10 11", ".  x  .  x  .  x  x  .  x  .  x"],
        ),
    ],
)
def test_strokes_stand_under_their_counts(name, metre, lines):
    """The counts are those that players say; common practice, no source."""
    assert bowing_text(bowing_named(name, read_metre(metre))).splitlines() == lines


@given(st.sampled_from(sorted(FEELS)), metres())
def test_the_text_says_every_stroke_once(feel, metre):
    """Read back column by column, letters, holds and accents are the pattern's strokes."""
    for bowing in bowings_for(feel, metre):
        counts, marks, *accents = bowing_text(bowing).splitlines()
        letters = [mark for mark in marks.split() if mark not in ("-", ".")]
        heard = [stroke for stroke in bowing.strokes if stroke.kind != "rest"]
        assert letters == [sign_of(stroke.kind).text for stroke in heard]
        assert len(counts.split()) == len(marks.split())
        width = metre.length / len(counts.split())
        places = [place * width for place, mark in enumerate(marks.split()) if mark not in ("-", ".")]
        assert places == [stroke.onset for stroke in heard]
        assert "".join(accents).count(">") == sum(stroke.accent for stroke in bowing.strokes)
