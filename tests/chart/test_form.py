import pytest

from fifthwise.chart import FormFault, playing_order, read_chart, unfold
from tests.chart.texts import HEAD_LINES, chart_of, faults_of, only_fault, played, song

SONG = """\
# intro
1
# verse
4 | 5
words: First
words: Second
words: Third
6- | 5
words: More of the first
# chorus x2
2-
"""


def walk(form, body=SONG, **fields):
    """Section, verse and key of each bar in playing order."""
    timeline = unfold(chart_of(body, form=form, **fields))
    return [(bar.section_name, bar.verse, str(bar.key)) for bar in timeline.bars]


def test_without_a_form_sections_play_as_written():
    """From top to bottom, ``x2`` after a heading twice."""
    assert played(SONG) == "1 4 5 6- 5 2- 2-"


def test_a_form_is_the_playing_order():
    """Names in any letters, ``x2`` for twice; a section's own ``x2`` counts too."""
    assert played(SONG, form="verse, Intro x2, CHORUS") == "4 5 6- 5 1 1 2- 2-"
    assert played(SONG, form="chorus x2") == "2- 2- 2- 2-"


def test_a_number_picks_the_verse_under_each_line():
    """A line with fewer verses sings its last."""
    assert [verse for _, verse, _ in walk("verse 2, verse 1")] == [1, 1, 0, 0, 0, 0, 0, 0]
    assert [verse for _, verse, _ in walk("verse 3 x2")] == [2, 2, 0, 0, 2, 2, 0, 0]


def test_without_a_number_each_playing_takes_the_next_verse_then_the_last_again():
    """Also after a number, from there on."""
    assert [verse for _, verse, _ in walk("verse x4")][::4] == [0, 1, 2, 2]
    assert [verse for _, verse, _ in walk("verse 2, verse, verse")][::4] == [1, 2, 2]
    assert [verse for _, verse, _ in walk("verse, verse 1, verse")][::4] == [0, 0, 1]


def test_each_pass_through_a_repeat_takes_the_next_verse():
    """Counted per line of bars: the line in the second ending is sung once."""
    text = "|: 1 | 4\nwords: One\nwords: Two\n[1.] 5 :|\nwords: first end\n[2.] 6-\nwords: second end\n"
    verses = [(bar.line, bar.verse) for bar in unfold(chart_of(text)).bars]
    assert verses == [(0, 0), (0, 0), (1, 0), (0, 1), (0, 1), (2, 0)]
    assert [bar.verse for bar in unfold(chart_of("|: 1 :| x3\nwords: One\nwords: Two\n")).bars] == [0, 1, 1]


def test_an_exact_section_name_wins_over_a_verse():
    """``verse 2`` is a section where one has that name."""
    text = "# verse\n1\nwords: One\nwords: Two\n# Verse 2\n4\n"
    assert played(text, form="verse 1, verse 2") == "1 4"


def test_a_change_of_key_in_the_form_holds_from_there_on():
    """Counted from the head's key each time, not from the one before."""
    keys = [key for _, _, key in walk("intro, [key +2], intro, intro, [key +3], intro, [key -1], intro")]
    assert keys == ["C", "D", "D", "Eb", "B"]
    assert [key for _, _, key in walk("intro, [key A] intro, [key F minor] intro")] == ["C", "A", "F minor"]


def test_a_mark_inside_a_section_counts_from_the_key_it_was_entered_in():
    """And ends with the section."""
    text = "# a\n1 | [key +2] 4 | [key +3] 5\n# b\n1\n"
    assert [str(bar.key) for bar in unfold(chart_of(text)).bars] == ["C", "D", "Eb", "C"]
    assert [key for _, _, key in walk("[key +2] a, b", text)] == ["D", "E", "F", "D"]


def test_a_named_key_inside_a_section_moves_with_the_section():
    """The last chorus goes up as a whole, the key named inside it too."""
    text = "# a\n1 | [key F] 4\n"
    assert [key for _, _, key in walk("a, [key +2] a, [key Bb] a", text)] == ["C", "F", "D", "G", "Bb", "Eb"]


