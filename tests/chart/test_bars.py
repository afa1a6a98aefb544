import pytest

from fifthwise.chart import parse, read_chart, write_chart
from tests.chart.texts import bars_of, chart_of, entries_of, faults_of, only_fault, q, slots_of, song


def lengths(bar):
    """The lengths of a bar's slots, as text."""
    return [str(length) for _, length in bar]


@pytest.mark.parametrize(
    ("text", "count"),
    [
        ("1 | 4 | 5", 3),
        ("| 1 | 4 | 5 |", 3),
        ("1 | 4 |\n| 5 | 1", 4),
        ("|1|4|", 2),
        ("1\n4\n5", 3),
        ("1 |", 1),
    ],
)
def test_a_bar_line_or_a_line_end_parts_bars(text, count):
    """Leading and trailing bar lines say nothing."""
    assert len(bars_of(text)) == count


def test_lines_are_kept_as_they_are_on_the_page():
    """A line of text is a line of bars."""
    chart = chart_of("1 | 4 | 5\n1 | 5")
    assert [len(line.bars) for line in chart.sections[0].lines] == [3, 2]


def test_a_double_bar_is_kept():
    """At the end of a bar, of a line, and at the start of the next line."""
    assert [b.double_bar for b in bars_of("1 || 4 | 5 ||\n6- | 1")] == [True, False, True, False, False]
    assert [b.double_bar for b in bars_of("1 | 4\n|| 5 | 1 ||")] == [False, True, False, True]


@pytest.mark.parametrize(
    ("text", "column"), [("1 | | 4", 5), ("| | 1", 3), ("1 || | 4", 6), ("1 | |", 5), ("1 | [2/4] | 4", 11)]
)
def test_an_empty_bar_is_a_fault(text, column):
    """Between two bar lines something must stand."""
    assert (1, column, "this bar is empty") in faults_of(text)


def test_a_repeat_sign_makes_no_empty_bar():
    """A sign beside a bar line stands for the same line."""
    assert faults_of("|: 1 | 4 | :| x3 | 5 | |: 1 :|") == []


def test_a_lone_token_fills_the_bar():
    """Chord, rest, NC or hold."""
    assert [lengths(bar) for bar in slots_of("1 | 0 | NC | -")] == [["4"]] * 4
    assert [lengths(bar) for bar in slots_of("1 | /", meter="6/8")] == [["3"], ["3"]]


@pytest.mark.parametrize(
    ("metre", "text", "expected"),
    [
        ("4/4", "1 4", ["2", "2"]),
        ("4/4", "1 4 5 1", ["1", "1", "1", "1"]),
        ("3/4", "1 4 5", ["1", "1", "1"]),
        ("6/8", "1 4", ["3/2", "3/2"]),
        ("9/8", "1 4 5", ["3/2", "3/2", "3/2"]),
        ("12/8", "1 4", ["3", "3"]),
        ("2/2", "1 4", ["2", "2"]),
        ("2/2", "1 4 5 1", ["1", "1", "1", "1"]),
        ("3/2", "1 4 5", ["2", "2", "2"]),
        ("3/2", "1 4", ["3", "3"]),
        ("7/8 2+2+3", "1 4 5", ["1", "1", "3/2"]),
        ("7/8 3+2+2", "1 4 5", ["3/2", "1", "1"]),
        ("5/8 2+3", "1 4", ["1", "3/2"]),
        ("8/8 3+3+2", "1 4", ["2", "2"]),
        ("7/8 2+2+3", "1 4 5 1 4 5 1", ["1/2"] * 7),
        ("4/4", "NC 4", ["2", "2"]),
    ],
)
def test_chords_share_a_bar_evenly_in_whole_felt_beats(metre, text, expected):
    """In halves, whole quarters; where the groups are named, a chord a group."""
    assert lengths(slots_of(text, meter=metre)[0]) == expected


