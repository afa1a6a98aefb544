import pytest

from fifthwise.chart import (
    parse,
    read_chart,
    read_tune_pitch,
    tune_note_text,
    tune_range,
    unfold,
    write_chart,
)
from fifthwise.theory import read_degree
from tests.chart.texts import bars_of, chart_of, faults_of, only_fault, q, song


def tune_of(body, **fields):
    """Each bar's tune as (text, quarters)."""
    return [
        None if bar.tune is None else [(tune_note_text(n), str(n.length)) for n in bar.tune]
        for bar in bars_of(body, **fields)
    ]


def test_a_tune_has_one_token_a_felt_beat():
    """A dash holds, 0 rests."""
    assert tune_of("1 | 4\ntune: 3 - 5 0 | 1' - - -") == [[("3", "2"), ("5", "1"), ("0", "1")], [("1'", "4")]]


def test_a_lone_rest_or_hold_fills_the_bar():
    """And a hold goes on from the bar before."""
    assert tune_of("1 | 4 | 5\ntune: 1 - - - | - | 0") == [[("1", "4")], [("-", "4")], [("0", "4")]]
    assert [(n.starts_at, n.length) for n in unfold(chart_of("1 | 4 | 5\ntune: 1 - - - | - | 0")).notes] == [
        (0, 8)
    ]


@pytest.mark.parametrize(
    ("metre", "text", "expected"),
    [
        (
            "4/4",
            "(1 2) 3 (4 5 6) 0",
            [("1", "1/2"), ("2", "1/2"), ("3", "1"), ("4", "1/3"), ("5", "1/3"), ("6", "1/3"), ("0", "1")],
        ),
        ("4/4", "(1 (2 3)) - - (- 4)", [("1", "1/2"), ("2", "1/4"), ("3", "11/4"), ("4", "1/2")]),
        ("6/8", "(1 2 3) 4", [("1", "1/2"), ("2", "1/2"), ("3", "1/2"), ("4", "3/2")]),
        (
            "12/8",
            "(1 - 2) 3 - (5 4 3)",
            [("1", "1"), ("2", "1/2"), ("3", "3"), ("5", "1/2"), ("4", "1/2"), ("3", "1/2")],
        ),
        ("2/2", "(1 2) 3", [("1", "1"), ("2", "1"), ("3", "2")]),
        ("7/8 2+2+3", "1 - 2 - 3 4 5", [("1", "1"), ("2", "1"), ("3", "1/2"), ("4", "1/2"), ("5", "1/2")]),
        ("3/8", "1", [("1", "3/2")]),
    ],
)
def test_brackets_divide_a_beat_evenly_and_nest(metre, text, expected):
    """The felt beat is the metre's."""
    assert tune_of(f"1\ntune: {text}", meter=metre) == [expected]


@pytest.mark.parametrize(
    ("text", "written"),
    [
        ("1", "1"),
        ("b3", "b3"),
        ("#4", "#4"),
        ("7,", "7,"),
        ("5,,", "5,,"),
        ("1'", "1'"),
        ("3''", "3''"),
        ("8", "1'"),
        ("9", "2'"),
        ("10", "3'"),
        ("8,", "1"),
        ("15", "1''"),
        ("♭3", "b3"),
        ("1’", "1'"),
    ],
)
def test_degrees_have_accidentals_and_octave_marks(text, written):
    """8, 9 and so on are read as 1', 2'."""
    assert tune_of(f"1\ntune: {text} - - -") == [[(written, "4")]]


@pytest.mark.parametrize("text", ["3_", "{b3}3", "{2 b3}3", "/3", "\\3", "3&5", "{b3}/3&5'_", "x"])
def test_a_note_carries_its_bowing_and_ornaments(text):
    """Slur, grace notes, slides, double stops and chops come back as written."""
    assert tune_of(f"1\ntune: {text} - - -") == [[(text, "4")]]


