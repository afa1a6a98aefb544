"""Progressions asked for, and the songs that they find."""

import pytest

from fifthwise.book import MOST_CHORDS, SearchFault, add_song, find_songs
from fifthwise.book.chord_index import chord_index
from fifthwise.chart import parse, renumber, write_chart
from fifthwise.theory import MINOR_WAYS
from tests.book.texts import tune

MINOR = tune("Minor", key="A minor", bars="6- | 4 | 1 | 5")


def finds(book, bars, progression, **head):
    """Whether a song with these bars, the only one in the book, is found."""
    add_song(book, tune(bars=bars, **head))
    return find_songs(book, progression=progression).total == 1


@pytest.mark.parametrize(
    ("bars", "progression"),
    [
        ("6- | 4 | 1 | 5", "6- 4 1 5"),
        ("6- | 4 | 1 | 5", "| 6m, 4 | 1 5 |"),
        ("6- | 4 | 1 | 5", "6– 4"),
        ("1 | 6-7 | 4maj7 | 5/7", "6- 4 5"),  # any added colour, any bass
        ("1 | 6-7 | 4maj7 | 5/7", "6-7 4maj7 5/7"),
        ("1 4 | 57 1", "57 1"),
        ("4 | 5sus 5 | 57 | 1", "4 5 1"),  # one 5, however coloured
        ("4 | 5sus 5 | 57 | 1", "5sus 5 57 1"),
        ("4 5(5) 1 /", "5 1"),  # no third goes with both
        ("4 5(5) 1 /", "5- 1"),
        ("1+ 4", "1 4"),
        ("1+7 4", "1+ 4"),
        ("7ø7 3", "7o 3"),
        ("1 | % | 1 4", "1 4"),  # a held chord is one
        ("1 0 4 0", "1 4"),  # a rest parts nothing
        ("|: 1 | 5 :|", "5 1"),  # over the repeat
        ("1 | 5 | [key +2] 1 | 4", "1 4"),  # in the new key
    ],
)
def test_a_song_that_plays_it_is_found(book, bars, progression):
    """Chords count as they are played, by number and third; what is said beyond that is there too."""
    assert finds(book, bars, progression)


@pytest.mark.parametrize(
    ("bars", "progression"),
    [
        ("6- | 4 | 1 | 5", "4 6-"),
        ("6- | 4 | 1 | 5", "6 4"),
        ("6- | 4 | 1 | 5", "4- 1"),
        ("1 | 4 | 57 | 1", "57sus 1"),
        ("1 4 | 5 1", "57 1"),
        ("1 4 | 5 1", "5/7 1"),
        ("5sus 5 1 /", "5- 1"),  # it has the third of its neighbour
        ("7ø7 3", "7- 3"),
        ("1 4", "1+ 4"),
        ("1 NC 4 /", "1 4"),  # NC parts
        ("1 | 5 | [key +2] 1 | 4", "5 1"),  # no one hears that as 5 1
        ("3o 4 5 1", "#2o 4"),  # as it is spelled
        ("1 4", "1 4 1"),
        ("6- | 4 | 1 | 5", "1- b6 b3 b7"),  # home is 1 in major
    ],
)
def test_a_song_that_does_not_play_it_is_not_found(book, bars, progression):
    """Another order, third, colour or bass is another progression."""
    assert not finds(book, bars, progression)


@pytest.mark.parametrize("way", MINOR_WAYS)
@pytest.mark.parametrize("progression", ["6- 4 1 5", "1- b6 b3 b7"])
def test_a_minor_song_is_found_by_either_count(book, way, progression):
    """From six or from home, however the song itself counts; its opening says it in its own numbers."""
    row = add_song(book, write_chart(renumber(parse(MINOR), way)))
    (found,) = find_songs(book, progression=progression).songs
    assert found.id == row.id
    assert found.opening_match == (0, 4)
    wanted = {"from-six": "6- 4 1 5", "from-one": "1- b6 b3 b7", "natural": "1- 6 3 7"}
    assert found.opening == tuple(wanted[way].split())


def test_what_stands_in_minor_inside_a_major_song_is_counted_from_home_too(book):
    """The key that holds at the place decides."""
    assert finds(book, "1 | 5 | [key Bm] 6- | 4", "1- b6", key="D")


@pytest.mark.parametrize(
    ("bars", "progression", "match"),
    [
        ("1 | 4 | 5 | 1", "4 5", (1, 3)),
        ("1 4 | NC | 5 | 1 6- 2- 3-", "5 1", (2, 4)),
        ("1 2- 3- 4 | 5 6- 1 2- | 3- 4 1 6-", "1 6-", None),
        ("1 4 4maj7 5 | 1 4 5 1", "4 5", (1, 4)),
    ],
)
def test_the_match_is_marked_in_the_opening(book, bars, progression, match):
    """Its first place among the first eight chords; nothing where it comes later."""
    add_song(book, tune(bars=bars))
    (found,) = find_songs(book, progression=progression).songs
    assert found.opening_match == match
    assert find_songs(book).songs[0].opening_match is None


def test_an_opening_counts_eight_chords_as_they_are_played():
    """A held chord once, repeats and the form played."""
    text = tune(bars="# A\n|: 1 | 1 | 4 :|\n# B\n5", form="A, B, A")
    assert chord_index(parse(text)).opening == ("1", "4", "1", "4", "5", "1", "4", "1")
    assert chord_index(parse(tune(bars="NC | 0"))).opening == ()


@pytest.mark.parametrize(
    ("progression", "words"),
    [
        ("6- 4 x", r"progression, chord 3: 'x' is no chord. Write numbers, as in '6- 4 1 5'"),
        ("G C", r"chord 1: 'G' is no chord. Write numbers"),
        ("6- 44", r"chord 2: '44' is two numbers or an unknown chord. Did you mean '4 4'"),
        ("1 57(b9", "chord 3"),
        ("1 NC", "'NC' is no chord"),
        ("| ,", "progression: there is no chord in it. Write numbers, as in '6- 4 1 5'"),
        ("1 4 " * 8 + "1", f"it has 17 chords. Write at most {MOST_CHORDS}"),
        ("1" * 501, "it has 501 characters"),
        ("1 \0", "is no chord"),
        ("1% 4", "is no chord"),
        ("_", "is no chord"),
        ("1' or 1=1", "is no chord"),
    ],
)
def test_what_is_no_progression_is_told(book, progression, words):
    """The fault names the chord and the mend."""
    with pytest.raises(SearchFault, match=words):
        find_songs(book, progression=progression)


def test_an_opening_says_every_quality():
    """As the page does: a plain number may mean the scale's own chord in the text, but not in a list."""
    assert chord_index(parse(tune(bars="6 4 | 2 5", plain="diatonic"))).opening == ("6-", "4", "2-", "5")
