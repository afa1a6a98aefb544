import itertools

import pytest

from fifthwise.chart import MARKS, late_by, push_by, unfold
from fifthwise.theory import Metre
from tests.chart.texts import bars_of, chart_of, chords_of, faults_of, only_fault, q


@pytest.mark.parametrize("mark", MARKS)
def test_each_mark_is_kept(mark):
    """After the chord, and after any bass."""
    assert [slot.marks for slot in bars_of(f"1.{mark} 5/7.{mark}")[0].slots] == [(mark,), (mark,)]


def test_marks_come_in_any_order():
    """Their order says nothing."""
    for marks in itertools.permutations(("hold", "push", "accent")):
        assert chords_of(f"57(b9)/7.{'.'.join(marks)}") == ["57(b9)/7.hold.push.accent"]


@pytest.mark.parametrize("text", ["/.hold", "0.hold", "%.hold", "-.push"])
def test_what_is_no_chord_takes_no_marks(text):
    """Strokes, dashes, rests and copies."""
    fault = only_fault(f"1 | {text}")
    assert (fault.column, fault.what) == (5, f"'{text[0]}' takes no marks")


def test_an_unknown_mark_names_its_neighbour():
    """At its dot."""
    fault = only_fault("1 | 5/7.hodl")
    assert (fault.column, fault.length) == (8, 5)
    assert (fault.what, fault.fix) == ("'.hodl' is no mark of a chord", "Did you mean '.hold'?")
    assert only_fault("1.qqqq").fix == "Marks are .hold, .stop, .push, .push16, .late, .accent"


@pytest.mark.parametrize(
    ("one", "other"), [("push", "late"), ("push", "push16"), ("push16", "late"), ("hold", "stop")]
)
def test_marks_that_contradict_each_other_are_a_fault(one, other):
    """A chord begins once and ends once."""
    assert faults_of(f"1 | 4.{one}.{other}") == [(1, 5, f".{one} and .{other} contradict each other")]


def moved(body, **fields):
    """By how many quarters each entry sounds after its written place."""
    return [e.sounds_at - e.written_at for e in unfold(chart_of(body, **fields)).entries]


def test_a_push_is_an_eighth_early_and_late_an_eighth_late():
    """A push16 is a sixteenth early; the rest is on time."""
    assert moved("1 4.push | 5.push16 1.late.accent") == [0, q("-1/2"), q("-1/4"), q("1/2")]


@pytest.mark.parametrize("feel", ["swing", "slow shuffle", "swung eighths", "easy, swing"])
def test_in_swing_a_push_sounds_on_the_swung_off_beat(feel):
    """The off-beat is the last third of the beat (common practice, no source)."""
    assert moved("1 | 4.push | 5.push16 1.late", feel=feel) == [0, q("-1/3"), q("-1/4"), q("2/3")]


def test_a_feel_inside_the_song_counts_too():
    """Where it holds."""
    assert moved("1 | 4.push | [feel shuffle] 5.push | 1.push") == [0, q("-1/2"), q("-1/3"), q("-1/3")]


@pytest.mark.parametrize("metre", ["6/8", "12/8", "7/8 2+2+3"])
def test_a_shuffle_written_in_eighths_has_even_eighths(metre):
    """12/8 writes the triplets out, so an eighth is half a quarter."""
    assert moved("1 | 4.push", meter=metre, feel="shuffle") == [0, q("-1/2")]
    assert (push_by("shuffle", Metre(4, 4)), push_by("shuffle"), late_by("swing")) == (
        q("1/3"),
        q("1/3"),
        q("2/3"),
    )


def test_the_first_known_word_of_a_feel_picks_the_groove():
    """Straight, although swing stands later."""
    assert moved("1 | 4.push", feel="lazy straight, then swing") == [0, q("-1/2")]


def test_a_push_over_the_bar_line_keeps_its_written_place():
    """It sounds in the bar before and is written in its own."""
    entries = unfold(chart_of("4 | 5.push")).entries
    assert [(e.written_at, e.sounds_at, e.bar) for e in entries] == [(0, 0, 0), (4, q("7/2"), 1)]


def test_a_push_on_the_very_first_chord_sounds_in_the_count_in():
    """Before 0."""
    assert unfold(chart_of("1.push | 4")).entries[0].sounds_at == q("-1/2")
