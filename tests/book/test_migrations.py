"""Books of earlier shapes brought up to date with all that they hold."""

import sqlite3
from contextlib import closing
from datetime import UTC, datetime

import pytest
from sqlalchemy import column, insert, table, text

from fifthwise.book import (
    BookAway,
    KeptSetSong,
    SetOrder,
    add_set,
    add_singer,
    add_song,
    check_book,
    find_songs,
    open_book,
    put_back,
    remove_song,
    song,
    songs,
    versions,
)
from fifthwise.book.engine import is_file, reading, writing
from fifthwise.book.folded import folded_tags, song_columns
from fifthwise.book.schema import REVISIONS
from fifthwise.book.tables import song_tag, song_version
from fifthwise.chart import read_chart
from tests.book.old_books import brought_to
from tests.book.people import a_singer
from tests.book.texts import tune

# The columns that a song of the first shape has, but for its number, version and text.
FIRST = ("title", "by", "key", "tempo_bpm", "feel", "tags", "folded_title", "folded_feel", "folded_words")

UNREAD = {"title": "unread", "key": "C", "folded_title": "unread", "folded_feel": "", "folded_words": ""}


def add_old_song(connection, number, texts):
    """Put a song in as the first shape has it, with the texts that it had; it gets the next number."""
    reading = read_chart(texts[-1])
    said = UNREAD if reading.faults else song_columns(reading.chart)
    row = {"version": len(texts), "text": texts[-1], **{name: said[name] for name in FIRST if name in said}}
    connection.execute(insert(table("song", *map(column, row))), row)
    kept = [
        {"song_id": number, "version": at, "text": each, "saved_at": datetime(2026, number, at)}
        for at, each in enumerate(texts, 1)
    ]
    connection.execute(insert(song_version), kept)
    tags = frozenset() if reading.faults else folded_tags(reading.chart)
    for tag in tags:
        connection.execute(insert(song_tag).values(song_id=number, folded_tag=tag))


@pytest.fixture
def bare_place(empty_place):
    """The place of a book without tables."""
    with empty_place(made=False) as place:
        yield place


def test_a_book_of_songs_alone_keeps_everything(bare_place):
    """Numbers, texts, versions with their times, and tags stay as the first shape had them."""
    place = bare_place
    with brought_to(place, "0001") as book, writing(book) as connection:
        for number in (1, 2, 3):
            add_old_song(connection, number, [tune(f"Song {number}", tags="slow, Dance")])
        add_old_song(connection, 4, [tune("Song 4", tags="slow"), tune("Song 4 anew", tempo="90")])
        add_old_song(connection, 5, [tune("Song 5", tags="slow, Dance")])
        add_old_song(connection, 6, ["no chart any more", "still none"])
        connection.execute(text("DELETE FROM song WHERE id = 2"))
        assert connection.execute(text("SELECT version_num FROM alembic_version")).scalar() == "0001"
    with open_book(place) as book:
        assert [row.title for row in songs(book)] == ["Song 1", "Song 3", "Song 4 anew", "Song 5", "unread"]
        assert [version.text for version in versions(book, 4)] == [
            tune("Song 4", tags="slow"), tune("Song 4 anew", tempo="90")
        ]  # fmt: skip
        assert versions(book, 4)[1].saved_at == datetime(2026, 4, 2, tzinfo=UTC)
        assert find_songs(book, tag="dance").total == 3
        newest_first = [row.id for row in find_songs(book, order="saved").songs]
        assert newest_first == [6, 5, 4, 3, 1]
        assert find_songs(book, progression="4 5").total == 4
        row = song(book, 4).row
        assert (row.metre, row.sung, row.opening) == ("4/4", False, ("1", "4", "5", "1"))
        unread = song(book, 6)
        assert (unread.text, unread.row.metre, unread.row.opening) == ("still none", "", ())
        if is_file(book):
            with reading(book) as connection:
                assert connection.exec_driver_sql("PRAGMA foreign_key_check").all() == []
                assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
        kept = add_singer(book, a_singer())
        assert add_set(book, SetOrder("Night", songs=(KeptSetSong(1, kept.id),))).version == 1
        remove_song(book, 5, 1)
        assert versions(book, 4)[-1].version == 2
        assert add_song(book, tune()).id == 7


@pytest.mark.parametrize("revision", REVISIONS[:-1])
def test_an_older_book_is_backed_up_as_it_was(tmp_path, revision):
    """Its copy has the older shape, lies beside the daily ones, and can be put back."""
    path = tmp_path / "band.sqlite"
    with brought_to(path, revision):
        pass
    with open_book(path):
        pass
    copy = tmp_path / "backups" / f"band-shape-{revision}.sqlite"
    with closing(sqlite3.connect(copy)) as connection:
        assert connection.execute("SELECT version_num FROM alembic_version").fetchall() == [(revision,)]
    put_back(path, copy)
    with open_book(path) as book:
        assert check_book(book) == ()


def test_an_older_book_that_cannot_be_backed_up_is_left_as_it_is(tmp_path):
    """The fault says where the copy was to lie."""
    path = tmp_path / "band.sqlite"
    with brought_to(path, REVISIONS[0]):
        pass
    before = path.read_bytes()
    (tmp_path / "backups").write_text("in the way")
    with pytest.raises(BookAway, match=r"backups/band-shape-0001\.sqlite"):
        open_book(path)
    assert path.read_bytes() == before


def test_a_new_book_has_nothing_to_back_up(tmp_path):
    """No folder is made for it."""
    with open_book(tmp_path / "band.sqlite"):
        pass
    assert not (tmp_path / "backups").exists()
