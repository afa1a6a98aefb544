"""A workbench over a book of the demo's songs, asked without a network."""

from pathlib import Path

import pytest
from starlette.testclient import TestClient

from fifthwise.book import add_song, open_book
from fifthwise.web import make_app

DEMO = Path(__file__).parents[2] / "demo"


@pytest.fixture
def book(tmp_path):
    """A book with the demo's songs, in the order of their files' names: 1 is 'Black Buoy'."""
    with open_book(tmp_path / "book.sqlite") as opened:
        for file in sorted(DEMO.glob("*.chart.md")):
            add_song(opened, file.read_text(encoding="utf-8"))
        yield opened


@pytest.fixture
def client(book):
    """A visitor on this computer."""
    with TestClient(make_app(book), base_url="http://127.0.0.1:5151") as visitor:
        yield visitor
