"""The workbench opened on a book, whole or damaged."""

from datetime import date

import pytest
from starlette.testclient import TestClient

from fifthwise.book import NotABook, add_song, newest_backup, open_book
from fifthwise.web import open_workbench

SONG = "---\ntitle: Rope Walk\nkey: C\n---\n1 | 4 | 5 | 1\n"


@pytest.fixture
def place(tmp_path):
    """A book with one song and the day's backup, closed."""
    place = tmp_path / "book.sqlite"
    with open_book(place) as book:
        add_song(book, SONG)
    with open_workbench(str(place), on_notice=pytest.fail):
        pass
    return place


def visitor(app):
    """Somebody on this computer, who goes where the page sends them."""
    return TestClient(app, base_url="http://127.0.0.1:5151", client=("127.0.0.1", 50000))


def spoil(place):
    """Write over the book's head."""
    with place.open("r+b") as file:
        file.write(b"\0" * 100)


def test_opening_makes_the_backup_of_the_day(place):
    """It lies beside the book."""
    found = newest_backup(place)
    assert found is not None
    assert found.day == date.today()


def test_a_damaged_book_is_offered_its_newest_backup(place):
    """Every address says so, until the backup is put back; the damaged file stays."""
    spoil(place)
    told = []
    with open_workbench(str(place), on_notice=told.append) as app, visitor(app) as here:
        page = here.get("/songs")
        assert "The book is damaged" in page.text
        assert page.status_code == 503
        after = here.post("/rescue", headers={"origin": "http://127.0.0.1:5151"})
        assert after.status_code == 200
        assert "Rope Walk" in here.get("/songs").text
    assert len(told) == 1
    assert list(place.parent.glob("book*.damaged-*"))


def test_a_damaged_book_without_a_backup_is_told(tmp_path):
    """There is nothing to offer."""
    place = tmp_path / "book.sqlite"
    place.write_bytes(b"no book at all" * 100)
    with pytest.raises(NotABook), open_workbench(str(place), on_notice=pytest.fail):
        pass
    assert place.read_bytes() == b"no book at all" * 100


def test_another_site_cannot_put_a_backup_back(place):
    """The guard stands before the rescue too."""
    spoil(place)
    with open_workbench(str(place), on_notice=lambda _: None) as app, visitor(app) as here:
        assert here.post("/rescue", headers={"origin": "https://example.org"}).status_code == 403
        assert "The book is damaged" in here.get("/").text


def test_a_backup_that_cannot_be_made_is_told_and_work_goes_on(tmp_path):
    """A file stands where the folder for backups should be."""
    place = tmp_path / "book.sqlite"
    (tmp_path / "backups").write_text("in the way")
    told = []
    with open_workbench(str(place), on_notice=told.append) as app, visitor(app) as here:
        assert here.get("/songs").status_code == 200
    assert len(told) == 1
    assert "No backup was made today" in told[0]
