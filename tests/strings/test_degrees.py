"""Where degrees are and which finger takes them: worked facts, and laws for every key."""

from itertools import chain, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings import (
    Place,
    degree_places,
    fingers_at,
    instrument_names,
    instrument_of,
    midi_at,
    nearest_hand,
    position_name,
    read_position,
    stop_mm,
)
from fifthwise.theory import (
    Degree,
    Numbering,
    between,
    chord_degrees,
    degree_interval,
    degree_of,
    interval_name,
    read_chord,
    read_degree,
    read_key,
    read_pitch,
    transpose,
)
from tests.strategies import keys, numberings

FIRST, THIRD = 2, 5
# Common practice, no source: the scales of first position. Written as the string's letter and the finger,
# L low and H high; the lists do not name every place.
FIRST_POSITION = {
    ("violin", "G"): "1 G0 D3 EL2; 4 G3 AL2; 5 D0 G4 A3; 6 D1 A4 E0",
    ("violin", "D"): "1 D0 G4 A3; 4 G0 D3 EL2; 5 A0 G1 D4 E3; 6 A1 G2 E4",
    ("violin", "A"): "1 A0 G1 D4 E3; 4 D0 G4 A3; 5 E0 D1 A4; 6 D2 E1",
    ("violin", "C"): "1 G3 AL2; 4 DL2 EL1; 5 G0 D3 EL2; 6 A0 G1 D4 E3",
    ("violin", "F"): "1 DL2 EL1; 4 GL2 AL1; 5 G3 AL2; 6 D0 G4 A3",
    ("violin", "Bb"): "1 GL2 AL1; 4 DL1 AL4; 5 DL2 EL1; 6 G0 D3 EL2",
    ("violin", "Eb"): "1 DL1; 4 GL1; 5 GL2 AL1; 6 G3 AL2",
    ("violin", "E"): "1 E0 D1 A4; 4 A0 G1 D4 E3; 5 A1 G2 E4; 6 A2 GH3",
    ("violin", "B"): "1 A1 G2 E4; 4 D1 A4 E0; 5 D2 E1; 6 DH3 E2 GL1",
    ("violin", "Db"): "1 GL4",
    ("violin", "C#"): "1 GH3",
    ("viola", "G"): "1 G0; 4 C0; 5 D0; 6 D1",
    ("five-string", "C"): "1 C0; 5 G0; 4 DL2; 6 A0; 2 D0",
    ("cello", "D"): "1 D0 C1; 4 G0 D4; 5 A0 G1; 6 A1 G3",
    ("cello", "Bb"): "1 G2; 4 C2 D1; 5 D2 C4; 6 G0 D4",
}
FACTS = [
    (name, key, degree, place)
    for (name, key), text in FIRST_POSITION.items()
    for degree, *places in map(str.split, text.split(";"))
    for place in places
]


def in_letters(instrument, found):
    """A place as the table writes it, under each finger that the hand has there."""
    letter = str(instrument.strings[found.place.string].name)
    short = {"open": "0"}
    names = (short.get(finger.name, finger.name) for finger in found.fingers)
    return [letter + name.replace("low ", "L").replace("high ", "H") for name in names]


@pytest.mark.parametrize(("name", "key", "degree", "place"), FACTS)
def test_a_degree_is_found_where_players_take_it(name, key, degree, place):
    """Each place of the table is found, and its finger is the first to be told on violin and viola."""
    instrument = instrument_of(name)
    found = degree_places(instrument, [read_degree(degree)], read_key(key).tonic, centre=FIRST, highest=7)
    told = [in_letters(instrument, each) for each in found]
    if instrument.frame.plain:
        assert place in [fingers[0] for fingers in told if fingers]
    else:
        assert place in chain.from_iterable(told)


def test_spelling_decides_the_finger_in_every_position():
    """Db on the G string is a low fourth in first position, C# a high third; as Fb and E in third position.

    Common practice, no source: one letter, one finger.
    """
    violin = instrument_of("violin")
    for centre, flat, sharp in ((FIRST, "Db4", "C#4"), (FIRST + 3, "Fb4", "E4")):
        place = Place(0, 6 + centre - FIRST)
        told = [fingers_at(violin, place, read_pitch(pitch), centre)[0].name for pitch in (flat, sharp)]
        assert told == ["low 4", "high 3"]


