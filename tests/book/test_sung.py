"""Who sang what, in which key, and when."""

from datetime import date

import pytest

from fifthwise.book import (
    NoSuchSinger,
    NoSuchSong,
    Sung,
    add_singer,
    add_song,
    last_sung,
    last_sung_of,
    record_sung,
    remove_singer,
    remove_song,
    sung_by,
)
from fifthwise.theory import read_key
from tests.book.people import a_singer, winners_at_once
from tests.book.texts import tune

MAY, JUNE, JULY = (date(2026, month, 1) for month in (5, 6, 7))
G, FLAT, SHARP = read_key("G"), read_key("Gb mixolydian"), read_key("F#")


@pytest.fixture
def ids(book):
    """Two singers and two songs: Maren, Tobias, Slack Water, Keel."""
    people = [add_singer(book, a_singer(name)).id for name in ("Maren", "Tobias")]
    return (*people, *(add_song(book, tune(title)).id for title in ("Slack Water", "Keel")))


def test_the_newest_of_each_singer_is_told(book, ids):
    """An older day that is noted later changes nothing; the key keeps its spelling and mode."""
    maren, tobias, water, keel = ids
    for who, song, key, on in (
        (maren, water, FLAT, JUNE),
        (maren, water, G, MAY),
        (tobias, water, SHARP, JULY),
        (tobias, keel, G, JUNE),
    ):
        record_sung(book, who, song, key, on)
    assert last_sung(book, water) == (
        Sung(tobias, "Tobias", water, "Slack Water", SHARP, JULY),
        Sung(maren, "Maren", water, "Slack Water", FLAT, JUNE),
    )
    assert [(each.title, each.on) for each in sung_by(book, maren)] == [
        ("Slack Water", JUNE),
        ("Slack Water", MAY),
    ]
    assert [each.title for each in sung_by(book, tobias)] == ["Slack Water", "Keel"]


def test_the_last_note_of_a_day_holds(book, ids):
    """The same song on the same day again replaces the key."""
    maren, _, water, _ = ids
    record_sung(book, maren, water, G, MAY)
    record_sung(book, maren, water, SHARP, MAY)
    assert [each.key for each in sung_by(book, maren)] == [SHARP]


def test_several_may_note_the_same_at_once(book, ids):
    """All are kept one after the other, none fails."""
    maren, _, water, _ = ids
    assert len(winners_at_once(lambda number: record_sung(book, maren, water, G, MAY))) == 8
    assert len(sung_by(book, maren)) == 1


def test_what_is_not_there_is_told(book, ids):
    """Neither noted nor asked for."""
    maren, _, water, _ = ids
    for ask in (lambda: record_sung(book, 99, water, G, MAY), lambda: sung_by(book, 99)):
        with pytest.raises(NoSuchSinger, match="there is no singer 99"):
            ask()
    for ask in (lambda: record_sung(book, maren, 99, G, MAY), lambda: last_sung(book, 99)):
        with pytest.raises(NoSuchSong, match="there is no song 99"):
            ask()


def test_it_goes_with_the_singer_and_the_song(book, ids):
    """What is left speaks of those who are there."""
    maren, tobias, water, keel = ids
    for who in (maren, tobias):
        record_sung(book, who, water, G, MAY)
    record_sung(book, tobias, keel, G, MAY)
    remove_singer(book, maren, 1)
    assert [each.singer_name for each in last_sung(book, water)] == ["Tobias"]
    remove_song(book, water, 1)
    assert [each.title for each in sung_by(book, tobias)] == ["Keel"]


def test_many_songs_are_asked_for_at_once(book, ids):
    """Each has what it has alone; one that nobody sang, or that is not there, has nothing."""
    maren, tobias, water, keel = ids
    silent = add_song(book, tune("Silent")).id
    record_sung(book, maren, water, G, MAY)
    record_sung(book, maren, water, FLAT, JUNE)
    record_sung(book, tobias, water, SHARP, MAY)
    record_sung(book, maren, keel, SHARP, JULY)
    wanted = (keel, silent, water, 999)
    alone = {number: last_sung(book, number) for number in wanted[:3]}
    assert last_sung_of(book, wanted) == {**alone, 999: ()}
    assert [each.key for each in last_sung_of(book, [water])[water]] == [FLAT, SHARP]
    assert last_sung_of(book, ()) == {}
