"""Open strings as drones over a progression and over a song."""

from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import roman

from fifthwise.chart import unfold
from fifthwise.strings import instrument_names, instrument_of
from fifthwise.strings.advice import best_drones, progression_chords, ringing_strings, sounding_chords
from fifthwise.theory import Interval, Key, NoteName, Numbering, read_chord, read_key, transpose
from tests.chart.texts import chart_of
from tests.strategies import instruments, keys, number_chords, numberings

VIOLIN = instrument_of("violin")
# Derived: the open strings of a violin that are chord tones of 1, 4, 5 and 6-, key by key.
INSIDE = {
    "G": "G D / G E / D A / G E",
    "D": "D A / G D / A E / D",
    "A": "A E / D A / E / A",
    "C": "G E / A / G D / A E",
    "F": "A / D / G E / D A",
    "Bb": "D / G / A / G D",
    "Eb": "G / - / D / G",
    "E": "E / A E / - / E",
}


def _chords(numbers, key, minor="from-six"):
    numbering, read = Numbering(minor), read_key(key)
    return progression_chords([read_chord(n, read, numbering) for n in numbers.split()], read, numbering)


@pytest.mark.parametrize("key", INSIDE)
def test_strings_in_the_chords_of_a_key(key):
    """The strings that are chord tones are those of the table, and those of music21's Roman numerals."""
    told = ringing_strings(_chords("1 4 5 6-", key), VIOLIN)
    for each, wanted, numeral in zip(told, INSIDE[key].split(" / "), ("I", "IV", "V", "vi"), strict=True):
        inside = [str(colour.pitch.name) for colour in each.inside]
        assert inside == [name for name in wanted.split() if name != "-"]
        sounds = {pitch.pitchClass for pitch in roman.RomanNumeral(numeral, key.replace("b", "-")).pitches}
        assert [c.in_chord for c in each.strings] == [c.pitch.midi % 12 in sounds for c in each.strings]


@given(keys(), instruments())
def test_no_string_belongs_to_1_4_and_5(key, instrument):
    """The three share no note, so whatever rings on is a colour somewhere. Derived."""
    for drone in best_drones(_chords("1 4 5", str(key)), instrument):
        assert drone.inside < 1
        assert any(not colour.in_chord for colour in drone.colours)


@pytest.mark.parametrize(
    ("numbers", "key", "words"),
    [
        ("1 4 1 5", "G", "G: in 1 and 4, sus4 over 5"),
        ("1 4 1 5", "D", "D: in 1 and 4, sus4 over 5"),
        ("1 5 1 5", "G", "D: in 1 and 5"),
        ("4 5 4", "G", "G: in 4, sus4 over 5"),
        ("4/5 5", "C", "G: in 4/5 and 5"),  # the bass rings too
        ("1 5 6- 4", "Eb", "G: in 1 and 6-, 6 over 5 and 7 over 4"),
    ],
)
def test_the_best_drone_of_a_progression(numbers, key, words):
    """It is a chord tone for most of the time, and says what colour it makes elsewhere."""
    assert best_drones(_chords(numbers, key), VIOLIN)[0].words == words


def test_the_1_over_the_5_is_its_sus4_and_the_5_over_the_4_its_9():
    """The two colours that every player meets; common practice, no source."""
    told = {drone.words for drone in best_drones(_chords("1 4 5", "G"), VIOLIN)}
    assert {"G: in 1 and 4, sus4 over 5", "D: in 1 and 5, 9 over 4"} <= told


@pytest.mark.parametrize(
    ("numbers", "key", "order", "rough"),
    [
        ("1 6", "D", "A D E G", (0, 1, 0, 1)),  # over B major D is the #9 and G the b6
        ("1-", "D", "D A G E", (0, 0, 0, 0)),
        ("1-", "C", "G D A E", (0, 0, 0, 2)),  # E against the b3
        ("1sus", "C", "G D A E", (0, 0, 0, 2)),  # E against the 4
        ("1(5)", "C", "G D A E", (0, 0, 0, 0)),  # nothing says that E is not its 3
    ],
)
def test_of_two_that_are_in_as_long_the_milder_one_comes_first(numbers, key, order, rough):
    """Half the time is one share; common practice, no source."""
    told = best_drones(_chords(numbers, key), VIOLIN)
    assert [str(drone.pitch.name) for drone in told] == order.split()
    assert [drone.rough * 2 for drone in told] == list(rough)