def test_a_note_is_read_into_its_parts():
    """Grace, slide, pitches and slur."""
    note = bars_of("1\ntune: {b3 3}/3&5'_ - - -")[0].tune[0]
    assert [str(p.degree) for p in note.grace] == ["b3", "3"]
    assert [(str(p.degree), p.octave) for p in note.pitches] == [("3", 0), ("5", 1)]
    assert (note.slide, note.slur, note.kind, note.length) == ("/", True, "note", 4)


def test_a_pickup_has_its_own_bar_of_tune():
    """With a fraction its first token lasts the fraction."""
    text = "[pickup 3/2] 0\ntune: 5, 6,\n1\ntune: 1 - - -"
    assert tune_of(text) == [[("5,", "1/2"), ("6,", "1")], [("1", "4")]]
    assert [(n.starts_at, n.length) for n in unfold(chart_of(text)).notes] == [
        (0, q("1/2")),
        (q("1/2"), 1),
        (q("3/2"), 4),
    ]


def test_a_tune_line_may_span_several_lines_of_bars():
    """It follows them in text order."""
    spanning = chart_of("1 | 4\n5 | 1\ntune: 1 - - - | 2 - - - | 3 - - - | 4 - - -")
    assert [bar.tune[0].pitches[0].degree.step for bar in spanning.sections[0].bars] == [1, 2, 3, 4]


def test_tune_lines_under_several_lines_of_bars_follow_in_text_order():
    """As many bars in all; the line breaks need not agree."""
    two = chart_of("1 | 4\n5 | 1\ntune: 1 - - - | 2 - - -\ntune: 3 - - - | 4 - - -")
    odd = chart_of("1 | 4\n5 | 1\ntune: 1 - - -\ntune: 2 - - - | 3 - - - | 4 - - -")
    assert two == odd
    assert [bar.tune[0].pitches[0].degree.step for bar in two.sections[0].bars] == [1, 2, 3, 4]


def test_a_tune_line_belongs_to_the_line_right_above_it():
    """Lines before may have none."""
    assert [bar.tune is not None for bar in bars_of("1 | 4\n5 | 1\ntune: 3 - - - | 4 - - -")] == [
        False,
        False,
        True,
        True,
    ]


def test_words_may_stand_between_bars_and_their_tune():
    """In either order."""
    one = chart_of("1 | 4\nwords: Ebb\ntune: 1 - - - | 2 - - -")
    other = chart_of("1 | 4\ntune: 1 - - - | 2 - - -\nwords: Ebb")
    assert one == other
    assert one.sections[0].lines[0].words == ("Ebb",)


def test_a_tune_line_may_span_lines_that_have_words():
    """The words stay with their own lines."""
    chart = chart_of("1 | 4\nwords: Ebb\n5 | 1\ntune: 1 - - - | 2 - - - | 3 - - - | 4 - - -\nwords: Flood")
    assert [line.words for line in chart.sections[0].lines] == [("Ebb",), ("Flood",)]
    assert [bar.tune[0].pitches[0].degree.step for bar in chart.sections[0].bars] == [1, 2, 3, 4]


def test_the_tune_counts_from_the_same_home_as_the_chords():
    """In natural numbering 3 is b3."""
    assert tune_of("1-\ntune: 3 #6 b7 0", key="Am", minor="natural")[0][:2] == [("b3", "1"), ("6", "1")]
    assert chart_of("1-", key="Am", minor="natural", lowest="3").lowest.degree == read_degree("b3")
    text = song("1-\ntune: 3 #6 7 0", key="Am", minor="natural", lowest="3,", highest="#7")
    assert "tune: 3 #6 7 0" in write_chart(parse(text))


