"""A book looked through: a sound one says nothing, and each thing that is wrong is told with its mend."""

import pytest
from sqlalchemy import text

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_player,
    add_set,
    add_singer,
    add_song,
    check_book,
    open_book,
    save_song,
    song,
)
from fifthwise.book.engine import writing
from tests.book.people import a_player, a_singer
from tests.book.texts import tune


def by_hand(book, *statements):
    """Change a book's rows behind its back."""
    with writing(book) as connection:
        for statement in statements:
            connection.execute(text(statement))


@pytest.fixture
def kept(book):
    """A book with two songs, one of two versions."""
    row = add_song(book, tune("Keel", tempo="92", tags="slow, dance"))
    save_song(book, row.id, tune("Keel", tempo="96", tags="slow"), 1)
    add_song(book, tune())
    return book


def test_a_sound_book_says_nothing(kept):
    """Songs, versions and tags as the book itself writes them."""
    assert check_book(kept) == ()


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        (
            "UPDATE song SET text = 'no chart' WHERE id = 2",
            "song 2, 'Slack Water': line 1: the chart does not begin with its head",
        ),
        (
            "UPDATE song SET tempo_bpm = 40, folded_title = 'hull' WHERE id = 1",
            "song 1, 'Keel': the list does not say what its text says (tempo_bpm, folded_title). Open it",
        ),
        ("DELETE FROM song_tag", "song 1, 'Keel': the list does not say what its text says (tags)"),
        ("DELETE FROM song_version WHERE version = 1 AND song_id = 1", "its versions are not whole (1 of 2)"),
        ("DELETE FROM song_version WHERE version = 2", "its versions are not whole (1 of 2)"),
        ("UPDATE song SET version = 2000000000", "its versions are not whole (2 of 2000000000)"),
        (
            "UPDATE song_version SET text = 'other' WHERE song_id = 2",
            "song 2, 'Slack Water': its newest version has another text. Open it and save it again.",
        ),
    ],
)
def test_what_is_wrong_is_told(kept, statement, said):
    """In words that name the song and the mend."""
    by_hand(kept, statement)
    assert any(said in str(finding) for finding in check_book(kept))


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        (
            "UPDATE singer SET comfort = 'low'",
            "singer 1, 'Maren': 'low' is no range. Open it and save it again",
        ),
        ("UPDATE player SET instrument = 'crumhorn'", "player 1, 'Ines': the instrument 'crumhorn' is not"),
        ("UPDATE player SET show = 'tab'", "player 1, 'Ines': what it shows is none of numbers, letters"),
        ("UPDATE set_song SET key = 'H'", "set 1, 'Night': 'H' is no key"),
        ("UPDATE kept_set SET paper = 'a5'", "set 1, 'Night': 'a5' is no paper"),
    ],
)
def test_people_and_sets_that_are_not_read_are_told(kept, statement, said):
    """Each by its number and name."""
    singer, player = add_singer(kept, a_singer()), add_player(kept, a_player())
    placed = (KeptSetSong(1, singer.id, "G"),)
    add_set(kept, SetOrder("Night", None, "a4", (singer.id,), (player.id,), placed))
    assert check_book(kept) == ()
    by_hand(kept, statement)
    assert any(said in str(finding) for finding in check_book(kept)), check_book(kept)


@pytest.mark.parametrize("column", ["tempo_bpm = 40", "title = 'Hull'", "folded_words = ''"])
def test_the_mend_mends(kept, column):
    """Saving the same text again brings the list back to what the text says."""
    by_hand(kept, f"UPDATE song SET {column}")
    assert check_book(kept)
    for number in (1, 2):
        found = song(kept, number)
        save_song(kept, number, found.text, found.row.version)
    assert check_book(kept) == ()


@pytest.mark.parametrize("empty_place", ["sqlite"], indirect=True)
def test_a_row_that_names_nothing_is_told(kept):
    """PostgreSQL cannot come to it; SQLite can, where another program wrote without its rule on."""
    connection = kept.engine.raw_connection()
    driver = connection.driver_connection
    driver.execute("PRAGMA foreign_keys=OFF")
    driver.execute("DELETE FROM song WHERE id = 2")
    driver.execute("PRAGMA foreign_keys=ON")
    connection.close()
    (finding,) = check_book(kept)
    assert str(finding).startswith("song version: song 2 is named and not there. Put the newest backup back")


def test_a_damaged_file_is_told(tmp_path):
    """SQLite's own check comes first, and no song is then looked at."""
    path = tmp_path / "band.sqlite"
    with open_book(path) as book:
        for number in range(40):
            add_song(book, tune(f"Song {number}"))
    raw = bytearray(path.read_bytes())
    raw[-4096:] = b"\xff" * 4096
    path.write_bytes(raw)
    with open_book(path) as book:
        found = check_book(book)
    assert found
    assert all("damaged" in finding.what for finding in found)
    assert all("backup" in finding.fix for finding in found)
