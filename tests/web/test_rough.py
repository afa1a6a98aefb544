"""What people and networks do to a workbench that runs: two tabs, pastes, odd signs, cut lines."""

import re
import socket
import threading
import time
from html import unescape
from urllib.parse import urlencode, urlsplit

import pytest

from fifthwise.book import (
    add_song,
    open_book,
    song,
    songs,
    versions,
)
from tests.book.texts import tune
from tests.serving import BOOK, serving

TITLES = ("مدّ القمر", "שיר הגאות", "🎻 Fiddle 👩‍🎤", "Ça ira – é", "x\u200bzero")


@pytest.fixture
def folder(tmp_path):
    """A book with one song."""
    with open_book(tmp_path / BOOK) as book:
        add_song(book, tune())
    return tmp_path


def kept(folder):
    """Every song's text."""
    with open_book(folder / BOOK) as book:
        return [song(book, row.id).text for row in songs(book)]


def form_in(html):
    """What the form of a conflict sends as it stands."""
    hidden = dict(re.findall(r'type="hidden" name="(\w+)" value="([^"]*)"', html))
    chosen = dict(re.findall(r'name="(piece-\d+)" value="(\w+)" checked', html))
    return {name: unescape(value) for name, value in (hidden | chosen).items()}


def test_two_tabs_lose_nothing(folder):
    """The second save is answered with both texts, and brought together it has the changes of both."""
    base = tune(bars="1 4 | 5 1\n2- | 6-\n4 | 5\n1 | 1")
    theirs, mine = base.replace("1 4 | 5 1", "1 4 | 5 4"), base.replace("1 | 1", "1 | 5 1")
    with serving(folder) as served, served.visitor() as one, served.visitor() as other:
        one.post("/songs/1/edit", data={"text": base, "version": "1"})
        assert one.post("/songs/1/edit", data={"text": theirs, "version": "2"}).status_code == 303
        answer = other.post("/songs/1/edit", data={"text": mine, "version": "2"})
        assert answer.status_code == 409
        assert "1 4 | 5 4" in answer.text
        assert "1 | 5 1" in answer.text
        merged = other.post("/songs/1/merge", data=form_in(answer.text) | {"do": "save"})
        assert merged.status_code == 303
    with open_book(folder / BOOK) as book:
        assert song(book, 1).text == theirs.replace("1 | 1", "1 | 5 1")
        assert [each.text for each in versions(book, 1)][1:3] == [base, theirs]


def test_two_workbenches_on_one_book_see_each_other(folder):
    """What one keeps the other shows, and neither saves over the other unseen."""
    with serving(folder) as one, serving(folder) as two, one.visitor() as here, two.visitor() as there:
        there.get("/songs")
        at = here.post("/songs/new", data={"text": tune("Other Tide"), "version": "0"}).headers["location"]
        assert "Other Tide" in there.get("/songs").text
        newer = {"text": tune("Other Tide", bars="1 | 5"), "version": "1"}
        assert there.post(f"{at}/edit", data=newer).status_code == 303
        assert here.post(f"{at}/edit", data={"text": tune("Lost"), "version": "1"}).status_code == 409
        assert "1 | 5" in here.get(f"{at}/edit").text


@pytest.mark.parametrize("address", ["/songs/new", "/songs/1/edit", "/songs/1/page", "/songs/import/paste"])
def test_a_paste_of_five_megabytes_is_refused(served_folder, address):
    """The answer says how much is taken; nothing is kept, and others are answered meanwhile."""
    served, folder = served_folder
    before = kept(folder)
    text = tune("Huge", "1 4 | 5 1\n" * 500_000)
    with served.visitor() as visitor:
        answer = visitor.post(address, data={"text": text, "version": "1"})
        assert answer.status_code == 413
        assert "At most 2 MB are taken here" in answer.text
    assert kept(folder) == before


def test_a_file_of_five_megabytes_is_told(served_folder):
    """Files may be many and so large together; one that is larger than a chart may be is not kept."""
    served, folder = served_folder
    before = kept(folder)
    files = {"files": ("huge.chart.md", tune("Huge", "1 4 | 5 1\n" * 500_000).encode())}
    with served.visitor() as visitor:
        answer = visitor.post("/songs/import", files=files)
        assert answer.status_code == 303
        page = visitor.get(answer.headers["location"]).text
    assert "huge.chart.md" in page
    assert "A text may have 1 MB; split it" in page
    assert kept(folder) == before