def test_a_bare_key_keeps_the_heads_mode():
    """Unless it names its own."""
    text = "1 | [key C] 4 | [key C major] 5 | [key C dorian] 2"
    keys = [str(bar.key) for bar in unfold(chart_of(text, key="A minor")).bars]
    assert keys == ["A minor", "C minor", "C", "C dorian"]


@pytest.mark.parametrize(
    ("key", "by", "expected"),
    [
        ("C", "+6", "Gb"),
        ("D", "+4", "F#"),
        ("Eb", "+3", "Gb"),
        ("A", "-3", "F#"),
        ("F", "+1", "Gb"),
        ("G", "+6", "Db"),
        ("B", "+1", "C"),
        ("A minor", "+6", "Eb minor"),
        ("E minor", "-1", "D# minor"),
    ],
)
def test_a_tie_at_six_steps_takes_flats_unless_the_head_has_sharps(key, by, expected):
    """Otherwise the key with fewer signs."""
    (bar,) = unfold(chart_of(f"[key {by}] 1", key=key)).bars
    assert str(bar.key) == expected


@pytest.mark.parametrize(
    ("form", "offset", "what", "fix"),
    [
        ("verse, vers", 7, "no section is named 'vers'", "Did you mean 'verse'?"),
        ("intro, bridge", 7, "no section is named 'bridge'", "Sections are intro, verse, chorus"),
        (
            "verse 4",
            0,
            "'verse' has only 3 'words:' lines, so there is no verse 4",
            "Write 'verse', or add the words",
        ),
        (
            "intro 1",
            0,
            "'intro' has no 'words:' lines, so there is no verse 1",
            "Write 'intro', or add the words",
        ),
        ("verse 0", 0, "'verse' has only 3 'words:' lines, so there is no verse 0", "Write 'verse'"),
        ("intro,, verse", 6, "the form has an empty entry", "Leave the extra comma out"),
        ("intro x99", 0, "'x99' is out of range", "Write x1 to x32"),
        (
            "intro, [tempo 90]",
            7,
            "'[tempo 90]' cannot stand in a form",
            "Only changes of key can, as in '[key +2]'",
        ),
        (
            "intro, [key H] verse",
            7,
            "'H' is no key",
            "Write semitones or a key, as in '[key +2]' or '[key A]'",
        ),
        ("intro, [key +0]", 7, "'[key +0]' does not change the key", "Write 1 to 12 semitones"),
        ("[key +2]", 0, "the form plays no section", "Name the sections in playing order"),
    ],
)
def test_a_form_at_fault_says_so_at_its_entry(form, offset, what, fix):
    """At the entry in the head, with the near miss."""
    fault = only_fault(SONG, form=form)
    assert (fault.line, fault.column) == (HEAD_LINES, len("form: ") + 1 + offset)
    assert fault.what == what
    assert fault.fix.startswith(fix)


def test_all_entries_at_fault_are_told():
    """Each at its place."""
    found = [f.column for f in read_chart(song(SONG, form="x, verse 9, y")).faults]
    assert found == [7, 10, 19]


def test_two_sections_of_one_name_cannot_be_told_apart_in_a_form():
    """Without a form they may share it."""
    text = "# a\n1\n# A\n4"
    assert played(text) == "1 4"
    assert only_fault(text, form="a").what == "2 sections are named 'a'"


def test_a_form_that_runs_away_is_a_fault():
    """More than 5000 bars are taken for a slip."""
    text = "# a x32\n|: 1 :| x32\n"
    fault = only_fault(text, form="a x32")
    assert fault.what == "the form runs to more than 5000 bars"
    assert fault.line == HEAD_LINES
    assert len(playing_order(chart_of(text, form="a x2"))) == 2048


def test_a_form_that_runs_away_by_hand_is_a_form_fault():
    """A chart that was not read may still not unfold."""
    chart = read_chart(song("# a x32\n|: 1 :| x32\n", form="a x32")).chart
    with pytest.raises(
        FormFault, match=r"'Slipway': the form runs to more than 5000 bars\. Shorten the form"
    ):
        unfold(chart)


