"""The way from the 1 to the 5, the 4 and the 6-."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings import (
    LEVELS,
    Place,
    anchor_routes,
    instrument_names,
    instrument_of,
    midi_at,
    route_words,
    tuned,
)
from fifthwise.theory import Numbering, called_chords, degree_of, read_key, write_number
from tests.strategies import keys, numberings

# Common practice, no source: "same finger one string up is the 5, one down the 4 below, a whole step above
# the 5 is the 6-", in the keys where the start is a middle string.
RULE = [
    ("violin", "B", (2, 2), "1"),
    ("violin", "Eb", (1, 1), "low 1"),
    ("violin", "E", (1, 2), "1"),
    ("violin", "Bb", (2, 1), "low 1"),
    ("violin", "F", (1, 3), "low 2"),
    ("violin", "D", (1, 0), "open"),
    ("viola", "Ab", (1, 1), "low 1"),
    ("viola", "Bb", (1, 3), "low 2"),
    ("cello", "Bb", (1, 3), "2"),
    ("cello", "D", (2, 0), "open"),
]


@pytest.mark.parametrize(("name", "key", "place", "finger"), RULE)
def test_one_finger_on_three_strings_has_4_1_and_5(name, key, place, finger):
    """The best way starts there, has 5 and 4 beside it under the same finger, and the 6- above the 5."""
    route = anchor_routes(instrument_of(name), read_key(key), level="half")[0]
    one, five, four, six = route.anchors
    string, stop = place
    assert (one.at.place, one.finger.name) == (Place(string, stop), finger)
    assert (five.at.place, five.relation) == (Place(string + 1, stop), "same finger")
    assert (four.at.place, four.relation) == (Place(string - 1, stop), "same finger")
    assert (six.at.place, six.relation) == (Place(string + 1, stop + 2), "above the 5")
    assert five.finger.name == four.finger.name == finger


def test_the_neighbours_of_the_first_finger_on_the_a_string():
    """Violin in B: the 5 is F# on the E string, the 4 is E on the D string, both under the first finger."""
    one, five, four, _ = anchor_routes(instrument_of("violin"), read_key("B"))[0].anchors
    told = [(str(a.at.pitch), a.finger.finger) for a in (one, five, four)]
    assert told == [("B4", 1), ("F#5", 1), ("E4", 1)]


def test_one_string_down_is_the_4_below():
    """On strings in fifths the 4 one string down lies a fifth under the 1, not a fourth over it. Derived."""
    violin = instrument_of("violin")
    one, _, four, _ = anchor_routes(violin, read_key("Eb"))[0].anchors
    assert midi_at(violin, one.at.place) - midi_at(violin, four.at.place) == 7


def test_in_fourths_the_neighbours_change_places():
    """On the bass the same finger has the 4 one string up and the 5 below one string down. Derived."""
    bass = instrument_of("double bass")
    one, five, four, six = anchor_routes(bass, read_key("Bb"), level="half")[0].anchors
    assert (four.at.place.string - one.at.place.string, four.at.place.stop) == (1, one.at.place.stop)
    assert (five.at.place.string - one.at.place.string, five.at.place.stop) == (-1, one.at.place.stop)
    assert midi_at(bass, four.at.place) - midi_at(bass, one.at.place) == 5
    assert midi_at(bass, one.at.place) - midi_at(bass, five.at.place) == 5
    assert six.relation == "above the 5"


def test_another_tuning_is_worked_out():
    """A violin in A E A E has its 5 on an open string and its 4 where the middle strings put it."""
    violin = tuned(instrument_of("violin"), "AEAE")
    route = anchor_routes(violin, read_key("A"))[0]
    told = [(str(a.at.pitch), a.finger.name) for a in route.anchors]
    assert told == [("A3", "open"), ("E4", "open"), ("D4", "3"), ("F#4", "1")]


@pytest.mark.parametrize(
    ("name", "key", "level", "words"),
    [
        (
            "violin", "Eb", "first",
            ("1: D string, low first finger. 5: same finger, A string. 4: same finger, G string. "
             "6-: whole step above the 5, low second finger."),
        ),
        (
            "violin", "D", "first",
            "1: open D string. 5: open A string. 4: open G string. 6-: whole step above the 5, first finger.",
        ),
        (
            "double bass",
            "Bb",
            "half",
            (
                "Half position. 1: A string, first finger. 5: same finger, E string. "
                "4: same finger, D string. 6-: whole step above the 5, fourth finger."
            ),
        ),
        (
            "cello", "Ab", "half",
            ("Half position. 1: G string, first finger. 5: same finger, D string. 4: same finger, C string. "
             "6-: whole step above the 5, third finger."),
        ),
    ],
)  # fmt: skip
def test_a_way_is_told_in_short_words(name, key, level, words):
    """String, finger and how the rest is found from there."""
    instrument, tonic = instrument_of(name), read_key(key)
    assert route_words(instrument, anchor_routes(instrument, tonic, level=level)[0], tonic) == words


@pytest.mark.parametrize(
    ("way", "numbers"), [("from-six", "1 5 4 6-"), ("from-one", "1- 5- 4- b3"), ("natural", "1- 5- 4- 3")]
)
def test_a_minor_key_is_called_as_its_song_counts(way, numbers):
    """G minor is called 1 5 4 6- from Bb, or 1- 5- 4- and its b3 from G, which natural numbering writes 3."""
    key, numbering = read_key("Gm"), Numbering(way)
    route = anchor_routes(instrument_of("violin"), key, numbering)[0]
    lowers = numbering.lowers(key)
    assert " ".join(write_number(a.chord, lowers=lowers) for a in route.anchors) == numbers


instruments = st.sampled_from(instrument_names()).map(instrument_of)


@given(instruments, keys(), numberings(), st.sampled_from(LEVELS))
def test_every_key_has_a_way_on_every_instrument(instrument, key, numbering, level):
    """Each way sounds the four roots that are called, under a hand that reaches them, the best way first."""
    routes = anchor_routes(instrument, key, numbering, level=level)
    one, four, five, last = called_chords(key, numbering)
    for route in routes:
        assert [anchor.chord for anchor in route.anchors] == [one, five, four, last]
        for anchor in route.anchors:
            at = anchor.at
            assert degree_of(at.pitch.name, numbering.one(key)) == anchor.chord.root
            assert midi_at(instrument, at.place) == at.pitch.midi
            assert anchor.finger in at.fingers
            if instrument.in_fifths:
                assert anchor.finger.centre in instrument.frame.centres(level)
    assert [route.effort for route in routes] == sorted(route.effort for route in routes)
    assert routes


@given(st.sampled_from(["violin", "viola", "cello", "mandolin"]), keys())
def test_a_wider_level_never_costs_more(name, key):
    """Whoever may go further has a way at least as easy."""
    instrument = instrument_of(name)
    efforts = [anchor_routes(instrument, key, level=level)[0].effort for level in LEVELS]
    assert efforts == sorted(efforts, reverse=True)
