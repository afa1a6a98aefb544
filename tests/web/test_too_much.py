"""A workbench that runs, given too much, or what makes no sense: it is told, and nothing is lost."""

import re
import socket
import threading
from contextlib import closing
from html import unescape
from pathlib import Path
from urllib.parse import quote, urlencode, urlsplit

import pytest

from fifthwise.book import KeptSetSong, SetOrder, add_set, add_song, check_book, open_book, song, songs
from tests.book.texts import tune
from tests.serving import BOOK, serving

FORM = "application/x-www-form-urlencoded"
FILES = "multipart/form-data; boundary=x"
SECRET = "Zanzibar"
LONG = "m" * 900_000
HANGS_S = 20
GROWS_MB = 80
SENT = 300
ODD = {
    "10,000 faults": tune("T", "15 | 88 | zz | %%\n" * 2500),
    "deep": tune("T", "(" * 5000 + "1" + ")" * 5000),
    "a line without end": tune("T", "%% " * 100_000),
    "a head without end": "---\n" + "a: &a [1, *a]\n" * 20_000 + "---\n1\n",
    "NUL": tune("T", "1 \x00 4"),
    "half a character": tune("T", "1 \ud800 4"),
    "words from the right": tune("T", "1 \u202eשלום 4"),
    "pictures": tune("T", "1 🎻🎻 4"),
}


def filled(folder):
    """A book with one song and a set that has it."""
    with open_book(folder / BOOK) as book:
        add_song(book, tune())
        add_set(book, SetOrder("Night", songs=(KeptSetSong(1),)))
    return folder


def kept(folder):
    """Every song's text."""
    with open_book(folder / BOOK) as book:
        assert check_book(book) == ()
        return [song(book, row.id).text for row in songs(book)]


def words(html):
    """What is read, as one line."""
    return " ".join(unescape(re.sub(r"<[^>]+>", "", html)).split())


@pytest.fixture(scope="module")
def served_folder(tmp_path_factory):
    """A workbench for several tests, and the folder of its book, which stays as it is."""
    folder = filled(tmp_path_factory.mktemp("served"))
    with serving(folder) as served:
        yield served, folder
    assert kept(folder) == [tune()]


@pytest.fixture
def visitor(served_folder):
    """Somebody on this computer."""
    with served_folder[0].visitor() as visitor:
        yield visitor


@pytest.mark.parametrize("path", ["/songs/new", "/songs/1/edit"])
@pytest.mark.parametrize("title", [LONG, "ש" * 250_000], ids=["letters", "letters of six in a form"])
def test_a_title_without_end_is_told(visitor, path, title):
    """422 with the field and how long it may be; the text is in the form."""
    answer = visitor.post(path, data={"text": tune(title), "version": "1"})
    assert answer.status_code == 422
    assert f"The field 'title' has {len(title)} characters. Write at most 200." in words(answer.text)
    assert title in answer.text


def test_a_name_without_end_is_told(visitor):
    """422, with what was typed in its field."""
    answer = visitor.post("/sets", data={"name": LONG, "paper": "a4"})
    assert answer.status_code == 422
    assert "the name has 900000 characters" in answer.text
    assert LONG in answer.text


def test_a_form_with_too_many_fields_is_told(visitor):
    """422 and what to do, not a page about addresses."""
    form = {f"singer-{number}": "1" for number in range(20_000)} | {"version": "1"}
    answer = visitor.post("/sets/1/here", data=form)
    assert answer.status_code == 422
    assert "no page of ours sends such a form. Load the page and try again." in words(answer.text)


@pytest.mark.parametrize("name", ODD)
@pytest.mark.parametrize("path", ["/songs/new", "/songs/1/edit", "/songs/import/paste"])
def test_an_odd_text_is_told(visitor, name, path):
    """It is answered with its faults, and is in the form as it was sent."""
    body = f"version=1&text={quote(ODD[name].encode('utf-8', 'surrogatepass'))}".encode()
    answer = visitor.post(path, content=body, headers={"content-type": FORM}, timeout=HANGS_S)
    assert answer.status_code == 422
    there = unescape(re.search(r"<textarea[^>]*>\n(.*?)</textarea>", answer.text, re.DOTALL)[1])
    # What is no character cannot be sent back as it came.
    assert name == "half a character" or there == ODD[name]


@pytest.mark.parametrize(
    "body",
    [
        f'--x\r\nContent-Disposition: form-data; name="files"; filename="{SECRET}.md"\r\n\r\n{SECRET}',
        SECRET,
        f"--x{SECRET}",
        "",
    ],
    ids=["no end", "no part", "no head", "nothing"],
)
def test_files_that_make_no_sense_are_told(served_folder, body):
    """422, and nothing of them is in the log."""
    served, _ = served_folder
    here = urlsplit(served.address)
    head = (
        f"POST /songs/import HTTP/1.1\r\nHost: {here.netloc}\r\nOrigin: http://{here.netloc}\r\n"
        f"Content-Type: {FILES}\r\nContent-Length: {len(body)}\r\n\r\n"
    )
    with closing(socket.create_connection((here.hostname, here.port))) as sender:
        sender.sendall((head + body).encode())
        assert sender.recv(12) == b"HTTP/1.1 422"
    log = served.log()
    assert SECRET not in log
    assert not re.search("ERROR|Traceback|boundary", log), log


def test_two_workbenches_that_save_at_once_lose_nothing(tmp_path):
    """On one book each waits for the other, and all that both were answered is there."""
    filled(tmp_path)
    answers = []

    def save(visitor, name):
        for number in range(20):
            data = {"text": tune(f"{name} {number}"), "version": "0"}
            answers.append(visitor.post("/songs/new", data=data).status_code)

    with serving(tmp_path) as here, serving(tmp_path) as there, here.visitor() as one, there.visitor() as two:
        savers = [threading.Thread(target=save, args=each) for each in ((one, "A"), (two, "B"))]
        for saver in savers:
            saver.start()
        for saver in savers:
            saver.join()
    assert answers == [303] * 40
    wanted = [tune(f"{name} {number}") for name in "AB" for number in range(20)]
    assert sorted(kept(tmp_path)) == sorted([tune(), *wanted])


def memory_mb(pid):
    """What a process has in memory."""
    return int(re.search(r"VmRSS:\s+(\d+)", Path(f"/proc/{pid}/status").read_text())[1]) / 1024


@pytest.mark.skipif(not Path("/proc/self/status").exists(), reason="what a process has is read there")
def test_memory_does_not_grow_with_what_is_sent(tmp_path):
    """After hundreds of texts of nearly a megabyte, looked at and refused, it has little more than before."""
    filled(tmp_path)
    body = urlencode({"version": "0", "text": f"{tune('Long')}<!-- {'x' * 950_000} "}).encode()
    headers = {"content-type": FORM}
    with serving(tmp_path) as served, served.visitor() as visitor:

        def send(number):
            path, status = ("/songs/1/edit", 409) if number % 10 == 0 else ("/songs/1/page", 200)
            answer = visitor.post(path, content=body + b"%d --%%3E" % number, headers=headers)
            assert answer.status_code == status

        for number in range(20):
            send(number)
        before = memory_mb(served.run.pid)
        for number in range(SENT):
            send(number)
        grown = memory_mb(served.run.pid) - before
    assert grown < GROWS_MB
