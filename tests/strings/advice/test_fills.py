"""Where fills fit, and where they lead."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings

from fifthwise.chart import FormFault, unfold
from fifthwise.strings.advice import fills, landings, sounding_chords
from tests.chart.strategies import charts
from tests.chart.texts import chart_of


def told(body, **fields):
    """Each slot as (first quarter, length, chords, the chord it leads to)."""
    chart = chart_of(body, **fields)
    return [
        (float(s.starts_at), float(s.length), " ".join(c.text for c in s.chords), s.lands_on.text)
        for s in fills(chart, unfold(chart))
    ]


def test_a_gap_of_the_tune_ends_half_a_beat_before_the_voice():
    """From the end of the sung note to half a beat before the next."""
    assert told("# a\n1 | 5 | 1\ntune: 1 - - - | 2 0 0 0 | 1 - - -") == [(5, 2.5, "5", "1")]


@pytest.mark.parametrize(("bar", "found"), [("2 - 0 0", [(6, 1.5, "5", "1")]), ("2 - - 0", [])])
def test_a_gap_has_to_be_two_beats(bar, found):
    """Two beats leave a beat and a half to play, one nothing: common practice, no source."""
    assert told(f"# a\n1 | 5 | 1\ntune: 1 - - - | {bar} | 1 - - -") == found


def test_a_pickup_of_the_voice_ends_a_fill():
    """The next phrase may begin before its bar line."""
    assert told("# a\n1 | 5 | 1\ntune: 1 - - - | 2 0 0 (0 2) | 1 - - -") == [(5, 2, "5", "5")]


def test_a_pickup_over_the_bar_before_ends_a_fill():
    """A section's pickup lies over the end of the last bar."""
    body = "# a\n1 | 5\ntune: 1 - - - | 2 0 0 0\n# b\n[pickup 1] 0\ntune: 5\n1\ntune: 1 - - -"
    assert told(body) == [(5, 1.5, "5", "5")]


def test_without_a_tune_the_ends_of_lines_are_offered():
    """From the second beat of a line's last bar, as its last word falls on the first."""
    assert told("# a\n1 | 4\n1 | 5\n# b\n4 | 1") == [
        (5, 2.5, "4", "1"), (13, 2.5, "5", "4"), (21, 3, "1", "1"),
    ]  # fmt: skip


@pytest.mark.parametrize(("beats", "found"), [(1, [(5, 1.5, "5", "5")]), (2, [])])
def test_a_pickup_without_a_tune_is_taken_to_be_sung(beats, found):
    """The end of the line before is free until half a beat before it."""
    assert told(f"# a\n1 | 5\n# b\n[pickup {beats}] 0\n1 | 4") == [*found, (13, 3, "4", "4")]


def test_lines_of_one_bar_end_no_phrase():
    """Their section's end does."""
    assert told("# a\n1\n4\n5\n1") == [(13, 3, "1", "1")]


def test_a_tune_in_one_section_says_nothing_of_another():
    """A verse without a tune is still sung: it has the ends of its lines."""
    body = "# verse\n1 | 5\n# chorus\n4 | 1\ntune: 6 - - - | 5 - 0 0"
    assert told(body) == [(5, 2.5, "5", "4"), (14, 2, "1", "1")]


@pytest.mark.parametrize("silence", ["NC", "0", "5.stop"])
def test_silence_of_the_band_is_left_alone(silence):
    """No fill in a rest, in NC or after a stop, which is struck for an eighth."""
    assert told(f"# a\n1 | {silence} | 1\ntune: 1 - - - | 0 0 0 0 | 1 - - -") == []


def test_a_fill_stops_where_the_band_stops():
    """What is left before an NC is long enough, and leads to the chord that was there."""
    assert told("# a\n1 | 5 / NC / | 1\ntune: 1 - - - | 0 0 0 0 | 1 - - -") == [(4, 2, "5", "5")]


def test_a_push_is_led_to_where_it_sounds():
    """The 1 comes an eighth early; the fill still leads to it, and lies over it for no time."""
    assert told("# a\n1 | 5 | 1.push\ntune: 1 - - - | 2 0 0 0 | 1 - - -") == [(5, 2.5, "5", "1")]


