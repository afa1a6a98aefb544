"""Progressions looked for in 370 songs, beside a scan of the source's labels that knows of no index."""

import pytest

from fifthwise.book import add_song, find_songs, open_book
from tests.book.pop_scan import different_progressions, scan
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

QUERIES = 400


@pytest.fixture(scope="module")
def book(empty_place):
    """All songs, each called by its number."""
    with empty_place() as place, open_book(place) as book:
        for number, song in enumerate(pop_songs()):
            add_song(book, number_chart(song, str(number)))
        yield book


def test_what_is_found_is_what_a_scan_of_the_labels_finds(book):
    """Every song that plays the progression is found, in whatever key, and no other."""
    totals = []
    for text, wanted in different_progressions(QUERIES).items():
        found = find_songs(book, progression=text)
        scanned = scan(wanted, range(len(pop_songs())))
        assert {int(row.title) for row in found.songs} == scanned, text
        assert found.total == len(scanned)
        totals.append(len(scanned))
    assert totals.count(0) >= 20  # some are nowhere
    assert sum(total >= 20 for total in totals) >= 50  # some are everywhere
    assert sum(total == 1 for total in totals) >= 50
