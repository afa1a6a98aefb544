"""The page *Versions*: what a song was, what changed, and the way back."""

from datetime import UTC, datetime

import pytest

from fifthwise.book import save_song, song, versions
from fifthwise.web.history import when

NOW = datetime(2026, 3, 4, 18, 0, tzinfo=UTC)


@pytest.fixture
def changed(book):
    """A song with two versions."""
    text = song(book, 3).text
    save_song(book, 3, text.replace("tempo: 112", "tempo: 99"), 1)
    return text


def test_every_version_is_listed(client, changed):
    """The newest first, each with its time; only the earlier can be brought back."""
    page = client.get("/songs/3/versions")
    assert page.status_code == 200
    assert page.text.index('class="title">2<') < page.text.index('class="title">1<')
    assert "today at" in page.text
    assert "/songs/3/versions/1/restore" in page.text
    assert "/songs/3/versions/2/restore" not in page.text


def test_two_versions_are_compared(client, changed):
    """What went and what came is told by a sign and in words."""
    page = client.get("/songs/3/versions/compare", params={"one": "1", "other": "2"})
    assert "1 line more (+), 1 line less (−)." in page.text
    assert '<tr class="less"><td>5</td><td></td>' in page.text
    assert '<span class="said">less</span></td><td>tempo: 112</td>' in page.text
    assert '<span class="said">more</span></td><td>tempo: 99</td>' in page.text
    assert client.get("/songs/3/versions/compare").text == page.text.replace("?one=1&amp;other=2", "")
    same = client.get("/songs/3/versions/compare", params={"one": "2", "other": "2"})
    assert "The two are alike." in same.text


def test_an_earlier_version_is_brought_back(client, book, changed):
    """It becomes the newest, and what was newest stays."""
    answer = client.post("/songs/3/versions/1/restore", follow_redirects=False)
    assert (answer.status_code, answer.headers["location"]) == (303, "/songs/3")
    assert song(book, 3).text == changed
    assert len(versions(book, 3)) == 3


@pytest.mark.parametrize(
    ("address", "method"),
    [
        ("/songs/999/versions", "GET"),
        ("/songs/999/versions/compare", "GET"),
        ("/songs/3/versions/compare?one=1&other=77", "GET"),
        ("/songs/3/versions/77/restore", "POST"),
        ("/songs/999/edit", "GET"),
    ],
)
def test_what_is_not_there_is_told(client, address, method):
    """A song or version that does not exist is a plain answer."""
    answer = client.request(method, address)
    assert answer.status_code == 404
    assert 'role="alert"' in answer.text


@pytest.mark.parametrize(
    ("saved_at", "words"),
    [
        (datetime(2026, 3, 4, 9, 5, tzinfo=UTC), "today at 09:05"),
        (datetime(2026, 3, 3, 23, 59, tzinfo=UTC), "yesterday at 23:59"),
        (datetime(2026, 3, 1, 7, 0, tzinfo=UTC), "Sunday 1 March 2026 at 07:00"),
    ],
)
def test_times_are_plain_words(saved_at, words):
    """Near days by name, others by date (the calendar of March 2026)."""
    assert when(saved_at, NOW) == words
