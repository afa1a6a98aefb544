"""Books of earlier shapes brought up to date with all that they hold."""

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import text

from fifthwise.book import (
    KeptSetSong,
    SetOrder,
    add_set,
    add_singer,
    add_song,
    find_songs,
    open_book,
    remove_song,
    save_song,
    song,
    songs,
    versions,
)
from fifthwise.book.engine import is_file, make_book, reading, writing
from fifthwise.book.schema import MIGRATIONS
from tests.book.people import a_singer
from tests.book.texts import tune


def brought_to(place, revision):
    """A new book of an earlier shape."""
    book = make_book(place, 5000)
    with writing(book) as connection:
        config = Config(attributes={"connection": connection})
        config.set_main_option("script_location", str(MIGRATIONS).replace("%", "%%"))
        config.set_main_option("path_separator", "os")
        command.upgrade(config, revision)
    return book


@pytest.fixture
def bare_place(empty_place):
    """The place of a book without tables."""
    with empty_place(made=False) as place:
        yield place


def test_a_book_of_songs_alone_keeps_everything(bare_place):
    """Numbers, texts, versions with their times, and tags stay as the first shape had them."""
    place = bare_place
    with brought_to(place, "0001") as book:
        for number in range(5):
            add_song(book, tune(f"Song {number}", tags="slow, Dance"))
        save_song(book, 3, tune("Song 3 anew", tempo="90"), 1)
        with writing(book) as connection:
            connection.execute(text("DELETE FROM song WHERE id = 2"))
        before = [(row, song(book, row.id), versions(book, row.id)) for row in songs(book)]
        with reading(book) as connection:
            assert connection.execute(text("SELECT version_num FROM alembic_version")).scalar() == "0001"
    with open_book(place) as book:
        assert [(row, song(book, row.id), versions(book, row.id)) for row in songs(book)] == before
        assert len(find_songs(book, tag="dance")) == 3
        if is_file(book):
            with reading(book) as connection:
                assert connection.exec_driver_sql("PRAGMA foreign_key_check").all() == []
                assert connection.exec_driver_sql("PRAGMA integrity_check").scalar() == "ok"
        kept = add_singer(book, a_singer())
        assert add_set(book, SetOrder("Night", songs=(KeptSetSong(1, kept.id),))).version == 1
        remove_song(book, 5, 1)
        assert versions(book, 3)[-1].version == 2
        assert add_song(book, tune()).id == 6