def test_a_bass_that_the_chord_has_keeps_its_name():
    """In 1/3 the E is the 3; in 4/5 the G, which the chord has not, is the bass."""
    inner, outer = ringing_strings(_chords("1/3 4/5", "C"), VIOLIN)
    assert inner.words == "G rings as the 5, E as the 3"
    assert outer.words == "G rings as the bass, A as the 3"


def test_a_song_has_a_drone_for_each_section():
    """Time counts, stops and silence do not, and a section has its own."""
    chart = chart_of("# verse\n1 | 4\n# chorus\n5 | 5.stop | NC | 0", key="G")
    timeline = unfold(chart)
    verse, chorus = (best_drones(sounding_chords(timeline, section=place), VIOLIN)[0] for place in (0, 1))
    assert (verse.words, verse.inside) == ("G: in 1 and 4", 1)
    assert (chorus.words, chorus.inside) == ("D: in 5", 1)
    whole = {str(each.pitch.name): each.inside for each in best_drones(sounding_chords(timeline), VIOLIN)}
    assert whole["G"] == Fraction(8) / (8 + 4 + Fraction(1, 2))


def test_a_song_without_chords_has_no_drone():
    """Nothing sounds that a string could be in."""
    assert best_drones(sounding_chords(unfold(chart_of("# a\nNC | 0"))), VIOLIN) == ()


def test_a_change_of_key_is_followed():
    """From G to A the number 1 is another chord, and so is what rings."""
    chart = chart_of("# verse\n1 | [key +2] 1", key="G")
    told = ringing_strings(sounding_chords(unfold(chart)), VIOLIN)
    assert [each.words for each in told] == [
        "G rings as the root, D as the 5",
        "A rings as the root, E as the 5",
    ]


@pytest.mark.parametrize(
    ("minor", "words"), [("from-six", "6- and 4"), ("from-one", "1- and b6"), ("natural", "1- and 6")]
)
def test_minor_songs_name_chords_in_their_own_way(minor, words):
    """The same sound, written as the song writes it."""
    numbers = {"from-six": "6- 4", "from-one": "1- b6", "natural": "1- 6"}[minor]
    assert best_drones(_chords(numbers, "Am", minor), VIOLIN)[0].words == f"A: in {words}"


@given(
    st.lists(number_chords(), min_size=1, max_size=6),
    keys(),
    numberings(),
    st.sampled_from(instrument_names()),
)
def test_shares_are_of_the_whole(chords, key, numbering, name):
    """Every string is told once, the shares lie between 0 and 1, and the best one comes first."""
    instrument = instrument_of(name)
    told = best_drones(progression_chords(chords, key, numbering), instrument)
    assert sorted(drone.string for drone in told) == list(range(len(instrument.strings)))
    assert all(0 <= drone.inside <= 1 and 0 <= drone.rough <= 1 - drone.inside for drone in told)
    assert told[0].inside == max(drone.inside for drone in told)


@given(
    st.lists(number_chords(), min_size=1, max_size=4), keys(), numberings(), instruments(), st.integers(-5, 5)
)
def test_strings_tuned_with_the_key_keep_their_colours(chords, key, numbering, instrument, fifths):
    """Key and strings moved by one interval: the same colours, and the same drone first."""
    up = Interval(fifths, -((fifths * 7) // 12))
    moved = Key(NoteName(key.tonic.fifths + fifths), key.mode)
    tuned = replace(instrument, strings=tuple(transpose(pitch, up) for pitch in instrument.strings))
    here, there = progression_chords(chords, key, numbering), progression_chords(chords, moved, numbering)
    for before, after in zip(ringing_strings(here, instrument), ringing_strings(there, tuned), strict=True):
        assert [(c.name, c.in_chord) for c in before.strings] == [(c.name, c.in_chord) for c in after.strings]
    drones = [best_drones(here, instrument), best_drones(there, tuned)]
    first, second = ([(d.string, d.inside, d.rough, d.colours) for d in told] for told in drones)
    assert first == second


@given(st.lists(number_chords(), min_size=1, max_size=4), keys(), numberings())
def test_a_fifth_up_is_the_next_string(chords, key, numbering):
    """On strings in fifths the key a fifth higher has the same colours one string up."""
    higher = Key(NoteName(key.tonic.fifths + 1), key.mode)
    low = ringing_strings(progression_chords(chords, key, numbering), VIOLIN)
    high = ringing_strings(progression_chords(chords, higher, numbering), VIOLIN)
    for before, after in zip(low, high, strict=True):
        assert [c.name for c in before.strings[:-1]] == [c.name for c in after.strings[1:]]