@pytest.mark.parametrize(
    ("metre", "text", "shown"),
    [
        ("4/4", "1 4 5", "1 / 4 5"),
        ("3/4", "1 4", "1 / 4"),
        ("6/8", "1 4 5", "1 (4 5)"),
        ("2/2", "1 4 5", "1 (4 5)"),
        ("4/4", "1 4 5 1 4", "1 4 5 (1 4)"),
        ("7/8 2+2+3", "1 4", "1 / / / / / 4"),
    ],
)
def test_chords_that_cannot_share_a_bar_are_a_fault_that_shows_how(metre, text, shown):
    """What is shown can be typed instead, and is sound."""
    fault = only_fault(f"1 | {text} | 5", meter=metre)
    assert (fault.line, fault.column, fault.length) == (6, 5, len(text))
    assert "cannot share" in fault.what
    assert fault.fix == f"Say how long each lasts, as in '{shown}'"
    assert fault.mends == (shown,)
    assert faults_of(shown, meter=metre) == []


def test_far_too_many_chords_are_told_to_be_parted():
    """No example of that length helps anyone."""
    assert only_fault("1 2- " * 30).fix == "Part the bars with '|'"


@pytest.mark.parametrize(
    ("metre", "text", "expected"),
    [
        ("4/4", "6- / 5/7 1", [("6-", "2"), ("5/7", "1"), ("1", "1")]),
        ("4/4", "4 / 1/3 2-7", [("4", "2"), ("1/3", "1"), ("2-7", "1")]),
        ("3/4", "1 (- 5) /", [("1", "3/2"), ("5", "3/2")]),
        ("4/4", "1 0 0 5", [("1", "1"), ("0", "1"), ("0", "1"), ("5", "1")]),
        ("4/4", "0 / / 5", [("0", "3"), ("5", "1")]),
        ("4/4", "NC / / 5", [("NC", "3"), ("5", "1")]),
        ("4/4", "(1 4) 5 / /", [("1", "1/2"), ("4", "1/2"), ("5", "3")]),
        ("4/4", "(1 / 4) 5 / /", [("1", "2/3"), ("4", "1/3"), ("5", "3")]),
        ("4/4", "(1 (4 5)) 5 / /", [("1", "1/2"), ("4", "1/4"), ("5", "1/4"), ("5", "3")]),
        ("6/8", "1 (- / 5)", [("1", "5/2"), ("5", "1/2")]),
        ("2/2", "(1 4) 5", [("1", "1"), ("4", "1"), ("5", "2")]),
        ("7/8 2+2+3", "1 / / 4 / 5 /", [("1", "3/2"), ("4", "1"), ("5", "1")]),
    ],
)
def test_beside_a_stroke_a_rest_or_an_opening_group_every_token_is_a_felt_beat(metre, text, expected):
    """A group is one token; a stroke is one more beat, in a group one more share."""
    bar = bars_of(text, meter=metre)[0]
    assert [(t, str(length)) for t, length in slots_of(text, meter=metre)[0]] == expected
    assert sum(slot.length for slot in bar.slots) == bar.length


@pytest.mark.parametrize(
    ("text", "what", "fix"),
    [
        ("1 / 4", "3 tokens for the 4 beats of 4/4", "1 beat missing, as in '1 / 4 /'"),
        ("1 0", "2 tokens for the 4 beats of 4/4", "2 beats missing, as in '1 0 / /'"),
        ("1 / / / /", "5 tokens for the 4 beats of 4/4", "leave out 1, or group with ( )"),
        ("(1 4)", None, None),
        ("(1 4) 5", "2 tokens for the 4 beats of 4/4", "2 beats missing"),
    ],
)
def test_one_token_a_beat_must_fill_the_bar(text, what, fix):
    """Fewer or more is a fault that says how many."""
    if what is None:
        assert faults_of(text) == []
        return
    fault = only_fault(text)
    assert (fault.column, fault.length, fault.what) == (1, len(text), what)
    assert fix in fault.fix


def test_a_bracket_that_touches_a_chord_is_its_own():
    """``57(b9)`` is a chord, so these two share the bar."""
    assert slots_of("57(b9 #11) 1(add9)")[0] == [("57(b9 #11)", q("2")), ("1(add9)", q("2"))]


def test_a_hold_lengthens_what_came_before_and_starts_no_entry():
    """One held chord over two bars is one entry, a diamond tied."""
    assert entries_of("1.hold | - | 4") == [("1", 0, 8), ("4", 8, 4)]
    assert entries_of("1 | / 4 / /") == [("1", 0, 5), ("4", 5, 3)]
    assert entries_of("1 | - 4") == [("1", 0, 6), ("4", 6, 2)]
    assert entries_of("0 | - | NC | / / / 5") == [("0", 0, 8), ("NC", 8, 7), ("5", 15, 1)]


