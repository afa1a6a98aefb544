"""Finger patterns: how far apart the fingers stand."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings import finger_patterns, instrument_of
from fifthwise.theory import read_key
from tests.strategies import keys

# Semitones from finger 1 to 2, 2 to 3 and 3 to 4, on G, D, A and E in first position. Derived from the scale.
FIRST_POSITION = {
    "D": "221 212 212 122",
    "A": "221 221 212 212",
    "G": "212 212 122 122",
    "C": "212 122 122 222",
    "Bb": "122 222 221 221",
    "E": "222 221 221 212",
}


@pytest.mark.parametrize("key", FIRST_POSITION)
def test_a_key_has_its_pattern_on_each_string(key):
    """Four fingers, and the gaps of the table."""
    found = finger_patterns(instrument_of("violin"), read_key(key))
    assert [each.fingers for each in found] == [(1, 2, 3, 4)] * 4
    assert " ".join("".join(map(str, each.gaps)) for each in found) == FIRST_POSITION[key]


@pytest.mark.parametrize(
    ("name", "key", "string", "words"),
    [
        ("violin", "D", 1, "2 and 3 touch"),
        ("violin", "Bb", 1, "all apart"),
        ("violin", "C", 1, "1 and 2 touch"),
        ("violin", "A", 1, "3 and 4 touch"),
        ("cello", "D", 2, "1 3 4"),
        ("cello", "E", 2, "1 2 4, extended"),
        ("double bass", "D", 1, "1 4"),
    ],
)
def test_a_pattern_is_told_as_the_hand_feels_it(name, key, string, words):
    """Which fingers touch, or that none do; on cello and bass the fingers, and a stretched hand."""
    assert finger_patterns(instrument_of(name), read_key(key))[string].words == words


@given(st.sampled_from(["violin", "viola", "five-string"]), keys(), st.integers(1, 11))
def test_every_scale_lies_under_four_fingers(name, key, centre):
    """In any position each string has four fingers in order on notes of the scale, none skipped."""
    instrument = instrument_of(name)
    sounds = {(key.tonic.fifths + degree.fifths) * 7 % 12 for degree in key.scale}
    found = finger_patterns(instrument, key, centre=centre)
    assert [each.string for each in found] == list(range(len(instrument.strings)))
    for each in found:
        own = instrument.strings[each.string].midi
        between = range(each.stops[0], each.stops[-1] + 1)
        assert list(each.stops) == [stop for stop in between if (own + stop) % 12 in sounds]
        assert list(each.fingers) == sorted(set(each.fingers))
        assert len(each.fingers) >= 3


@given(st.sampled_from(["violin", "viola", "cello", "five-string"]), keys())
def test_a_fifth_up_the_patterns_move_one_string_over(name, key):
    """The key a fifth higher has on each string what this key has on the one below."""
    instrument, fifth_up = instrument_of(name), type(key.tonic)(key.tonic.fifths + 1)
    here = finger_patterns(instrument, key)
    there = finger_patterns(instrument, type(key)(fifth_up, key.mode)) if abs(key.signature + 1) < 8 else None
    if there is not None and len(here) == len(there):
        assert [(e.fingers, e.stops, e.shape) for e in here[:-1]] == [
            (e.fingers, e.stops, e.shape) for e in there[1:]
        ]