@pytest.mark.parametrize(
    ("text", "line", "column", "what"),
    [
        ("1 | 4\ntune: 1 - - -", 2, 1, "1 bar of tune for 2 bars"),
        ("1 | 4\ntune: 1 - - - | 2 - - - | 3 - - -", 2, 1, "3 bars of tune for 2 bars"),
        ("1\ntune: 1 2 3", 2, 7, "3 tokens of tune for 4 beats"),
        ("1 | 4\ntune: 1 - - - |  2 3 4 5 6 | ", 2, 18, "5 tokens of tune for 4 beats"),
        ("[pickup 3/2] 5 1\ntune: 1", 2, 7, "1 token of tune for 3/2 beats"),
        ("1\ntune: 1 h 3 4", 2, 9, "'h' is no note of a tune"),
        ("1\ntune: 1 2 } 3", 2, 11, "'}' is no note of a tune"),
        ("1\ntune: 1 {2 3 4", 2, 9, "'{2' is no note of a tune"),
        ("1\ntune: 1 99 3 4", 2, 9, "'99' is no note of a tune"),
        ("1\ntune: 1 (2 3 4 5", 2, 9, "the group is not closed"),
        ("1\ntune: 1 2) 3 4", 2, 10, "this ')' closes nothing"),
        ("1\ntune: 1 () 3 4", 2, 9, "the group is empty"),
        ("1\ntune: " + "(" * 7 + "1" + ")" * 7 + " 2 3 4", 2, 13, "the groups nest too deep"),
        ("1\ntune: - 2 3 4", 2, 7, "nothing sounds before this '-'"),
        ("1 | 4\ntune: 1 - - - | | ", 2, 16, "this bar of the tune is empty"),
        ("tune: 1\n1", 1, 1, "'tune:' stands under no bars"),
        ("1\n# b\ntune: 1 - - -\n4", 3, 1, "'tune:' stands under no bars"),
        ("1\ntunes: 1 - - -", 2, 1, "unknown line 'tunes:'"),
    ],
)
def test_a_tune_at_fault_says_so_at_its_place(text, line, column, what):
    """The bars are read all the same."""
    found = faults_of(text)
    assert (line, column, what) in found
    assert len(found) == 1


def test_a_double_bar_line_in_a_tune_is_one_bar_line():
    """As copied from the bars above."""
    assert faults_of("1 || 4 ||\ntune: 1 - - - || 2 - - - ||") == []


# Words


def test_several_words_lines_are_verses():
    """Kept as they are; an empty one is a silent verse."""
    text = "1 | 4\nwords:  Down along \nwords:\nwords: Every | lamp\n"
    assert chart_of(text).sections[0].lines[0].words == ("Down along", "", "Every | lamp")
    assert parse(write_chart(chart_of(text))) == chart_of(text)


def test_words_with_bar_lines_align_bar_by_bar():
    """Fewer bars are fine, more are not."""
    assert faults_of("1 | 4 | 5\nwords: | Down | along |\n") == []
    fault = only_fault("1 | 4\nwords: a | b | c\n")
    assert (fault.line, fault.column, fault.what) == (6, 8, "3 bars of words for 2 bars")


def test_words_belong_to_the_line_above_them():
    """Each line of bars has its own."""
    lines = chart_of("1 | 4\nwords: a\n5 | 1\nWORDS: b\n").sections[0].lines
    assert [line.words for line in lines] == [("a",), ("b",)]


def test_words_without_bars_are_a_fault():
    """Nothing stands above them."""
    assert faults_of("# a\nwords: Down\n1") == [(2, 1, "'words:' stands under no bars")]
    assert only_fault("1\nwrods: Down").fix == "Did you mean 'words:'?"


# Fingers


def test_fingers_stand_token_for_token_under_a_tune():
    """String and finger, open strings, free notes; a hold and a rest count as tokens."""
    bars = bars_of("1 | 4\ntune: 1 (2 3) - 0 | 3&5 - x -\nfingers: A2 (D0 .) . . | A2&E1 . . .")
    assert [note.fingers for note in bars[0].tune] == [("A2",), ("D0",), (), ()]
    assert [note.fingers for note in bars[1].tune] == [("A2", "E1"), ()]


