"""Songs found as people type: by words, key, tempo, feel and tag."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.book import LONGEST_SEARCH, SearchFault, add_song, find_songs, open_book, songs
from fifthwise.book.folded import fold
from fifthwise.theory import read_key
from tests.book.texts import tune

SONGS = (
    tune("Ölzeug", key="F#", tempo="60", feel="slow swing", tags="Night, émigré songs", by="M. Strand"),
    tune("Keel 100%", key="Gb", tempo="120", feel="shuffle", tags="dance"),
    tune("Straße", bars="1 | 5\nwords: down the lan- | tern road", key="D minor", tags="late night"),
)


@pytest.fixture(scope="module")
def book(empty_place):
    """A book with SONGS."""
    with empty_place() as place, open_book(place) as book:
        for text in SONGS:
            add_song(book, text)
        yield book


@pytest.mark.parametrize(
    ("asked", "titles"),
    [
        ({}, ["Keel 100%", "Ölzeug", "Straße"]),
        ({"words": "olz"}, ["Ölzeug"]),
        ({"words": "STRASSE"}, ["Straße"]),
        ({"words": "strand night"}, ["Ölzeug"]),
        ({"words": "night strand keel"}, []),
        ({"words": "lantern"}, ["Straße"]),
        ({"words": "%"}, ["Keel 100%"]),
        ({"words": "_"}, []),
        ({"words": "' or 1=1 --"}, []),
        ({"words": "a\0\ud800"}, []),
        ({"key": read_key("F#")}, ["Ölzeug"]),
        ({"key": read_key("Dm")}, ["Straße"]),
        ({"tempo": (60, 120)}, ["Keel 100%", "Ölzeug"]),
        ({"tempo": (61, 119)}, []),
        ({"feel": "Swing"}, ["Ölzeug"]),
        ({"tag": "emigre SONGS"}, ["Ölzeug"]),
        ({"tag": "night"}, ["Ölzeug"]),
        ({"tag": "night", "key": read_key("Dm")}, []),
    ],
)
def test_songs_have_all_that_is_asked_for(book, asked, titles):
    """Case, accents and the databases' own signs make no difference; each thing asked for narrows."""
    assert [row.title for row in find_songs(book, **asked)] == titles


def test_asking_for_nothing_gives_all(book):
    """The search without wishes is the list of songs."""
    assert find_songs(book) == songs(book)


def test_a_search_without_end_is_refused(book):
    """A paste that went astray is told, not run."""
    with pytest.raises(SearchFault, match=r"search: it has 501 characters. Write at most 500"):
        find_songs(book, words="a" * (LONGEST_SEARCH + 1))


@given(st.text())
def test_folding_again_changes_nothing(text):
    """What is typed and what is kept meet in one form."""
    assert fold(fold(text)) == fold(text)