def test_a_dash_counts_as_a_chord_in_sharing():
    """Three cannot share four beats, with a dash or without."""
    assert slots_of("1 | - 4 5 1")[1] == [("-", q("1")), ("4", q("1")), ("5", q("1")), ("1", q("1"))]
    assert "3 chords cannot share" in only_fault("1 | - 4 5").what


@pytest.mark.parametrize(
    ("text", "column", "mends"),
    [
        ("6 -", 1, ("6-",)),
        ("6 1 5 -", 5, ("5 /",)),
        ("1 | 4 6 - 1", 7, ("6 /",)),
        ("1 | 4 / - 5", 5, ("4 / /",)),
        ("1 | (4 -) 1 4 5", 6, ("4-", "4 /")),
    ],
)
def test_a_dash_behind_a_chord_asks_what_was_meant(text, column, mends):
    """A minor sign gone astray, or one more beat."""
    fault = only_fault(text)
    assert fault.column == column
    assert "is not clear" in fault.what
    assert "(minor) or" in fault.fix
    assert fault.mends == mends


WRONG = [
    "6 -", "4 6 - 1", "4 / - 5", "(4 -) 1 4 5", "4.push -", "5/7 -", "NC -", "57 (b9)", "1 57 (b9)", "15",
    "57b9 1", "5b7", "4 / 5", "1 4 5", "1 5 9", "1 9 5 4 1 2", "6/ -", "1 (4 -) 1 1",
]  # fmt: skip


@pytest.mark.parametrize("bar", WRONG)
def test_a_mend_put_in_the_place_of_its_fault_mends_it(bar):
    """No fault is left at that bar, and the bars beside it are as they were."""
    text = song(f"1 | {bar} | 4")
    whole = read_chart(song("1 | 5 | 4")).chart.sections[0].bars
    for fault in read_chart(text).faults:
        for mend in fault.mends:
            lines = text.split("\n")
            line, at = lines[fault.line - 1], fault.column - 1
            lines[fault.line - 1] = line[:at] + mend + line[at + fault.length :]
            mended = read_chart("\n".join(lines))
            assert mended.faults == (), (fault.what, mend)
            bars = mended.chart.sections[0].bars
            assert len(bars) == 3
            assert (bars[0], bars[2]) == (whole[0], whole[2])


@pytest.mark.parametrize(
    ("text", "mends"),
    [
        ("4.push -", ("4-.push", "4.push /")),
        ("5/7 -", ("5-/7", "5/7 /")),
        ("b7 -", ("b7-", "b7 /")),
        ("NC -", ("NC /",)),
        ("Am -", ("Am /",)),
    ],
)
def test_what_a_stray_dash_may_have_meant_can_be_typed(text, mends):
    """The minor sign stands right behind the number; what has none can only be longer."""
    assert only_fault(f"(1 {text}) 1 1 1").mends == mends


@pytest.mark.parametrize("text", ["- | 1", "/ | 1", "/ 4 / /", "- 4", "(- 4) 5 / /", "[pickup 1] - | 1"])
def test_nothing_can_go_on_before_the_first_chord(text):
    """Both lengtheners need something to lengthen."""
    assert [what for _, _, what in faults_of(text)] == [
        "nothing sounds before this bar, so nothing can go on"
    ]


def test_playing_order_says_what_comes_first():
    """A section may open with a hold as long as the form plays another one before it."""
    text = "# out\n- | 1\n# verse\n4 | 5\n"
    assert faults_of(text, form="verse, out") == []
    assert faults_of(text, form="out, verse") == [
        (2, 1, "nothing sounds before this bar, so nothing can go on")
    ]


def test_a_percent_copies_the_bar_before_it():
    """Chords, their marks and a one-bar metre; not cues, tune or navigation."""
    text = '|: 1 "go" 4.push :| | % | [2/4] 5 | % | 1\ntune: 1 2 3 4 | 0 | 5 6 | 0 | 1 - - -\n'
    first, copy, short, short_copy, last = bars_of(text)
    assert copy.slots == first.slots
    assert copy.copied
    assert (copy.cues, copy.repeat_end) == ((), None)
    assert first.cues
    assert copy.tune != first.tune
    assert (short_copy.metre, short_copy.metre_once) == (short.metre, True)
    assert last.metre.count == 4