def test_fingers_under_several_tune_lines_belong_to_their_own():
    """Each under its tune line."""
    bars = bars_of("1 | 4\ntune: 1 - - -\nfingers: A1 . . .\ntune: 2 - - -\nfingers: A2 . . .")
    assert [bar.tune[0].fingers for bar in bars] == [("A1",), ("A2",)]


@pytest.mark.parametrize(
    ("fingers", "column", "what"),
    [
        ("A2 . .", 10, "3 fingers for 4 tokens of tune"),
        ("A2 . . . | D0", 1, "2 bars of fingers for 1 bar of tune"),
        ("A2 H3 . .", 13, "'H3' pins no finger here"),
        ("A2 . A1 .", 15, "'A1' pins no finger here"),
        ("A2&E1 . . .", 10, "2 fingers for 1 note"),
    ],
)
def test_fingers_at_fault(fingers, column, what):
    """Too few, for no note, or no pin."""
    assert faults_of(f"1\ntune: 1 2 0 -\nfingers: {fingers}") == [(3, column, what)]


def test_fingers_without_a_tune_are_a_fault():
    """There is nothing to finger."""
    assert faults_of("1\nfingers: A2") == [(2, 1, "'fingers:' stands under no tune")]


def test_a_faulty_bar_of_tune_is_not_fingered():
    """One fault, not two."""
    assert faults_of("1\ntune: 1 2 3\nfingers: A1 A2 A3") == [(2, 7, "3 tokens of tune for 4 beats")]


# The whole


def test_a_new_note_ends_what_a_pickup_finds_sounding():
    """There is one tune: the pickup's note cuts the long note of the bar before."""
    text = "# a\n1\ntune: 1 - - -\n# b\n[pickup 1] 0\ntune: 5\n4\ntune: 3 - - -\n"
    assert [(n.starts_at, n.length) for n in unfold(chart_of(text)).notes] == [(0, 3), (3, 1), (4, 4)]


def test_a_range_is_that_of_the_tune_or_of_the_head():
    """Where no tune is written, the head's lowest and highest."""
    chart = chart_of("1\ntune: 5, 1 3' 0")
    found = tune_range(chart, unfold(chart))
    assert (found.lowest, found.highest, found.quarters) == (read_tune_pitch("5,"), read_tune_pitch("3'"), 3)
    silent = chart_of("1", lowest="5,", highest="4'")
    assert tune_range(silent, unfold(silent)).lowest == read_tune_pitch("5,")
    assert tune_range(chart_of("1"), unfold(chart_of("1"))) is None


def test_a_range_counts_a_last_chorus_that_goes_up():
    """A 4 one half step up is lower than a 5 at home, three half steps up it is higher.

    Derived by arithmetic: 4 lies 5 half steps above 1, 5 lies 7; 5 + 1 < 7 < 5 + 3.
    """
    body = "# verse\n1\ntune: 1 3 5 -\n# chorus\n4\ntune: 2 3 4 -\n"
    up = {by: chart_of(body, form=f"verse, [key +{by}], chorus") for by in (1, 3)}
    tops = {by: tune_range(chart, unfold(chart)).highest for by, chart in up.items()}
    assert tops == {1: read_tune_pitch("5"), 3: read_tune_pitch("4")}


def test_a_tune_is_written_as_it_is_read():
    """Groups that nest come back as even shares; the chart is the same."""
    tune = "tune: (1 (2 3)) - (- 4 5) 0 | 0 | (1 2_ 3) x {b3}/3&5' -"
    fingers = "fingers: (. (A1 .)) . (. . .) . | . | (A1 . .) . A2&E1 ."
    text = song(f"1 | 4 | 5\n{tune}\n{fingers}\n")
    chart = parse(text)
    assert parse(write_chart(chart)) == chart
    assert read_chart(write_chart(chart)).faults == ()
