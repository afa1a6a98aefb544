import pytest

from fifthwise.chart import repeat_groups, unfold
from tests.chart.texts import bars_of, chart_of, faults_of, only_fault, played


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("|: 1 | 4 :| 5", "1 4 1 4 5"),
        ("1 |: 4 :| 5", "1 4 4 5"),
        ("1 | 4 :| 5", "1 4 1 4 5"),
        ("|: 1 | 4 :| x3", "1 4 1 4 1 4"),
        ("|: 1 :| x2 | 4", "1 1 4"),
        ('|: 1 :| vamp "till cue" | 4', "1 1 1 1 4"),
        ("|: 1 :| vamp", "1 1 1 1"),
        ("|: 1 :|: 4 :|", "1 1 4 4"),
        ("|: 1 :||: 4 :|", "1 1 4 4"),
        ("|: 1 :|| 4", "1 1 4"),
        ("1 | 4 :|: 5 :| x3", "1 4 1 4 5 5 5"),
        ("|: 1 | 4\n5 | 1 :|\n6-", "1 4 5 1 1 4 5 1 6-"),
        ("|: 1 |\n:| 4", "1 1 4"),
        ("# a\n1 :|\n# b\n4 :|", "1 1 4 4"),
        ("V:|", "5 5"),
        ("Am:| F", "6- 6- 4"),
    ],
)
def test_repeats_are_played_as_often_as_they_say(text, order):
    """Three times in all for ``x3``, four for a vamp; a first ``:|`` goes back to the section's start."""
    assert played(text) == order


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("|: 1 | [1.] 4 :| [2.] 5 || 6-", "1 4 1 5 6-"),
        ("|: 1 | [1.] 4 :| [2.] 5", "1 4 1 5"),
        ("1 | [1.] 4 :| [2.] 5", "1 4 1 5"),
        ("|: 1 | [1. 2.] 4 :| [3.] 5 || 6-", "1 4 1 4 1 5 6-"),
        ("|: 1 | [1.] 4 :| [2.] 5 :| [3.] 6- | 2- || 1", "1 4 1 5 1 6- 2- 1"),
        ("|: 1 | [1.] 4 | 5 | 1 :| [2.] b7 || 1", "1 4 5 1 1 b7 1"),
        ("|: 1 | [1. 3.] 4 :| [2.] 5 :|", "1 4 1 5 1 4"),
        ("|: 1 | [1.] 4 :| [2.] 5 :|| 6- | 2- :|", None),
        ("1 | [1.] 4 :| [2.] 5 || |: 6- | [1.] 2- :| [2.] 3-", "1 4 1 5 6- 2- 6- 3-"),
        ("# a\n|: 1 | [1.] 4 :| [2.] 5\n# b\n6-", "1 4 1 5 6-"),
        ("|: [1.] 4 :| [2.] 5", "4 5"),
    ],
)
def test_endings_are_played_in_their_passes(text, order):
    """An ending runs to the next ending, ``:|``, ``||`` or heading; every ``:|`` goes back to one place."""
    if order is None:
        assert faults_of(text)
    else:
        assert played(text) == order


def test_a_vamp_is_marked_open():
    """Each of its bars carries the cue, and the bar says that it is a vamp."""
    timeline = unfold(chart_of('1 |: 4 | 5 :| vamp "till cue" | 1'))
    assert [bar.vamp for bar in timeline.bars] == [None, *["till cue"] * 8, None]
    assert [bar.repeat_pass for bar in timeline.bars] == [1, 1, 1, 2, 2, 3, 3, 4, 4, 1]


def test_two_signs_in_one_are_an_end_and_a_start():
    """``:|:`` and ``:||:`` mean ``:| |:``; the doubled line is not kept apart."""
    assert bars_of("|: 1 :|: 4 :|") == bars_of("|: 1 :||: 4 :|") == bars_of("|: 1 :| |: 4 :|")


@pytest.mark.parametrize(
    ("text", "column", "what", "fix"),
    [
        ("|: 1 | 4", 1, "the repeat is not closed before its section ends", "Write ':|' after its last bar"),
        ("1 :| 4 :|", 6, "this ':|' has no '|:' to go back to", "Open the repeat with '|:'"),
        ("|: 1 | |: 4 :|", 8, "a repeat opens inside a repeat", "Close the first with ':|'"),
        (":| 1", 1, "the repeat has no bars", "Write bars before ':|'"),
        ("1 |: :| 4", 6, "the repeat opens and closes nothing", "Write its bars"),
        ("|: 1 | [1.] 4 :| [3.] 5", 8, "the endings are 1. 3.", "Number them 1, 2 … without a gap"),
        ("|: 1 | [1.] 4 :| [1.] 5", 8, "the endings are 1. 1.", "Number them 1, 2 … without a gap"),
        ("|: 1 | [2.] 4 :|", 8, "the endings are 2.", "Number them 1, 2 … without a gap"),
        ("|: 1 | [1.] 4 | [2.] 5", 8, "ending 1. does not go back", "Write ':|' after its last bar"),
        ("|: 1 | [1.] 4 | 5", 8, "the ending has no ':|'", "Write ':|' after its last bar"),
        ("|: 1 | [1.] 4 :| 5", 8, "the only ending goes back", "Open the bars of the last pass with '[2.]'"),
        (
            "|: 1 | [1.] 4 :| x3 | [2.] 5",
            8,
            "the endings say how often it plays",
            "Leave the 'x' or 'vamp' out",
        ),
        ("|: 1 | [1.] 4 :| vamp | [2.] 5", 8, "the endings say how often it plays", "Leave the 'x'"),
        (
            "|: 1 | [1.] 4 :| [2.] 5 |: 6- :|",
            25,
            "a repeat opens inside an ending",
            "Close the endings first with '||'",
        ),
        ("|: 1 :| | [1.] 4 :| [2.] 5", 11, "this ending belongs to no repeat", "Open the repeat with '|:'"),
        ("|: 1 :| x1", 9, "'x1' is out of range", "Write x2 to x32"),
        ("|: 1 :| x99", 9, "'x99' is out of range", "Write x2 to x32"),
        ("|: 1 | [0.] 4 :| 5", 8, "'[0.]' is no ending", "Number endings upwards from 1"),
        ("|: 1 | [2. 1.] 4 :| 5", 8, "'[2. 1.]' is no ending", "Number endings upwards from 1"),
    ],
)
def test_repeats_at_fault_say_so_at_their_bar(text, column, what, fix):
    """Where the bar begins, or at the sign itself."""
    found = only_fault(text)
    assert (found.line, found.column, found.what) == (5, column, what)
    assert found.fix.startswith(fix)


def test_a_repeat_across_a_heading_is_a_fault_on_both_sides():
    """The first is not closed; the second would go back to its own section's start."""
    assert faults_of("|: 1\n# next\n4") == [(1, 1, "the repeat is not closed before its section ends")]


def test_the_groups_of_a_section_can_be_asked_for():
    """Start, body, endings and passes."""
    (group,), faults = repeat_groups(bars_of("|: 1 | 4 | [1.] 5 :| [2.] 6- | 2- || 1"))
    assert (group.start, group.body_end, group.end, group.passes) == (0, 1, 4, 2)
    assert [(e.numbers, e.start, e.end, e.goes_back) for e in group.endings] == [
        ((1,), 2, 2, True), ((2,), 3, 4, False)
    ]  # fmt: skip
    assert faults == ()