@pytest.mark.parametrize(
    ("heading", "name", "times"),
    [
        ("# verse", "verse", 1),
        ("#  verse  ", "verse", 1),
        ("  # verse x3", "verse", 3),
        ("#\tverse   two\tx2", "verse two", 2),
        ("# chorus X2", "chorus X2", 1),
        ("# x-ray", "x-ray", 1),
        ("# 4o", "4o", 1),
        ('# verse "quiet" x2', "verse", 2),
        ('# verse x2 "quiet"', "verse", 2),
    ],
)
def test_headings_with_odd_spacing(heading, name, times):
    """A hash and a space open a section; spaces inside a name count once."""
    (section,) = chart_of(f"{heading}\n1").sections
    assert (section.name, section.times) == (name, times)


@pytest.mark.parametrize(
    ("text", "column", "what", "fix"),
    [
        ("#verse", 1, "a heading has a space after its '#'", "Write '# verse'"),
        ("## verse", 1, "a heading has one '#'", "Write '# verse'"),
        (" #", 2, "the heading has no name", "Write it as in '# verse'"),
        ("# x2", 1, "the heading has no name", "Write it as in '# verse'"),
        ("# verse x99", 9, "'x99' is out of range", "Write x2 to x32"),
        ('# verse "quiet', 9, "the cue is not closed", "End it with '\"'"),
    ],
)
def test_headings_at_fault(text, column, what, fix):
    """The section is opened all the same."""
    reading = read_chart(song(f"1\n{text}\n4"))
    (fault,) = reading.faults
    assert (fault.line, fault.column, fault.what, fault.fix) == (6, column, what, fix)
    assert len(reading.chart.sections) == 2


@pytest.mark.parametrize(
    "text", ["#4o | 1", "##4 | 1", "#iv | 1", "#IVo7/1 | 1", "#iv7 1", "b7 | 1", "#4", "♯4o"]
)
def test_a_sharp_chord_opening_a_line_is_no_heading(text):
    """A hash and a space would be one."""
    assert [section.name for section in chart_of(text).sections] == [None]


def test_a_section_without_bars_is_a_fault():
    """At its heading."""
    assert faults_of("# a\n# b\n1\n# c\n") == [
        (1, 1, "the section 'a' has no bars"),
        (4, 1, "the section 'c' has no bars"),
    ]


def test_a_chart_without_bars_is_a_fault():
    """However much head it has."""
    assert [what for _, _, what in faults_of("")] == ["the chart has no bars"]


@pytest.mark.parametrize(
    "prose", ["Some words about the song", "- a list", "> a quote", "A tune for the quay", "* star"]
)
def test_other_prose_is_a_fault(prose):
    """Remarks are what it should be."""
    assert any(line == 2 for line, _, _ in faults_of(f"1 | 4\n{prose}\n5"))


def test_prose_says_what_a_line_can_be():
    """At its first character, all of it."""
    fault = only_fault("1\n  Some words about the song\n")
    assert (fault.line, fault.column, fault.length) == (6, 3, 25)
    assert fault.what == "this line is neither bars nor a heading"
    assert fault.fix == "Write bars, '# name', 'words: …' or '<!-- … -->'"


def test_remarks_say_nothing_and_keep_every_place():
    """On one line or several, and faults after them have their own columns."""
    assert faults_of("<!-- one -->1 | <!-- two\nlines --> 4 | x\n") == [(2, 15, "'x' is no chord")]
    assert played("1 <!-- | 5 --> | 4") == "1 4"


def test_an_open_remark_is_a_fault_and_hides_its_line_only():
    """The rest of the chart stays readable."""
    reading = read_chart(song("1 | 4 <!-- open | 5\n6- | 5\n"))
    (fault,) = reading.faults
    assert (fault.line, fault.column, fault.what, fault.fix) == (
        5,
        7,
        "the remark is not closed",
        "End it with '-->'",
    )
    assert len(reading.chart.sections[0].bars) == 4