def test_a_paste_of_almost_two_megabytes_is_told_while_others_are_answered(served_folder):
    """More than a chart may be: 422, the text stays, and another request waits less than two seconds."""
    served, folder = served_folder
    before = kept(folder)
    text = tune("Huge", "1 4 | 5 1\n" * 100_000)
    answers = []

    def paste():
        with served.visitor() as visitor:
            answers.append(visitor.post("/songs/new", data={"text": text, "version": "0"}))

    with served.visitor() as visitor:
        visitor.get("/songs")
        pasting = threading.Thread(target=paste)
        pasting.start()
        time.sleep(0.1)
        begun = time.monotonic()
        assert visitor.get("/songs").status_code == 200
        waited = time.monotonic() - begun
        pasting.join()
    assert waited < 2
    assert answers[0].status_code == 422
    assert "1 4 | 5 1\n1 4 | 5 1" in unescape(answers[0].text)
    assert kept(folder) == before


@pytest.fixture(scope="module")
def served_folder(tmp_path_factory):
    """A workbench for several tests, and the folder of its book."""
    folder = tmp_path_factory.mktemp("served")
    with open_book(folder / BOOK) as book:
        add_song(book, tune())
    with serving(folder) as served:
        yield served, folder


@pytest.mark.parametrize("title", TITLES)
def test_every_writing_is_kept_as_it_is(served_folder, title):
    """Titles come back letter for letter, from a form with the line ends of the web."""
    served, folder = served_folder
    text = tune(title)
    with served.visitor() as visitor:
        answer = visitor.post("/songs/new", data={"text": text.replace("\n", "\r\n"), "version": "0"})
        assert answer.status_code == 303
        assert title in unescape(visitor.get(answer.headers["location"]).text)
    assert text in kept(folder)


@pytest.mark.parametrize("raw", [b"%00", b"%ED%A0%80", b"%FF%FE"])
@pytest.mark.parametrize("address", ["/songs/new", "/songs/1/edit", "/songs/import/paste"])
def test_what_is_no_text_is_told(served_folder, raw, address):
    """A NUL, half a pair, or bytes that are no UTF-8 in a form: kept whole or refused, never broken off."""
    served, folder = served_folder
    before = kept(folder)
    form = urlencode({"text": tune("Odd@Tide"), "version": "1"}).encode().replace(b"%40", raw)
    with served.visitor() as visitor:
        kind = {"content-type": "application/x-www-form-urlencoded"}
        answer = visitor.post(address, content=form, headers=kind)
        assert answer.status_code in (303, 400, 409, 422)
        assert visitor.get("/songs").status_code == 200
    if answer.status_code != 303:
        assert kept(folder) == before


def test_a_request_that_is_cut_off_saves_nothing(served_folder):
    """Half a form and the line is gone: no save, and no word of it in the log beyond its route."""
    served, folder = served_folder
    before = kept(folder)
    here = urlsplit(served.address)
    form = urlencode({"text": tune("Cut Tide"), "version": "0"}).encode()
    head = (
        f"POST /songs/new HTTP/1.1\r\nHost: {here.netloc}\r\nOrigin: {served.address.rstrip('/')}\r\n"
        f"Content-Type: application/x-www-form-urlencoded\r\nContent-Length: {len(form)}\r\n\r\n"
    ).encode()
    for end in (0, len(form) // 2, len(form) - 1):
        with socket.create_connection((here.hostname, here.port)) as line:
            line.sendall(head + form[:end])
    with served.visitor() as visitor:
        assert visitor.get("/songs", params={"find": "Cut query"}).status_code == 200
    time.sleep(0.3)
    assert kept(folder) == before
    log = served.log()
    assert "Traceback" not in log
    assert "reference" not in log
    assert "ERROR" not in log
    for words in ("Tide", "Slack", "query", "1 4", "Cut"):
        assert words not in log
