import pytest

from fifthwise.chart import parse, read_chart, write_chart
from tests.chart.texts import chords_of, faults_of, only_fault, song


@pytest.mark.parametrize(
    "chord",
    [
        "1",
        "b7",
        "#4",
        "bb7",
        "##4",
        "6-",
        "7o",
        "2ø7",
        "5+",
        "16",
        "169",
        "17",
        "1maj7",
        "59",
        "4maj9",
        "511",
        "513",
        "4maj13",
        "5sus",
        "1sus2",
        "57sus",
        "59sus",
        "6-7",
        "1-11",
        "#4o7",
        "7ø9",
        "57(b9 #11)",
        "1(add9)",
        "1(5)",
        "1(no3 no5)",
        "1/3",
        "5/7",
        "4/b6",
        "57(b9)/7",
        "1-(maj7)",
        "2-6",
        "b3maj7(#11)",
    ],
)
def test_a_chord_is_written_as_it_is_read(chord):
    """The forms of the language come back as they went in; alone at the start of a line, too."""
    if chord != "1-(maj7)":
        assert chords_of(chord) == [chord]
    chart = parse(song(f"{chord} | 1"))
    assert parse(write_chart(chart)) == chart


@pytest.mark.parametrize(
    ("text", "chord"),
    [
        ("6m", "6-"),
        ("6min7", "6-7"),
        ("7dim", "7o"),
        ("7°", "7o"),
        ("5aug", "5+"),
        ("4M7", "4maj7"),
        ("4Δ", "4maj7"),
        ("4ma7", "4maj7"),
        ("N.C.", "NC"),
        ("♭7", "b7"),
        ("♯4o", "#4o"),
        ("7ø", "7ø7"),
        ("7-7b5", "7ø7"),
        ("1sus4", "1sus"),
        ("57sus4", "57sus"),
        ("57(b9, #11)", "57(b9 #11)"),
        ("57(b9,#11)", "57(b9 #11)"),
        ("1/E", "1/3"),
        ("6-/C", "6-/1"),
    ],
)
def test_other_ways_of_writing_are_read(text, chord):
    """What charts and lead sheets write for the same chord."""
    assert chords_of(text) == [chord]


def test_three_ways_of_writing_a_half_diminished_chord_are_one():
    """ø, ø7 and -7b5."""
    assert len(set(chords_of("7ø | 7ø7 | 7-7b5"))) == 1


@pytest.mark.parametrize(
    ("text", "chord"),
    [
        ("vi", "6-"),
        ("bVII", "b7"),
        ("viio", "7o"),
        ("V7", "57"),
        ("I7", "17"),
        ("IVmaj7", "4maj7"),
        ("ii7", "2-7"),
        ("V7/vi", "37"),
        ("V7/vi/3", "37/3"),
        ("V/V", "2"),
        ("I6", "1/3"),
        ("I64", "1/5"),
        ("V65", "57/7"),
        ("V43", "57/2"),
        ("V42", "57/4"),
        ("Iadd6", "16"),
        ("#iv", "#4-"),
        ("iii", "3-"),
    ],
)
def test_roman_numerals_carry_their_quality_by_case(text, chord):
    """Figures put the bass where figured bass has it; an applied chord counts from its target.

    Common practice of figured bass, no source: 6 has the third in the bass, 64 the fifth; 65, 43 and 42
    are the seventh chord's third, fifth and seventh.
    """
    assert chords_of(text) == [chord]


@pytest.mark.parametrize(
    ("text", "fix"),
    [
        ("15", "Did you mean '1 5' or '1(5)'?"),
        ("12", "Did you mean '1 2' or '1(add9)'?"),
        ("13", "Did you mean '1 3'?"),
        ("14", "Did you mean '1 4' or '1(add11)'?"),
        ("43", "Did you mean '4 3'?"),
        ("10", "Did you mean '1 0'?"),
        ("45", "Did you mean '4 5' or '4(5)'?"),
        ("57b9", "Did you mean '57(b9)'?"),
        ("1add9", "Did you mean '1(add9)'?"),
        ("1b7", "Did you mean '17' or '1 b7'?"),
    ],
)
def test_a_doubtful_chord_asks_what_was_meant(text, fix):
    """Each answer can be typed in its place, and is sound."""
    fault = only_fault(f"1 | {text} | 4")
    assert (fault.line, fault.column, fault.length) == (5, 5, len(text))
    assert fault.fix == fix
    for mend in fault.mends:
        assert f"'{mend}'" in fix
        if "0" not in mend:
            assert faults_of(mend) == []


def test_changes_apart_from_their_chord_ask():
    """``57 (b9)`` is a chord and a group of nothing."""
    assert only_fault("57 (no3 b9)/7").mends == ("57(no3 b9)/7",)
    fault = only_fault("1 | 57 (b9) | 4")
    assert (fault.column, fault.length) == (5, 7)
    assert (fault.fix, fault.mends) == ("Did you mean '57(b9)'?", ("57(b9)",))


def test_digits_that_are_bases_are_extensions():
    """57 is the five with a seven; 513 and 1-11 are extensions."""
    assert chords_of("57 | 513 | 1-11 | 16 | 19") == ["57", "513", "1-11", "16", "19"]
    assert faults_of("57 | 513 | 1-11 | 16 | 19") == []


def test_a_double_flat_seven_is_read_with_a_notice():
    """B flat seven may have been meant, each time."""
    reading = read_chart(song("1 | bb7 | 4 | bb7"))
    assert reading.faults == ()
    assert [(n.line, n.column, n.length) for n in reading.notices] == [(5, 5, 3), (5, 15, 3)]
    assert reading.notices[0].what == "'bb7' is the double-flat seven"
    assert reading.notices[0].fix == "Did you mean 'Bb7'?"


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("8", "'8' is no chord number"),
        ("9-", "'9-' is no chord number"),
        ("1/8", "the bass '8' is no degree"),
        ("H", "'H' is no chord"),
        ("57()", "the brackets are empty"),
        ("57(x)", "'x' changes no note of a chord"),
        ("57(b٣)", "'b٣' changes no note of a chord"),
        ("I+m", "'I+m' is no chord"),
        ("V65/3", "the figure already gives the bass"),
        ("b²", "'b²' is no chord"),
    ],
)
def test_what_is_no_chord_says_so(text, what):
    """At its place."""
    fault = only_fault(f"1 | {text}")
    assert (fault.column, fault.length, fault.what) == (5, len(text), what)


@pytest.mark.parametrize("text", ["1 (b²)", "1 :| x² 4", "1 | 57(" + "1" * 5000 + ")", "1 | 5" + "1" * 5000])
def test_odd_digits_are_faults_and_nothing_worse(text):
    """Digits that Python's own numbers refuse reach no one."""
    assert faults_of(text)


def test_every_faulty_chord_of_a_bar_is_told():
    """All at once, each at its own place."""
    assert [(c, w.split("'")[1]) for _, c, w in faults_of("1 H 4 X | 15 J")] == [
        (3, "H"),
        (7, "X"),
        (11, "15"),
        (14, "J"),
    ]


def test_faults_in_a_group_have_their_own_place():
    """Inside brackets columns count on."""
    assert faults_of("1 | (4 15) 5 / /")[0][:2] == (1, 8)