# Semitones from the 1: where the degree lies one string up, on the string itself, and, an octave lower, one
# string down. Derived: strings a fifth apart, so one string up is seven semitones less.
GEOMETRY = """
b2 -6 1 -4 ; 2 -5 2 -3 ; b3 -4 3 -2 ; 3 -3 4 -1 ; 4 -2 5 0 ; #4 -1 6 1 ; b5 -1 6 1 ; 5 0 7 2
b6 1 8 3 ; 6 2 9 4 ; b7 3 10 5 ; 7 4 11 6
"""


@pytest.mark.parametrize("row", [row for line in GEOMETRY.strip().splitlines() for row in line.split(" ; ")])
@pytest.mark.parametrize("name", ["violin", "viola", "cello", "five-string"])
def test_a_degree_lies_where_the_strings_put_it(row, name):
    """From every place of every 1, each degree lies on the three strings at the semitones of the table."""
    degree, *moves = row.split()
    instrument = instrument_of(name)
    one = read_key("D").tonic
    ones = {each.place for each in degree_places(instrument, [Degree(0)], one)}
    places = {each.place for each in degree_places(instrument, [read_degree(degree)], one)}
    for root in ones:
        for string, move in zip((1, 0, -1), map(int, moves), strict=True):
            there = Place(root.string + string, root.stop + move)
            on_board = 0 <= there.string < len(instrument.strings) and 0 <= there.stop <= instrument.highest
            assert (there in places) == on_board


WORKED = [
    # root's place, then degree, octaves above the root, and its place; all on violin, derived.
    ("D5", 2, 5, "5 0 A5 3 5; 6 0 B5 3 7; 3 0 F#5 3 2; 1 1 D6 3 10"),
    ("G4", 1, 5, "3 0 B4 2 2; 5 0 D5 2 5; 6 0 E5 2 7; 4 0 C5 2 3; b3 0 Bb4 2 1; b7 0 F5 2 8; b7 0 F5 3 1"),
    ("D5", 2, 5, "5 -1 A4 1 7; 5 -1 A4 2 0"),
]


@pytest.mark.parametrize(("root", "string", "stop", "rows"), WORKED)
def test_a_root_under_the_third_finger_has_its_chord_around_it(root, string, stop, rows):
    """The degrees of the table sound at their places, spelled from the root."""
    violin, one = instrument_of("violin"), read_pitch(root)
    assert midi_at(violin, Place(string, stop)) == one.midi
    for degree, octaves, pitch, *place in map(str.split, rows.split(";")):
        found = degree_places(violin, [read_degree(degree)], one.name)
        there = next(each for each in found if each.place == Place(*map(int, place)))
        assert (
            there.pitch
            == read_pitch(pitch)
            == transpose(one, degree_interval(read_degree(degree), int(octaves)))
        )


def test_the_octave_above_the_third_finger_is_a_fourth_finger_in_third_position():
    """D6 on the E string is taken by the fourth finger in third position.

    Source: common practice, no source; ten semitones up are a fourth above third position's first finger.
    """
    violin = instrument_of("violin")
    found = degree_places(violin, [Degree(0)], read_key("D").tonic, highest=10)
    there = next(each for each in found if each.place == Place(3, 10))
    assert (there.finger.name, there.position) == ("4", "third")


# Strings and fingers of double stops, with their interval. Derived: on strings a fifth apart an interval is
# seven semitones and the difference of the stops.
DOUBLE_STOPS = [
    ("G4 B4", FIRST, (1, "3"), (2, "1"), "3"),
    ("F#4 A4", FIRST, (1, "2"), (2, "open"), "b3"),
    ("Bb3 G4", FIRST, (0, "low 2"), (1, "3"), "6"),
    ("B3 G4", FIRST, (0, "2"), (1, "3"), "b6"),
    ("A3 A4", FIRST, (0, "1"), (1, "4"), "8"),
    ("G4 G5", THIRD, (1, "1"), (2, "4"), "8"),
]


@pytest.mark.parametrize(("pitches", "centre", "low", "high", "interval"), DOUBLE_STOPS)
def test_a_double_stop_lies_under_its_two_fingers(pitches, centre, low, high, interval):
    """Both pitches lie under the fingers of the table, as far apart as their stops say."""
    violin = instrument_of("violin")
    stops = []
    for text, (string, name) in zip(pitches.split(), (low, high), strict=True):
        pitch = read_pitch(text)
        place = Place(string, pitch.midi - violin.strings[string].midi)
        assert name in [finger.name for finger in fingers_at(violin, place, pitch, centre)]
        stops.append(place.stop)
    one, other = map(read_pitch, pitches.split())
    assert other.midi - one.midi == 7 + stops[1] - stops[0]
    assert interval_name(between(one, other)) == interval


