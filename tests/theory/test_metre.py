from fractions import Fraction

import pytest
from hypothesis import given

from fifthwise.theory import MetreFault, read_metre
from tests.strategies import metres


@given(metres())
def test_a_metre_written_is_read_again(metre):
    """Writing and reading are reverses."""
    assert read_metre(str(metre)) == metre


@given(metres())
def test_felt_beats_fill_the_bar(metre):
    """The beats of a bar are its length, exactly."""
    assert metre.beats * metre.beat == metre.length
    assert metre.share <= metre.beat


@pytest.mark.parametrize(
    ("text", "length", "beat", "beats", "tempo_unit"),
    [
        ("4/4", 4, 1, 4, 1),
        ("3/4", 3, 1, 3, 1),
        ("2/4", 2, 1, 2, 1),
        ("2/2", 4, 2, 2, 2),
        ("3/2", 6, 2, 3, 2),
        ("6/8", 3, Fraction(3, 2), 2, Fraction(3, 2)),
        ("12/8", 6, Fraction(3, 2), 4, Fraction(3, 2)),
        ("3/8", Fraction(3, 2), Fraction(3, 2), 1, Fraction(3, 2)),
        ("7/8 2+2+3", Fraction(7, 2), Fraction(1, 2), 7, 1),
        ("9/8 2+2+2+3", Fraction(9, 2), Fraction(1, 2), 9, 1),
        ("8/8 3+3+2", 4, Fraction(1, 2), 8, 1),
    ],
)
def test_metres_have_their_beats(text, length, beat, beats, tempo_unit):
    """Lengths are in quarters; compound metres are felt in dotted quarters. Common practice, no source."""
    metre = read_metre(text)
    assert (metre.length, metre.beat, metre.beats, metre.tempo_unit) == (length, beat, beats, tempo_unit)


def test_chords_in_halves_may_share_down_to_a_quarter():
    """In x/2 a felt beat is a half, but two chords may share it."""
    assert read_metre("2/2").share == 1
    assert read_metre("6/8").share == Fraction(3, 2)


def test_blanks_in_a_metre_do_not_matter():
    """Written tight or loose, it is one metre."""
    assert read_metre(" 7 / 8  2 + 2 + 3 ") == read_metre("7/8 2+2+3")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("waltz", r"'waltz' is no metre\. Write it as in '3/4', '6/8' or '7/8 2\+2\+3'\."),
        ("4", "is no metre"),
        ("4/16", r"counts in notes of 1/16\. Count in halves, quarters or eighths\."),
        ("4/3", "counts in notes of 1/3"),
        ("0/4", r"has 0 notes in a bar\. Write 1 to 32\."),
        ("33/4", "has 33 notes in a bar"),
        ("4/4 2+2", r"names groups\. Leave the groups out: only eighths need them\."),
        ("7/8 2+2+2", r"add up to 6\. Make them add up to 7\."),
        ("7/8 7+0", r"add up to 7"),
        ("7/8", r"does not say how its eighths are grouped\. Name the groups, as in '7/8 2\+2\+3'\."),
        ("10/8", r"as in '10/8 2\+2\+2\+2\+2'"),
        ("1/8", r"as in '1/8 1'"),
    ],
)
def test_what_is_no_metre_is_refused_with_the_mend(text, message):
    """The message says what to write."""
    with pytest.raises(MetreFault, match=message):
        read_metre(text)
