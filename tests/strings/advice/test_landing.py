"""Notes to land on, best first, and how each is reached."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings.advice import landing
from fifthwise.theory import Key, NoteName, chord_degrees, read_letter_chord, to_letters
from tests.strategies import keys, letter_chords, number_chords, numberings
from tests.strings.advice.asked import in_key


@pytest.mark.parametrize(
    ("number", "order"),
    [
        ("1", "3 1 5"),
        ("57", "7 4 5 2"),
        ("6-", "1 6 3"),
        ("2-7", "4 1 2 6"),
        ("7ø7", "2 6 4 7"),  # the b5 tells the chord, so it comes before the root
        ("5sus", "1 5 2"),
        ("5(5)", "5 2"),
        ("5/7", "7 5 2"),
        ("4/5", "6 4 1 5"),  # a bass outside the chord comes last
        ("b7", "2 b7 4"),
    ],
)
def test_guide_tones_come_first(number, order):
    """Third and seventh, an altered fifth, the root, the fifth, then the rest; common practice, no source."""
    assert [str(note.degree) for note in landing(*in_key(number))] == order.split()


def _words(number, before, key="C"):
    return [note.words for note in landing(*in_key(number, key), before=read_letter_chord(before))]


def test_guide_tones_move_by_the_nearest_step():
    """2-7 5 1 in C moves C to B to C and F to F to E: musictheorymanual.com, guide tones."""
    assert _words("57", "Dm7")[:2] == [
        "7: the chord's 3, a half step down from 1",
        "4: the chord's b7, stays",
    ]
    assert _words("1maj7", "G7")[:2] == [
        "3: the chord's 3, a half step down from 4",
        "7: the chord's 7, stays",
    ]


def test_of_two_ways_as_long_the_one_from_a_guide_tone_is_told():
    """From C to G the D is a step from C and from E, and E is the third."""
    assert _words("5", "C")[2] == "2: the chord's 5, a step down from 3"


def test_a_tritone_is_told_upwards():
    """Up and down are as far."""
    assert _words("1", "F#(no3 no5)")[1] == "1: the root, 6 half steps up from #4"


def test_a_sixth_stands_for_the_seventh_where_there_is_none():
    """In 16 it is a guide tone, in 57(13) a colour."""
    guides = [[str(n.degree) for n in landing(*in_key(number)) if n.guide] for number in ("16", "57(13)")]
    assert guides == [["3", "6"], ["7", "4"]]


def test_a_power_chord_leaves_no_guide_tones():
    """It does not say major or minor, so neither do its notes to land on."""
    assert not any(note.guide for note in landing(*in_key("5(5)")))


def test_the_chord_before_may_be_in_another_key():
    """From D in G to Bb after a change of key to Bb, D stays: it is 3 there."""
    first = landing(*in_key("1", "Bb"), before=read_letter_chord("D"))[0]
    assert (str(first.note), str(first.degree), first.common) == ("D", "3", True)


@pytest.mark.parametrize(
    ("minor", "number", "words"),
    [
        ("from-six", "4", "6: the chord's 3"),
        ("from-one", "b6", "1: the chord's 3"),
        ("natural", "6", "1: the chord's 3"),
    ],
)
def test_minor_songs_count_in_their_own_way(minor, number, words):
    """F in A minor has A to land on, whatever the song calls it."""
    first = landing(*in_key(number, "Am", minor))[0]
    assert (first.words, str(first.note)) == (words, "A")


def test_natural_minor_writes_its_own_numbers():
    """Where 3 means b3, the words say 3."""
    assert landing(*in_key("1-", "Am", "natural"))[0].words == "3: the chord's b3"


@given(number_chords(), keys(), numberings(), st.none() | letter_chords())
def test_every_chord_tone_is_told(chord, key, numbering, before):
    """What is told are the chord's tones, each with the shortest step from the chord before."""
    told = landing(chord, key, numbering, before)
    assert {note.degree.semitones for note in told} == {each.semitones for each in chord_degrees(chord)}
    for note in told:
        assert (note.step is None) == (before is None) == (note.source is None)
        assert note.step is None or (note.source.semitones + note.step - note.degree.semitones) % 12 == 0
        assert note.step is None or -6 < note.step <= 6


@given(number_chords(), number_chords(), keys(), numberings(), st.integers(-7, 7))
def test_moving_the_key_keeps_the_degrees(chord, before, key, numbering, fifths):
    """The same numbers in another key have the same advice."""
    moved = Key(NoteName(key.tonic.fifths + fifths), key.mode)
    told = [
        [
            (n.degree, n.above, n.role, n.step, n.words)
            for n in landing(chord, k, numbering, to_letters(before, numbering.one(k)))
        ]
        for k in (key, moved)
    ]
    assert told[0] == told[1]


def test_the_first_chord_has_no_step():
    """Nothing comes before it."""
    assert landing(*in_key("1"))[0].words == "3: the chord's 3"
