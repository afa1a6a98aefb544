from fractions import Fraction

import pytest

from fifthwise.chart import unfold
from tests.chart.texts import chart_of, entries_of, entry_text, only_fault, q


def bars(body, **fields):
    """Each played bar as (number, start, length, overlays)."""
    return [(b.number, b.start, b.length, b.overlays) for b in unfold(chart_of(body, **fields)).bars]


def test_bars_are_numbered_from_one():
    """Each by where it starts."""
    assert bars("1 | [2/4] 4 | 5") == [(1, 0, 4, False), (2, 4, 2, False), (3, 6, 4, False)]


def test_a_pickup_before_anything_was_played_stands_alone_as_bar_0():
    """The song starts with it."""
    assert bars("[pickup 1] 5 | 1") == [(0, 0, 1, False), (1, 1, 4, False)]
    assert entries_of("[pickup 1] 5 | 1") == [("5", 0, 1), ("1", 1, 4)]


LATER = "# a\n1 | 4\n# b\n{} | 6-\n"


def test_a_later_pickup_lies_over_the_end_of_the_bar_played_before():
    """It adds no length and has that bar's number."""
    assert bars(LATER.format("[pickup 1] 0")) == [
        (1, 0, 4, False),
        (2, 4, 4, False),
        (2, 7, 1, True),
        (3, 8, 4, False),
    ]


@pytest.mark.parametrize(
    ("pickup", "entries"),
    [
        # rests and dashes leave the band playing there
        ("[pickup 1] 0", [("1", 0, 4), ("4", 4, 4), ("6-", 8, 4)]),
        ("[pickup 1] -", [("1", 0, 4), ("4", 4, 4), ("6-", 8, 4)]),
        ("[pickup 2] 0 /", [("1", 0, 4), ("4", 4, 4), ("6-", 8, 4)]),
        # chords replace what was there
        ("[pickup 1] 5", [("1", 0, 4), ("4", 4, 3), ("5", 7, 1), ("6-", 8, 4)]),
        ("[pickup 2] 0 5", [("1", 0, 4), ("4", 4, 3), ("5", 7, 1), ("6-", 8, 4)]),
        ("[pickup 2] 5 0", [("1", 0, 4), ("4", 4, 2), ("5", 6, 1), ("4", 7, 1), ("6-", 8, 4)]),
        ("[pickup 2] NC /", [("1", 0, 4), ("4", 4, 2), ("NC", 6, 2), ("6-", 8, 4)]),
        (
            "[pickup 3/2] 5 2-",
            [
                ("1", 0, 4),
                ("4", 4, Fraction(5, 2)),
                ("5", Fraction(13, 2), Fraction(1, 2)),
                ("2-", 7, 1),
                ("6-", 8, 4),
            ],
        ),
        (
            "[pickup 1] (5 2-)",
            [
                ("1", 0, 4),
                ("4", 4, 3),
                ("5", 7, Fraction(1, 2)),
                ("2-", Fraction(15, 2), Fraction(1, 2)),
                ("6-", 8, 4),
            ],
        ),
    ],
)
def test_a_pickups_chords_replace_what_was_there(pickup, entries):
    """And nothing else."""
    assert entries_of(LATER.format(pickup)) == entries


def test_a_chord_that_ends_where_the_pickup_begins_is_left_alone():
    """Whole chords under the pickup go, those before stay."""
    assert entries_of("# a\n1 4 5 6-\n# b\n[pickup 2] 2- / | 1") == [
        ("1", 0, 1),
        ("4", 1, 1),
        ("2-", 2, 2),
        ("1", 4, 4),
    ]


def test_a_hold_after_a_pickup_holds_the_pickups_chord():
    """What came before in playing order."""
    assert entries_of("# a\n1\n# b\n[pickup 1] 5 | - | 1") == [("1", 0, 3), ("5", 3, 5), ("1", 8, 4)]


def test_a_pickup_as_long_as_the_bar_before_it_replaces_it():
    """Longer is a fault."""
    text = "# a\n1 | [2/4] 4\n# b\n[pickup {}] 5 | 6-\n"
    assert entries_of(text.format(2)) == [("1", 0, 4), ("5", 4, 2), ("6-", 6, 4)]
    fault = only_fault(text.format(3))
    assert (fault.line, fault.column, fault.what) == (
        8,
        12,
        "the pickup is longer than the bar played before it",
    )


def test_what_was_played_before_is_asked_in_playing_order():
    """The form may put a short bar before the pickup."""
    text = "# a\n1\n# b\n[2/4] 4\n# c\n[pickup 3] 5 / / | 6-\n"
    assert [e[0] for e in entries_of(text, form="a, c")] == ["1", "5", "6-"]
    assert only_fault(text, form="b, c").what == "the pickup is longer than the bar played before it"


