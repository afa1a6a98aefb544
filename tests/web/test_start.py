"""The page *Start*, and the demo evening."""

import pytest
from starlette.testclient import TestClient

from fifthwise.book import add_singer, open_book, players, sets, singers, songs
from fifthwise.evening import read_evening
from fifthwise.voice import read_singer
from fifthwise.web import make_app
from tests.web.conftest import DEMO


@pytest.fixture
def book(tmp_path):
    """An empty book."""
    with open_book(tmp_path / "empty.sqlite") as opened:
        yield opened


@pytest.fixture
def client(book):
    """A visitor on this computer."""
    with TestClient(make_app(book), base_url="http://127.0.0.1:5151") as visitor:
        yield visitor


def test_an_empty_book_begins_with_the_start(client):
    """It offers the demo and the empty book, and points to help and cautions."""
    page = client.get("/")
    assert page.url.path == "/"
    for piece in ('action="/start/demo"', 'href="/songs"', 'href="/help"', 'href="/cautions"'):
        assert piece in page.text


def test_the_demo_goes_in_once(client, book):
    """Pressed twice, each song, person and set is there once."""
    evening = read_evening((DEMO / "harbour-lamp.set.yaml").read_text(encoding="utf-8"))
    for _ in range(2):
        assert client.post("/start/demo").url.path == "/sets/1"
        assert len(songs(book)) == len(list(DEMO.glob("*.chart.md")))
        assert {each.singer for each in singers(book)} == set(evening.singers)
        assert {each.player for each in players(book)} == set(evening.players)
        assert [each.name for each in sets(book)] == [evening.name]


def test_a_book_with_anything_in_it_begins_with_the_songs(client, book):
    """A singer is enough."""
    add_singer(book, read_singer("Ada", usable="A3-D5", comfort="C4-A4"))
    assert client.get("/").url.path == "/songs"