def test_a_percent_copies_a_percent():
    """As often as it is written."""
    assert [bar[0][0] for bar in slots_of("1 | % | % | 4")] == ["1", "1", "1", "4"]


def test_marks_may_stand_before_a_percent():
    """A key counts on: the numbers are copied."""
    assert faults_of("1 | [key +2] % | [segno] % [fine]\n") == []
    assert faults_of("[2/4] 1 | [key +2] %") == []


@pytest.mark.parametrize(
    ("text", "place", "what"),
    [
        ("% | 1", (1, 1), "'%' has no bar before it in this section"),
        ("# verse\n1\n# chorus\n% | 1", (4, 1), "'%' has no bar before it in this section"),
        ("|: 1 | [1.] % :| [2.] 5", (1, 13), "'%' opens an ending"),
        ("[pickup 1] 5 | %", (1, 16), "'%' follows a pickup"),
        ("1 | % 4", (1, 5), "'%' stands beside other tokens"),
        ("1 | [2/4] %", (1, 11), "'%' copies a bar of another metre"),
        ("1 | [meter 3/4] %", (1, 17), "'%' copies a bar of another metre"),
        ("[2/4] 1 | [3/4] %", (1, 17), "'%' copies a bar of another metre"),
    ],
)
def test_a_percent_with_nothing_to_copy_is_a_fault(text, place, what):
    """At the first bar of a section or an ending, after a pickup, beside others, in another metre."""
    assert faults_of(text) == [(*place, what)]


def test_a_metre_in_brackets_holds_for_one_bar():
    """One bar of 2/4 inside 4/4."""
    bars = bars_of("1 | [2/4] 4 5 | 1")
    assert [(str(bar.metre), bar.metre_once, bar.length) for bar in bars] == [
        ("4/4", False, 4), ("2/4", True, 2), ("4/4", False, 4)
    ]  # fmt: skip


def test_marks_before_a_chord_come_in_any_order():
    """And after ``|:``."""
    orders = ("[segno] [2/4] [key +2]", "[key +2] [segno] [2/4]", "[2/4] [key +2] [segno]")
    read = [chart_of(f"|: {marks} 1 4 :|") for marks in orders]
    assert read[0] == read[1] == read[2]


@pytest.mark.parametrize("mark", ["[2/4]", "[key +2]", "[segno]", "[1.]", "[tempo 90]"])
def test_a_mark_in_the_middle_of_a_bar_is_a_fault(mark):
    """It belongs before the first chord."""
    fault = only_fault(f"1 | 4 {mark} 5")
    assert (fault.column, fault.length) == (7, len(mark))
    assert fault.what == f"'{mark}' stands in the wrong place"
    assert fault.fix == "Put it before the bar's first chord"


def test_marks_of_one_kind_cannot_stand_together():
    """Which one was meant is not guessed."""
    assert faults_of("[2/4] [3/4] 1") == [(1, 7, "'[3/4]' stands beside another of its kind")]
    assert faults_of("[key +2] [key A] 1") == [(1, 10, "'[key A]' stands beside another of its kind")]
    assert faults_of("[2/4] [key +2] [tempo 90] [feel swing] [segno] 1") == []


def test_a_mark_alone_on_a_line_belongs_to_the_next_bar():
    """So does a cue, and words between are no matter."""
    bars = bars_of('1 | 4\n[key +2]\n"big"\n5 | 1')
    assert [bool(bar.marks) for bar in bars] == [False, False, True, False]
    assert bars[2].cues[0].text == "big"


def test_a_mark_at_a_sections_end_is_a_fault():
    """It has no bar to belong to."""
    assert faults_of("1 | 4\n[key +2]\n# next\n1") == [(2, 1, "the marks at the end belong to no bar")]
    assert faults_of("1 | 4 |:\n") == [(1, 7, "the marks at the end belong to no bar")]


# Pickups


