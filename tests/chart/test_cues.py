import pytest

from fifthwise.chart import Cue, parse, write_chart
from tests.chart.texts import bars_of, chart_of, faults_of, only_fault, q, song


@pytest.mark.parametrize(
    ("text", "places"),
    [
        ('"in" 1 | 4', [[0], []]),
        ('1 "half" 4', [[2]]),
        ('1 4 "end" | 5', [[4], []]),
        ('1 "two" / "three" / /', [[1, 2]]),
        ('"a" "b" 1', [[0, 0]]),
        ('1 | "@fiddle fills" 4', [[], [0]]),
        ('[pickup 1] "lift" 5 | 1', [[0], []]),
        ('|: "go" 1 4 :|', [[0]]),
        ('1 "x" | % "y"', [[4], [4]]),
        ('"x" %', None),
    ],
)
def test_a_cue_stands_where_it_is_written(text, places):
    """Before a token, or after the last chord, counted in quarters from the start of the bar."""
    if places is None:
        assert faults_of(text)
    else:
        assert [[cue.at for cue in bar.cues] for bar in bars_of(text)] == places


def test_a_cue_may_be_for_one_player():
    """``@fiddle`` or ``@all``, in any letters; others are everyone's."""
    cues = bars_of('"fills" "@fiddle chops on 2" "@All: now" "@fiddle" 1')[0].cues
    assert [(cue.player, cue.text) for cue in cues] == [
        (None, "fills"),
        ("fiddle", "chops on 2"),
        ("all", "now"),
        ("fiddle", ""),
    ]


def test_a_cue_may_follow_a_heading():
    """It belongs to the section."""
    (section,) = chart_of('# verse "@fiddle chops" "quiet"\n1').sections
    assert section.cues == (Cue("chops", "fiddle"), Cue("quiet"))


def test_a_cue_after_the_last_bar_line_of_a_section_belongs_to_its_last_chord():
    """On the same line, or alone on the last one."""
    for text in ('1 | 4 | "end"', '1 | 4 |\n"end"', '1 | 4 :| "end"'):
        assert bars_of(text)[-1].cues == (Cue("end", None, q("4")),)


@pytest.mark.parametrize(
    "text",
    ["1 | [2/4] 4 5", '1 "x" / "y" 4 5', '1 "x" / / /', '0 "x" / / /', '1 4 "x" 5 1', '1 | - "x" / / /'],
)
def test_a_cue_keeps_its_place_when_it_is_written(text):
    """Even where the bar would be shorter without it."""
    chart = chart_of(text)
    assert parse(write_chart(chart)) == chart
    assert text in write_chart(chart)


def test_an_open_cue_is_a_fault_and_hides_its_bar_only():
    """It reaches to the bar line."""
    fault = only_fault('1 | 4 "go on, all | 5')
    assert (fault.column, fault.length, fault.what) == (7, 11, "the cue is not closed")
    assert song("x")  # the rest of the line is read, or there would be more faults


def test_a_vamps_cue_is_no_cue_of_a_bar():
    """It says when the vamp ends."""
    first, second = bars_of('|: 1 :| vamp "till cue" "again" 4')
    assert (first.repeat_end.vamp, first.cues, [c.text for c in second.cues]) == ("till cue", (), ["again"])