def test_a_repeat_that_goes_back_to_a_pickup_lays_it_over_its_own_last_bar():
    """The first time it stands alone, then over the end of the pass before."""
    assert bars("|: [pickup 1] 5 | 1 | 4 :|") == [
        (0, 0, 1, False), (1, 1, 4, False), (2, 5, 4, False),
        (2, 8, 1, True), (3, 9, 4, False), (4, 13, 4, False),
    ]  # fmt: skip
    assert entries_of("|: [pickup 1] 5 | 1 | 4 :|") == [
        ("5", 0, 1), ("1", 1, 4), ("4", 5, 3), ("5", 8, 1), ("1", 9, 4), ("4", 13, 4)
    ]  # fmt: skip


def test_a_section_played_twice_has_its_pickup_twice():
    """So has each verse of a form."""
    assert [b[3] for b in bars("# a x2\n[pickup 1] 5 | 1\n")] == [False, False, True, False]


def test_fractional_pickups_in_six_eight():
    """A third of a dotted quarter is an eighth."""
    assert bars("[pickup 1/3] 5 | 1 | 4", meter="6/8") == [
        (0, 0, q("1/2"), False), (1, q("1/2"), 3, False), (2, q("7/2"), 3, False)
    ]  # fmt: skip


def test_entries_know_their_bar_pass_and_section():
    """Through the timeline's bars."""
    timeline = unfold(chart_of("# a\n|: 1 :|\n# b\n4 5\n"))
    where = [(entry_text(e), timeline.bars[e.bar]) for e in timeline.entries]
    assert [(t, b.number, b.repeat_pass, b.section_name, b.bar, b.line) for t, b in where] == [
        ("1", 1, 1, "a", 0, 0), ("1", 2, 2, "a", 0, 0), ("4", 3, 1, "b", 0, 0), ("5", 3, 1, "b", 0, 0)
    ]  # fmt: skip


def test_lengths_are_exact_fractions():
    """No floats, however the beat is divided."""
    entries = unfold(chart_of("(1 4 5) 1 / / | (1 4) (1 4 5) / /")).entries
    assert all(isinstance(x, Fraction) for e in entries for x in (e.written_at, e.sounds_at, e.length))
    assert sum(e.length for e in entries) == 8


def test_a_stop_keeps_its_written_length():
    """The silence after it is the player's, not the page's."""
    (entry, following) = unfold(chart_of("1.stop 4")).entries
    assert (entry.length, entry.marks, following.written_at) == (2, ("stop",), 2)


# What holds


@pytest.mark.parametrize(
    ("metre", "tempo", "bpm"),
    [
        ("4/4", "120", 120),
        ("6/8", "60", 90),
        ("12/8", "60", 90),
        ("2/2", "60", 120),
        ("7/8 2+2+3", "120", 120),
        ("4/4", None, 100),
        ("3/8", "60", 90),
    ],
)
def test_a_tempo_counts_felt_beats(metre, tempo, bpm):
    """In quarters a minute; where the groups are named, it counts quarters."""
    fields = {"meter": metre} | ({"tempo": tempo} if tempo else {})
    assert unfold(chart_of("1", **fields)).bars[0].tempo_bpm == bpm


def test_across_a_metre_change_an_eighth_stays_an_eighth():
    """Quarters a minute stay, whatever the felt beat is."""
    assert [b.tempo_bpm for b in unfold(chart_of("1 | [meter 6/8] 4 | [2/2] 5", tempo="120")).bars] == [
        120,
        120,
        120,
    ]
    assert [b.tempo_bpm for b in unfold(chart_of("1 | [tempo 80] [meter 6/8] 4")).bars] == [100, 120]


def test_marks_hold_to_the_sections_end():
    """From their bar on, through every line."""
    text = "# a\n1 | [meter 3/4] [feel shuffle] 4\n5\n# b\n1\n"
    assert [(str(b.metre), b.feel) for b in unfold(chart_of(text)).bars] == [
        ("4/4", "straight"), ("3/4", "shuffle"), ("3/4", "shuffle"), ("4/4", "straight")
    ]  # fmt: skip


@pytest.mark.parametrize("close", ["||", ":|"])
def test_a_mark_in_an_ending_holds_to_the_endings_end(close):
    """Whether a bar line or a sign ends it."""
    text = f"|: 1 | [1.] [key +2] 4 :| [2.] [key +3] 5 | 6- {close} 1 | 2-"
    assert [str(b.key) for b in unfold(chart_of(text)).bars] == ["C", "D", "C", "Eb", "Eb", "C", "C"]


def test_a_mark_holds_by_its_place_in_the_text():
    """A repeat goes back to what held there."""
    text = "|: 1 | [key +2] 4 :| 5"
    assert [str(b.key) for b in unfold(chart_of(text)).bars] == ["C", "D", "C", "D", "D"]


def test_playing_time_counts_each_bar_at_its_tempo():
    """A pickup over another bar takes no time of its own."""
    assert unfold(chart_of("1 | [tempo 60] 4", tempo="120")).seconds == 6.0
    assert unfold(chart_of("# a\n1\n# b\n[pickup 1] 5 | 4", tempo="120")).seconds == 4.0
