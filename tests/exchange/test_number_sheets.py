"""Number sheets in other conventions.

The songs are those of ``tests/data``: Burgoyne, Wild and Fujinaga, ISMIR 2011. Marks: Riley, "The Nashville
Number System, Part 2: Shorthand Symbols", Modern Drummer education series 2007; the other signs are common
practice, no source.
"""

import functools
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.chart import parse, read_chart, write_chart
from fifthwise.exchange.errors import ExchangeError
from fifthwise.exchange.numbers import Convention, is_number_sheet, read_number_sheet
from fifthwise.theory import read_key
from tests.exchange.number_sheets import HANDS, simple, sounds, write_number_sheet
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

SAMPLE = range(3, 370, 61)


def body(text, key="G", **wishes):
    """The lines of the chart that a sheet gives, blanks settled."""
    read = read_number_sheet(f"Title\n{text}", "song.txt", read_key(key), wishes=wishes)
    assert read.faults == ()
    lines = write_chart(read.chart).split("---\n")[2].split("\n")
    return [" ".join(line.split()) for line in lines if line]


@functools.cache
def song(place):
    """One of the songs as a chart."""
    return read_chart(number_chart(pop_songs()[place], "song")).chart


@pytest.mark.parametrize("hand", HANDS)
def test_songs_written_in_a_hand_are_read_back_or_the_doubt_is_said(hand):
    """The chart is the same; where it is not, some point is open or a fault is told."""
    same = 0
    for place in SAMPLE:
        wanted = simple(song(place), hand)
        read = read_number_sheet(write_number_sheet(wanted, hand), "song.txt")
        found = not read.faults and sounds(read.chart) == sounds(wanted)
        assert found or read.guess.doubtful or read.faults, place
        same += found
    assert same * 2 > len(SAMPLE)


@pytest.mark.parametrize("hand", HANDS)
def test_a_named_convention_is_taken(hand):
    """Named by the caller, each hand gives the same chart, and nothing of it is open."""
    for place in SAMPLE:
        wanted = simple(song(place), hand)
        read = read_number_sheet(write_number_sheet(wanted, hand), "song.txt", convention=HANDS[hand][0])
        assert read.faults == ()
        assert sounds(read.chart) == sounds(wanted), place
        assert not read.guess.doubtful


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("1 4 5 1", "1 | 4 | 5 | 1"),
        ("1 - 4 - 5 1 - 6m", "1 | 4 | 5 1 | 6-"),
        ("1-5-6m-4", "1 | 5 | 6- | 4"),
        ("1, 4, 5 1, 4", "1 | 4 | 5 1 | 4"),
        ("1544 1544", "1 | 5 | 4 | 4 | 1 | 5 | 4 | 4"),
        ("1 [1 4] 5 1", "1 | 1 4 | 5 | 1"),
        ("1 (1 4) 5 1", "1 | 1 4 | 5 | 1"),
        ("1 1_4 5 1", "1 | 1 4 | 5 | 1"),
        ("1 _1 4_ 5 1", "1 | 1 4 | 5 | 1"),
        ("1 1 4 5 1\n  ___", "1 | 1 4 | 5 | 1"),
        ("1 1,4 5 1", "1 | 1 4 | 5 | 1"),
        ("1.. 4.. 5 1 4", "1 4 | 5 | 1 | 4"),
        ("1. . 4. . 5 1 4", "1 4 | 5 | 1 | 4"),
        ("1''4'' 5 1 4", "1 4 | 5 | 1 | 4"),
        ("1... 4. 5 1 4", "1 / / 4 | 5 | 1 | 4"),
        ("1 % 4 %", "1 | % | 4 | %"),
        ("<1> 4 1! <5", "1.hold | 4 | 1.stop | 5.push"),
        ("||: 1 4 5 1 :|| x3", "|: 1 | 4 | 5 | 1 :|| x3"),
        ("1 4 5 1 (2x)", "|: 1 | 4 | 5 | 1 :|"),
        ("||: 1 4 [1.] 5 5 :|| [2.] 1 1", "|: 1 | 4 | [1.] 5 | 5 :|| [2.] 1 | 1"),
        ("7b 4 3b 6♭", "b7 | 4 | b3 | b6"),
        ("57 1Δ 2-7 7°", "57 | 1maj7 | 2-7 | 7o"),
        ("5(7) 1(maj7) 6(-) 4", "57 | 1maj7 | 6- | 4"),
        ("1 N.C. 4 0", "1 | NC | 4 | 0"),
        ("vi IV I V/7", "6- | 4 | 1 | 5/7"),
        ("| 1 | 4 5 | 6- / 5 / | 1 |", "1 | 4 5 | 6- 5 | 1"),
        ("| 1/5 | 1/5 | 4/1 | 1 |", "1/5 | 1/5 | 4/1 | 1"),
    ],
)
def test_bars_and_chords_as_people_type_them(typed, wanted):
    """Each way of parting bars, and each sign, gives the bars that it means."""
    assert " ".join(body(typed)) == wanted


