"""Songs found as people type: by words, key, tempo, feel and tag."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.book import (
    LONGEST_SEARCH,
    SONG_ORDERS,
    SearchFault,
    add_song,
    feels,
    find_songs,
    open_book,
    save_song,
    song_count,
    song_keys,
    songs,
    songs_titled,
    tags,
)
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
        ({"order": "tempo"}, ["Ölzeug", "Keel 100%", "Straße"]),
        ({"order": "key"}, ["Straße", "Ölzeug", "Keel 100%"]),
        ({"order": "saved"}, ["Straße", "Keel 100%", "Ölzeug"]),
        ({"order": "saved", "first": 1, "count": 1}, ["Keel 100%"]),
        ({"first": 3, "count": 5}, []),
        ({"progression": "1 5", "words": "lantern"}, ["Straße"]),
    ],
)
def test_songs_have_all_that_is_asked_for(book, asked, titles):
    """Case, accents and the databases' own signs make no difference; each thing asked for narrows."""
    assert [row.title for row in find_songs(book, **asked).songs] == titles


def test_asking_for_nothing_gives_all(book):
    """The search without wishes is the list of songs."""
    found = find_songs(book)
    assert (found.songs, found.total) == (songs(book), len(SONGS))


def test_a_search_without_end_is_refused(book):
    """A paste that went astray is told, not run."""
    with pytest.raises(SearchFault, match=r"search: it has 501 characters. Write at most 500"):
        find_songs(book, words="a" * (LONGEST_SEARCH + 1))


@given(st.text())
def test_folding_again_changes_nothing(text):
    """What is typed and what is kept meet in one form."""
    assert fold(fold(text)) == fold(text)


@settings(deadline=None)
@given(st.sampled_from(SONG_ORDERS), st.integers(0, 5), st.integers(1, 4))
def test_pages_make_up_the_whole(book, order, first, count):
    """A page is that part of all that is found; the total is of all, whichever page is read."""
    whole = find_songs(book, order=order)
    page = find_songs(book, order=order, first=first, count=count)
    assert page.songs == whole.songs[first : first + count]
    assert page.total == whole.total == len(SONGS)


def test_a_song_saved_again_is_the_newest(tmp_path):
    """The order by time goes by the last save, not by the first."""
    with open_book(tmp_path / "order.book") as book:
        first, _ = (add_song(book, tune(title)) for title in ("First", "Second"))
        save_song(book, first.id, tune("First, again"), 1)
        assert [row.title for row in find_songs(book, order="saved").songs] == ["First, again", "Second"]


def test_tags_and_feels_are_counted_as_most_write_them(tmp_path):
    """Spellings that a search takes for one are one, named by the most common; a song counts once."""
    heads = (
        {"tags": "Émigré, dance", "feel": "Swing"},
        {"tags": "emigre, slow", "feel": "swing"},
        {"tags": "EMIGRE, emigre", "feel": "swing"},
        {},
    )
    with open_book(tmp_path / "tags.book") as book:
        assert tags(book) == feels(book) == ()
        for head in heads:
            add_song(book, tune(**head))
        assert tags(book) == (("dance", 1), ("emigre", 3), ("slow", 1))
        assert feels(book) == (("swing", 3),)


def test_keys_are_counted_along_the_fifths(tmp_path):
    """From flats to sharps; the same signature in two modes is two keys."""
    with open_book(tmp_path / "keys.book") as book:
        for key in ("D", "Eb", "B minor", "D", "F#", "Gb"):
            add_song(book, tune(key=key))
        told = [(str(key), count) for key, count in song_keys(book)]
        assert told == [("Gb", 1), ("Eb", 1), ("D", 2), ("B minor", 1), ("F#", 1)]


def test_songs_of_a_title_are_found_whatever_its_case(tmp_path):
    """All of them, the oldest first; a part of a title is not one."""
    with open_book(tmp_path / "titles.book") as book:
        ids = [add_song(book, tune(title)).id for title in ("Ölzeug", "OLZEUG", "Ölzeug on")]
        assert [row.id for row in songs_titled(book, " ölzeug ")] == ids[:2]
        assert songs_titled(book, "Öl") == songs_titled(book, "\0") == ()
        assert song_count(book) == 3