def test_each_step_of_the_cycle_moves_the_root_a_fourth_up():
    """Round the cycle of fourths each 1 lies five semitones above the last; twelve steps come home."""
    violin, key = instrument_of("violin"), read_key("C")
    stops = []
    for step in range(13):
        one = type(key.tonic)(key.tonic.fifths - step)
        found = degree_places(violin, [Degree(0)], one, highest=11)
        stops.append(next(each.place.stop for each in found if each.place.string == 0))
    assert [(high - low) % 12 for low, high in pairwise(stops)] == [5] * 12
    assert stops[0] == stops[12]


instruments = st.sampled_from(instrument_names()).map(instrument_of)


@given(instruments, keys(), numberings())
def test_every_place_sounds_its_degree(instrument, key, numbering):
    """Each place sounds the pitch told there, which is its degree, at its distance; and none is missed."""
    one, scale = numbering.one(key), numbering.scale(key)
    found = degree_places(instrument, scale, one)
    for each in found:
        assert midi_at(instrument, each.place) == each.pitch.midi
        assert degree_of(each.pitch.name, one) == each.degree
        assert each.mm == stop_mm(instrument.length_mm, each.place.stop)
        assert read_pitch(str(each.pitch)) == each.pitch
    sounds = {(one.fifths + degree.fifths) * 7 % 12 for degree in scale}
    everywhere = {
        Place(string, stop)
        for string, own in enumerate(instrument.strings)
        for stop in range(instrument.highest + 1)
        if (own.midi + stop) % 12 in sounds
    }
    assert {each.place for each in found} == everywhere
    assert [each.place for each in found] == sorted(each.place for each in found)


@given(st.sampled_from(["violin", "viola", "cello", "five-string", "mandolin"]), keys(), st.integers(1, 11))
def test_a_fifth_up_is_the_same_finger_one_string_over(name, key, centre):
    """In a key a fifth higher every place has moved one string up, with its finger."""
    instrument, fifth_up = instrument_of(name), type(key.tonic)(key.tonic.fifths + 1)
    here = degree_places(instrument, key.scale, key.tonic, centre=centre)
    there = degree_places(instrument, key.scale, fifth_up, centre=centre)
    moved = {(Place(e.place.string + 1, e.place.stop), e.degree, e.fingers) for e in here}
    last = len(instrument.strings) - 1
    assert {(e.place, e.degree, e.fingers) for e in there if e.place.string > 0} == {
        each for each in moved if each[0].string <= last
    }


@given(instruments, keys())
def test_the_nearest_hand_reaches_its_place(instrument, key):
    """A place's own hand has a finger for it, and a place without one is reached by no hand."""
    for each in degree_places(instrument, key.scale, key.tonic):
        hand = nearest_hand(instrument, each.place)
        assert bool(each.fingers) == (hand is not None)
        centres = instrument.frame.centres("all")
        reached = [c for c in centres if fingers_at(instrument, each.place, each.pitch, c)]
        assert (hand in reached) if hand is not None else not reached
        assert each.position == ("" if hand is None else position_name(hand))


def test_a_chord_has_its_tones_in_the_key():
    """The 6- of Bb is found as 6, 1 and 3, spelled G, Bb and D."""
    key = read_key("Bb")
    chord = read_chord("6-", key)
    found = degree_places(instrument_of("violin"), chord_degrees(chord), key.tonic, highest=7)
    assert {(str(each.degree), str(each.pitch.name)) for each in found} == {
        ("6", "G"),
        ("1", "Bb"),
        ("3", "D"),
    }


def test_a_minor_key_counts_as_its_song_does():
    """G minor's open G is 6 where home is 6-, and 1 where home is 1-."""
    key, violin = read_key("Gm"), instrument_of("violin")
    for way, degree in (("from-six", "6"), ("from-one", "1"), ("natural", "1")):
        numbering = Numbering(way)
        found = degree_places(violin, numbering.scale(key), numbering.one(key), highest=0)
        assert (found[0].place, str(found[0].degree)) == (Place(0, 0), degree)


@given(instruments)
def test_a_position_is_read_by_the_name_it_is_told_by(instrument):
    """Every hand of an instrument has a name of its own, which leads back to it."""
    centres = instrument.frame.centres("all")
    assert [read_position(instrument, position_name(centre)) for centre in centres] == list(centres)
