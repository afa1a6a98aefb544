"""The example charts: each read, played out against an order counted by hand, and written again."""

from fractions import Fraction
from pathlib import Path

import pytest

from fifthwise.chart import parse, read_chart, unfold, write_chart
from fifthwise.theory import Key, read_key, to_letters, write_letters

EXAMPLES = Path(__file__).parents[2] / "examples"
SUFFIX = ".chart.md"
# Each chart's playing order: sections, and the bars of each as they are numbered in the text, from 0.
ORDER = {
    "lamplighters-blues": [("chorus", "0 1 2 3 4 5 6 7 8 9 10 11")],
    "slack-water": [("verse", "0 1 2 3 4 5 6 7 8")],
    "net-menders-waltz": [("first", "0 1 2 3 4 5 6 7"), ("second", "0 1 2 3")],
    "short-plank": [("verse", "0 1 2 3 4 5 6 7"), ("chorus", "0 1 2 3 4 5 6 7 8")],
    "three-ways-home": [("verse", "0 1 2 3 4 5 0 1 2 3 6 7 8 9 0 1 2 3 10 11 12 13")],
    "harbour-lantern": [
        ("intro", "0 1 0 1"),
        ("verse", "0 1 2 3 4 5 4 5 4 5 6 7"),
        ("bridge", "0 1 2 3"),
        ("verse", "0 1 2 3 4 5 6"),
        ("coda", "0 1 2"),
    ],
    "one-more-tide": [
        ("intro", "0 1 2 3"),
        ("verse", "0 1 2 3 4 5 6 7"),
        ("chorus", "0 1 2 3 4 5 6 7"),
        ("verse", "0 1 2 3 4 5 6 7"),
        ("chorus", "0 1 2 3 4 5 6 7 0 1 2 3 4 5 6 7 0 1 2 3 4 5 6 7"),
    ],
    "cold-slip-from-six": [("verse", "0 1 2 3 4 5 6 7")],
    "cold-slip-from-one": [("verse", "0 1 2 3 4 5 6 7")],
    "cold-slip-natural": [("verse", "0 1 2 3 4 5 6 7")],
    "before-the-bell": [("head", "0 1 2 3 4 5 6 7")],
    "rope-and-pulley": [("verse", "0 1 2 3"), ("chorus", "0 1 2 3 4 5 6 7")],
    "what-the-gull-said": [("verse", "0 1 2 3"), ("break", "0 1 2 3"), ("chorus", "0 1 2 3")],
    "last-bus": [("verse", "0 1 2 3"), ("out", "0 1 0 1 0 1 0 1 2 3")],
    "anchor-held": [("verse", "0 1 2 3 4 5 6 7")],
    "keel-song": [("verse", "0 1 2 3 4 5 6 7 8")],
    "crooked-stair": [("first", "0 1 2 3 4 5 6 7 0 1 2 3 4 5 6 7"), ("second", "0 1 2 3")],
}


def example(name):
    """The text of an example."""
    return (EXAMPLES / f"{name}{SUFFIX}").read_text(encoding="utf-8")


def letters(name):
    """What an example sounds, in letters."""
    chart = parse(example(name))
    one = chart.numbering.one
    return [write_letters(to_letters(e.chord, one(e.key))) for e in unfold(chart).entries if e.chord]


def test_every_example_is_counted_here():
    """None is left out."""
    assert {path.name.removesuffix(SUFFIX) for path in EXAMPLES.glob(f"*{SUFFIX}")} == set(ORDER)


@pytest.mark.parametrize("name", ORDER)
def test_an_example_is_read_without_a_fault(name):
    """Nor a notice."""
    reading = read_chart(example(name))
    assert [str(fault) for fault in (*reading.faults, *reading.notices)] == []


@pytest.mark.parametrize("name", ORDER)
def test_an_example_is_played_in_its_order(name):
    """As counted by hand."""
    found = []
    for bar in unfold(parse(example(name))).bars:
        if found and found[-1][0] == bar.section_name:
            found[-1] = (bar.section_name, f"{found[-1][1]} {bar.bar}")
        else:
            found.append((bar.section_name, str(bar.bar)))
    assert found == ORDER[name]


@pytest.mark.parametrize("name", ORDER)
def test_an_example_written_and_read_is_the_same(name):
    """In the settled layout."""
    chart = parse(example(name))
    assert parse(write_chart(chart)) == chart


def test_the_twelve_bar_blues_has_its_quick_change():
    """The 4 in bar 2, the 5 in bar 9 (common practice, no source)."""
    assert letters("lamplighters-blues")[:4] == ["A7", "D7", "A7", "A7"]
    assert len({bar.number for bar in unfold(parse(example("lamplighters-blues"))).bars}) == 12


def test_the_ballad_begins_two_eighths_early():
    """Two thirds of a dotted quarter are a quarter."""
    first, second = unfold(parse(example("slack-water"))).notes[:2]
    assert [(n.starts_at, n.length) for n in (first, second)] == [
        (0, Fraction(1, 2)),
        (Fraction(1, 2), Fraction(1, 2)),
    ]


def test_the_waltz_splits_a_bar_in_two():
    """One and a half beats each."""
    timeline = unfold(parse(example("net-menders-waltz")))
    fourth = [e.length for e in timeline.entries if timeline.bars[e.bar].number == 4]
    assert fourth == [Fraction(3, 2), Fraction(3, 2)]


def test_the_last_chorus_goes_up_a_step():
    """A whole tone, from the change in the form on."""
    keys = [bar.key for bar in unfold(parse(example("one-more-tide"))).bars]
    assert keys == [read_key("G")] * 36 + [read_key("A")] * 16


def test_one_minor_song_sounds_alike_in_three_numberings():
    """Home is Am in all of them."""
    six, one, natural = (letters(f"cold-slip-{way}") for way in ("from-six", "from-one", "natural"))
    assert six == one == natural == ["Am", "F", "C", "G", "Am", "Dm7", "E7", "Am"]


def test_the_swing_tune_is_pushed_from_its_first_chord():
    """Into the count-in, and over bar lines."""
    entries = unfold(parse(example("before-the-bell"))).entries
    assert entries[0].sounds_at == -Fraction(1, 3)
    assert [e.sounds_at for e in entries if e.marks == ("push",)][1] == 6 - Fraction(1, 3)


def test_the_held_chords_are_one_entry_each():
    """Over two bars, a diamond tied."""
    entries = unfold(parse(example("anchor-held"))).entries
    assert [(e.length, e.marks) for e in entries][:2] == [(8, ("hold",)), (8, ("hold",))]


def test_the_vamp_is_open():
    """Four passes in the timeline, marked with its cue."""
    bars = unfold(parse(example("last-bus"))).bars
    assert [bar.vamp for bar in bars if bar.vamp] == ["till the singer waves"] * 8


def test_the_seven_eight_reel_is_in_a_mode():
    """D mixolydian, with a b7; each chord of three has its group."""
    chart = parse(example("crooked-stair"))
    assert chart.key == Key(read_key("D").tonic, "mixolydian")
    assert [str(slot.length) for slot in chart.sections[0].bars[2].slots] == ["1", "1", "3/2"]
    assert letters("crooked-stair")[:3] == ["D", "C", "D"]