@pytest.mark.parametrize(
    ("label", "heading"),
    [
        ("V:", "# V"),
        ("V1:", "# V1"),
        ("Chorus", "# Chorus"),
        ("[Bridge]", "# Bridge"),
        ("PC", "# PC"),
        ("Turn:", "# Turn"),
    ],
)
def test_a_part_may_stand_in_front_of_its_bars(label, heading):
    """As the labels of number charts do."""
    assert body(f"{label} 1 4 5 1") == [heading, "1 | 4 | 5 | 1"]


def test_wishes_settle_what_is_open():
    """A plain 6 and a slash are read as they are wished, and are then no more open."""
    assert body("1 6 4 5", plain="major") == ["1 | 6 | 4 | 5"]
    assert body("1 6 4 5", plain="scale") == ["1 | 6- | 4 | 5"]
    assert body("1 5/3 6- 4", slash="chord") == ["1 | 5/7 | 6- | 4"]
    assert body("1 5/3 6- 4", slash="key") == ["1 | 5/3 | 6- | 4"]
    assert body("1 5/3 6- 4", slash="split") == ["1 | 5 3 | 6- | 4"]


def test_what_is_open_is_shown_with_what_follows_from_it():
    """Each option says what the first chord in question is, in the song's key."""
    read = read_number_sheet("Title\nKey: G\n1 6 4 5/3\n", "song.txt")
    said = {
        point.name: {option.value: option.consequence for option in point.options}
        for point in read.guess.points
    }
    assert said["plain"] == {"major": "6 is E", "scale": "6 is Em"}
    assert said["slash"] == {"key": "5/3 is D/B", "chord": "5/3 is D/F#", "split": "5/3 is D and Bm"}
    assert read.guess.doubtful
    assert any("6 is Em" in told for told in read.told)


def test_a_sheet_without_a_key_is_kept_in_c():
    """And says so; the sheet's key or the caller's comes first."""
    read = read_number_sheet("Title\n1 4 5 1", "song.txt")
    assert str(read.chart.key) == "C"
    assert any("kept in C" in told for told in read.told)
    assert str(read_number_sheet("Title\nKey: Eb\n1 4 5 1", "song.txt").chart.key) == "Eb"
    assert any("one chord a bar is taken" in told for told in read.told)


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("", "no bars of numbers"),
        ("Down along the lantern road\nthe river turns for home", "no bars of numbers"),
        ("Anna 555-1234\nBen 555-9876", "no bars of numbers"),
        ("Title\n1 4 G 5", "'G' is a letter among numbers"),
        ("---\ntitle: T\nkey: G\n---\n1 | 4\n", "chart text already"),
        ("1 " * 600_000, "million characters"),
    ],
)
def test_what_is_no_number_sheet_is_refused(text, what):
    """With a fault that says what is wrong; our own chart text is never taken for a sheet."""
    read = read_number_sheet(text, "song.txt")
    assert what in read.faults[0].what
    assert not is_number_sheet(text[:2000]) or "letter" in what or "million" in what


def test_a_wish_must_be_a_choice():
    """Anything else is refused with the choices."""
    with pytest.raises(ExchangeError, match="cannot be 'guess'"):
        read_number_sheet("1 4", "song.txt", wishes={"plain": "guess"})


FRAGMENTS = (
    *("1", "4", "5", "6-", "b7", "7b", "57", "5^7", "1/3", "5/4-", "<1>", "1^", ">1", "1!", "1.."),
    *("4''", "[1 4]", "(1 4)", "1_4", "_1", "4_", "1,4", "-", " - ", "/", ".", "%", "|", "||:"),
    *(":||", "x2", "(2x)", "[1.]", "[2.]", "N.C.", "0", "\n", "[Verse]", "Chorus:", "Key: A", "3/4"),
    *("(2/4)", "G", "vi", "1564", "words", "\n", "___", "\"cue\"", "D.S. al Coda"),
)  # fmt: skip


@given(st.lists(st.sampled_from(FRAGMENTS) | st.text(max_size=4), max_size=30).map(" ".join))
@settings(deadline=None, max_examples=60)
def test_any_text_gets_an_answer(text):
    """Nothing is raised; a sheet without faults is a chart that is written and read the same."""
    read = read_number_sheet(f"Title\n1 4 5 1\n{text}", "song.txt")
    if not read.faults:
        assert parse(write_chart(read.chart)) == read.chart


@pytest.mark.parametrize(
    "text",
    [
        "(1 " * 9000,
        "_1 " * 9000,
        "“" * 9000,
        "1-" * 9000,
        "1^" * 9000,
        "1 4\n" * 9000,
        "[1" * 9000,
        "1(" * 9000,
    ],
)
def test_a_hostile_sheet_is_read_in_good_time(text):
    """Thousands of anything take no more than some seconds."""
    start = time.process_time()
    read_number_sheet(f"Title\n{text}", "song.txt")
    assert time.process_time() - start < 12


def test_a_convention_is_plain_numbers_between_strokes_unless_it_says_more():
    """As our own chart text reads them."""
    assert (Convention().bars, Convention().plain, Convention().slash) == ("strokes", "major", "key")