def test_a_repeat_has_its_fills_each_time():
    """And each time leads on to what follows then."""
    assert told("# a\n|: 1 | 5 :|\ntune: 1 - - - | 2 - 0 0\n4\ntune: 4 - - -") == [
        (6, 1.5, "5", "1"), (14, 1.5, "5", "4"),
    ]  # fmt: skip


def test_a_change_of_key_counts_the_landing_in_the_new_key():
    """Into A from D in G: the 3 is C#, reached from the D by a half step down."""
    chart = chart_of("# a\n1 | 5 | [key +2] 1\ntune: 1 - - - | 2 0 0 0 | 1 - - -", key="G")
    (slot,) = fills(chart, unfold(chart))
    first = slot.notes[0]
    assert (str(first.note), str(first.degree), first.step, str(slot.lands_on.key)) == ("C#", "3", -1, "A")


def test_uneven_metres_count_in_quarters():
    """In 7/8 a gap of four eighths is two quarters long; it ends an eighth before the voice."""
    body = "# a\n1 | 5 | 1\ntune: 1 - - - - - - | 2 - - 0 0 0 0 | 1 - - - - - -"
    assert told(body, meter="7/8 2+2+3") == [(5, 1.5, "5", "1")]


def test_compound_metres_count_in_dotted_quarters():
    """In 12/8 the half beat before the voice is a dotted eighth."""
    assert told("# a\n1 | 5 | 1\ntune: 1 - - - | 2 - 0 0 | 1 - - -", meter="12/8") == [(9, 2.25, "5", "1")]


def test_a_long_gap_is_a_break():
    """More than two bars are room for a solo."""
    chart = chart_of("# a\n1 | 4 | 4 | 5 | 1\ntune: 1 - - - | 0 | 0 | 0 | 1 - - -")
    assert [slot.kind for slot in fills(chart, unfold(chart))] == ["break"]


def test_two_bars_are_a_gap_yet():
    """A break is longer."""
    chart = chart_of("# a\n1 | 4 | 5 | 1\ntune: 1 - - - | 0 | 0 | (0 1) - - -")
    (slot,) = fills(chart, unfold(chart))
    assert (slot.kind, slot.length) == ("gap", 8)


def test_halves_count_in_quarters():
    """In 2/2 a rest of a half is two beats of a fill."""
    assert told("# a\n1 | 5 | 1\ntune: 1 - | 2 0 | 1 -", meter="2/2") == [(6, 1.5, "5", "1")]


def test_a_slot_says_what_a_player_needs():
    """Bar, beat, length, chords, where it leads and what to land on."""
    chart = chart_of("# verse\n1 | 5\ntune: 1 - - - | 2 0 0 0\n# chorus\n6- | 4\ntune: 1 - - - | 1 - - -")
    (slot,) = fills(chart, unfold(chart))
    assert slot.words == "Bar 2 (verse), from beat 2: 2½ beats over 5, into 6-. Land on 1 or 6."
    assert slot.notes == landings(sounding_chords(unfold(chart)))[2][:3]


def test_chops_are_no_voice():
    """What the bow chops leaves the singer's place free."""
    assert told("# a\n1 | 5 | 1\ntune: 1 - - - | x x x x | 1 - - -") == [(4, 3.5, "5", "1")]


def test_nothing_to_play_over_has_no_fills():
    """A song without chords, or whose tune never rests."""
    assert told("# a\nNC | NC") == []
    assert told("# a\n1 | 5\ntune: 1 - - - | 2 - - -") == []


@settings(max_examples=40, deadline=None)  # long songs are made, and the machine may be busy
@given(charts())
def test_fills_keep_out_of_the_way(chart):
    """A slot lies in its bars, over chords, apart from every sung note, and after the slot before."""
    try:
        timeline = unfold(chart)
    except FormFault:
        return
    slots = fills(chart, timeline)
    for slot in slots:
        bar = timeline.bars[slot.bar]
        assert bar.start <= slot.starts_at < bar.start + bar.length
        assert slot.ends_at <= timeline.length
        assert slot.chords
        assert slot.notes
        for event in timeline.notes:
            sung = event.note.kind == "note"
            assert (
                not sung or slot.ends_at < event.starts_at or event.starts_at + event.length <= slot.starts_at
            )
    for before, after in pairwise(slots):
        assert before.ends_at <= after.starts_at
    assert all(slot.length >= Fraction(3, 4) for slot in slots)