@pytest.mark.parametrize(
    ("metre", "text", "expected"),
    [
        ("4/4", "[pickup 1] 5", ["1"]),
        ("4/4", "[pickup 2] 5 1", ["1", "1"]),
        ("4/4", "[pickup 3] 0 5 /", ["1", "2"]),
        ("4/4", "[pickup 3/2] 5 1", ["1/2", "1"]),
        ("4/4", "[pickup 1.5] 5 1", ["1/2", "1"]),
        ("4/4", "[pickup 1 1/2] 5 1", ["1/2", "1"]),
        ("4/4", "[pickup 1/2] 5", ["1/2"]),
        ("4/4", "[pickup 5/2] 5 / 1", ["3/2", "1"]),
        ("6/8", "[pickup 1/3] 5", ["1/2"]),
        ("6/8", "[pickup 4/3] 5 1", ["1/2", "3/2"]),
        ("12/8", "[pickup 2] 5 1", ["3/2", "3/2"]),
        ("2/2", "[pickup 1] 5 1", ["1", "1"]),
        ("7/8 2+2+3", "[pickup 3] 5 / 1", ["1", "1/2"]),
        ("4/4", "[pickup 1] (5 1)", ["1/2", "1/2"]),
    ],
)
def test_a_pickup_is_as_short_as_it_says(metre, text, expected):
    """Felt beats; with a fraction its first token lasts the fraction, the others a beat each."""
    assert lengths(slots_of(f"{text} | 1", meter=metre)[0]) == expected


@pytest.mark.parametrize(
    ("text", "column", "what"),
    [
        ("[pickup 4] 1 | 1", 1, "a pickup of 4 beats is no shorter than a bar of 4/4"),
        ("1 | [pickup 1] 5", 5, "a pickup is a section's first bar"),
        ("[pickup 0] 1 | 1", 1, "'[pickup 0]' has no length"),
        ("[pickup 1/0] 1 | 1", 1, "'[pickup 1/0]' has no length"),
        ("[pickup x] 1 | 1", 1, "'[pickup x]' has no length"),
        ("[pickup 3/2] 1 4 5 | 1", 14, "3 tokens for the 2 beats of the pickup"),
    ],
)
def test_a_pickup_that_cannot_be_is_a_fault(text, column, what):
    """Too long, too late, without length, or badly filled."""
    assert faults_of(text) == [(1, column, what)]


# Groups


@pytest.mark.parametrize(
    ("text", "column", "what"),
    [
        ("() 1 4 5", 1, "the brackets are empty"),
        ("(1 4).hold 1 4 5", 1, "a group takes no marks"),
        ("(1 4 5", 1, "the bracket is not closed"),
        ("1 4) 5", 4, "this ')' closes nothing"),
        ("(1 (4 (5 (1 4)))) 1 1 1", 1, "the bracket is not closed"),
    ],
)
def test_groups_at_fault(text, column, what):
    """Empty, marked, open, closed twice, or deeper than three."""
    assert (1, column, what) in faults_of(text)


def test_a_beat_is_divided_into_no_more_parts_than_can_be_counted():
    """Fives beside sevens, elevens and thirteens have no common part that anyone plays."""
    parts = " ".join(f"({' '.join(['1'] * n)})" for n in (5, 7, 11, 13))
    assert "the groups divide a beat into 20020 parts" in only_fault(f"({parts}) 1 1 1").what


def test_a_faulty_bar_leaves_the_others_readable():
    """It has no slots; cues, marks and the other bars are kept."""
    reading = read_chart(song('1 | "go" 4 5 1 | 6-'))
    assert [len(bar.slots) for bar in reading.chart.sections[0].bars] == [1, 0, 1]
    assert reading.chart.sections[0].bars[1].cues[0].text == "go"


def test_windows_line_ends_and_a_byte_order_mark_say_nothing():
    """The same chart, and columns that do not count the carriage return."""
    text = song("1 | 4\n5 | 1\n")
    assert parse("\ufeff" + text.replace("\n", "\r\n")) == parse(text)
    (fault,) = read_chart(song("1 | 4 x\n").replace("\n", "\r\n")).faults
    assert (fault.line, fault.column, fault.text) == (5, 7, "1 | 4 x")


def test_tabs_count_as_one_character():
    """A caret stands under what is at fault."""
    (fault,) = read_chart(song("\t1 |\tx | 4")).faults
    assert fault.column == 6
    assert str(fault).splitlines()[1:] == ["   1 | x | 4", "       ^"]


def test_written_again_bars_are_the_same():
    """All kinds of bars at once."""
    text = song('1 | 4 5 | [2/4] 1 | % | 6- / 5/7 1 | (1 4) "x" 5 / / | 0 | NC | - | 1.hold | - 4 ||')
    assert parse(write_chart(parse(text))) == parse(text)
