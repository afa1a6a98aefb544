"""The chords of a song as they sound."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings

from fifthwise.chart import Timeline
from fifthwise.strings import LineFault
from fifthwise.strings.lines import changes_of, chord_roles, number_text
from fifthwise.strings.lines.changes import change_at
from fifthwise.theory import chord_degrees, read_degree
from tests.strings.lines.songs import song
from tests.strings.lines.strategies import progressions


def times(body, **head):
    """Start and length of each chord."""
    return [(change.starts_at, change.length) for change in changes_of(*song(body, **head))]


def test_a_push_begins_early_and_cuts_what_was_there():
    """An eighth before its place; over the first bar it begins in the count-in."""
    assert times("1.push | 4 | 5.push") == [
        (Fraction(-1, 2), Fraction(9, 2)), (4, Fraction(7, 2)), (Fraction(15, 2), Fraction(9, 2)),
    ]  # fmt: skip


def test_a_late_chord_lets_the_one_before_go_on():
    """An eighth after its place."""
    assert times("1 | 4.late") == [(0, Fraction(9, 2)), (Fraction(9, 2), Fraction(7, 2))]


def test_a_stop_is_struck_and_silences_end_a_chord():
    """A stop lasts an eighth; an NC and a rest are silence."""
    assert times("1.stop | NC | 4 / 0 /") == [(0, Fraction(1, 2)), (8, 2)]


def test_a_held_chord_over_two_bars_is_one():
    """A hold adds its length."""
    (change,) = changes_of(*song("1.hold | -"))
    assert (change.length, change.rings) == (8, True)


def test_a_chord_comes_again_only_without_a_silence_and_in_the_same_key():
    """Repeated it is the same; after an NC, a stop or a change of key it is new."""
    changes = changes_of(*song("1 | 1 | NC | 1 | 1.stop | 1\n# b\n[key +2] 1"))
    assert [change.again for change in changes] == [False, True, False, True, False, False]


def test_a_chord_without_time_is_left_out():
    """A push of the next chord swallows one that lasts an eighth."""
    changes = changes_of(*song("1 | (4 5.push) / / /"))
    assert [str(change.chord.root) for change in changes] == ["1", "5"]
    assert changes[0].length == 4


def test_a_place_names_the_bar_its_section_and_the_chord():
    """The number is written as the song's own numbering has it."""
    changes = changes_of(*song("# verse\n1 | 3/5", key="A minor", minor="natural"))
    assert [change.where for change in changes] == ["bar 1 (verse), chord 1", "bar 2 (verse), chord 3/5"]
    chart, _ = song("1", key="A minor", minor="natural")
    assert number_text(chart, changes[1].chord, chart.key) == "3/5"


def test_the_chord_that_holds_is_found_by_time():
    """After a stop the chord still holds; in an NC there is none."""
    changes = changes_of(*song("1.stop | NC | 4"))
    held = [change_at(changes, Fraction(at)) for at in (-1, 0, 3, 4, 7, 8, 11, 12)]
    assert [change and str(change.chord.root) for change in held] == [
        None,
        "1",
        "1",
        None,
        None,
        "4",
        "4",
        None,
    ]


@pytest.mark.parametrize("body", ["NC | 0", "0"])
def test_a_song_without_chords_is_told(body):
    """The fault says where and how to mend it."""
    with pytest.raises(LineFault, match=r"Net Loft: the song has no chords\. Write a chord in a bar"):
        changes_of(*song(body))
    with pytest.raises(LineFault, match="no chords"):
        changes_of(song(body)[0], Timeline((), (), ()))


@settings(deadline=None)
@given(progressions())
def test_chords_follow_each_other(made):
    """Each chord has time and ends before the next one begins."""
    changes = changes_of(*made)
    for before, after in pairwise(changes):
        assert before.length > 0
        assert before.end <= before.until <= after.starts_at


@pytest.mark.parametrize(
    ("chord", "roles"),
    [
        ("1", "1 root, 3 third, 5 fifth"),
        ("2-7", "2 root, 4 third, 6 fifth, 1 seventh"),
        ("57sus", "5 root, 1 third, 2 fifth, 4 seventh"),
        ("5sus2", "5 root, 6 third, 2 fifth"),
        ("59sus", "5 root, 1 third, 2 fifth, 4 seventh, 6 colour"),
        ("46", "4 root, 6 third, 1 fifth, 2 seventh"),
        ("513", "5 root, 7 third, 2 fifth, 4 seventh, 6 colour, 1 colour, 3 colour"),
        ("7o7", "7 root, 2 third, 4 fifth, b6 seventh"),
        ("1(add9)", "1 root, 3 third, 5 fifth, 2 colour"),
        ("1(5)", "1 root, 5 fifth"),
        ("1/2", "1 root, 3 third, 5 fifth"),
    ],
)
def test_each_tone_has_its_role(chord, roles):
    """Suspensions stand for the third, a sixth alone for the seventh; a strange bass is no tone.

    Common practice, no source.
    """
    (change,) = changes_of(*song(chord))
    tones = {tone.degree: tone.role for tone in chord_roles(change)}
    assert tones == {read_degree(degree): role for degree, role in map(str.split, roles.split(", "))}
    assert set(tones) <= set(chord_degrees(change.chord))
