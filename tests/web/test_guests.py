"""What a guest sees: everything there is to read, and nothing that would be refused."""

import re
from html import unescape
from urllib.parse import urljoin, urlsplit

import pytest
from argon2 import PasswordHasher
from starlette.testclient import TestClient

from fifthwise.web import Sharing, guarded, make_app
from fifthwise.web.guard import Password, People

QUICK = PasswordHasher(time_cost=1, memory_cost=64, parallelism=1)
HOST, PORT = "192.168.1.20", 5152
THERE = f"http://{HOST}:{PORT}"
MAY_SEND = {"/theme", "/leader", "/leave", "/join"}
FILES = re.compile(r"\.(pdf|html|txt|md|yaml|svg|crt|css|zip)$")
MOST = 400


@pytest.fixture
def app(book, tmp_path):
    """The demo evening, shared."""
    with TestClient(make_app(book), base_url="http://127.0.0.1:5151") as owner:
        assert owner.post("/start/demo").status_code == 200
        assert owner.post("/songs/1/edit", data=_edited(owner)).status_code == 200
    people = People(tmp_path / "kept", Password(QUICK.hash("bow and rosin"), QUICK), "ABC234")
    sharing = Sharing(people, (HOST,), (), PORT, None)
    return guarded(make_app(book, sharing), sharing)


def _edited(owner):
    text = owner.get("/songs/1/song.chart.md").text
    return {"version": "1", "text": text + "\n"}


@pytest.fixture
def guest(app):
    """A tablet in the hall, with the code."""
    with TestClient(app, base_url=THERE, client=("192.168.1.77", 1), headers={"origin": THERE}) as visitor:
        visitor.post("/join", data={"code": "ABC234"})
        yield visitor


@pytest.fixture
def leader(app):
    """A tablet in the hall, with the password."""
    with TestClient(app, base_url=THERE, client=("192.168.1.78", 1), headers={"origin": THERE}) as visitor:
        visitor.post("/leader", data={"password": "bow and rosin"})
        yield visitor


def read_all(visitor):
    """Every page that links lead to, one of each kind of query."""
    todo, seen = ["/", "/songs/1/versions/compare?one=1&other=2"], set()
    while todo and len(seen) < MOST:
        address = todo.pop(0)
        kind = urlsplit(address).path
        if kind in seen or FILES.search(kind):
            continue
        seen.add(kind)
        page = visitor.get(address)
        yield address, page
        todo += [
            urljoin(address, unescape(link)) for link in re.findall(r'<a [^>]*href="([^"#]+)', page.text)
        ]


def test_a_guest_is_led_to_nothing_that_is_refused(guest):
    """Every link opens, and no form of any page would be refused."""
    seen = dict(read_all(guest))
    assert {"/songs", "/sets", "/songs/1", "/sets/1", "/singers/1", "/players/1"} <= {
        urlsplit(address).path for address in seen
    }
    for address, page in seen.items():
        assert page.status_code in (200, 303), address
        forms = re.findall(r'<form[^>]*method="post"[^>]*action="([^"]*)"', page.text)
        forms += re.findall(r'hx-post="([^"]*)"', page.text)
        assert set(forms) <= MAY_SEND, address


def test_a_guest_is_told_how_to_lead_and_how_to_leave(guest, leader, client):
    """On every page; others are not told."""
    for address in ("/songs", "/songs/1", "/sets/1"):
        page = guest.get(address).text
        assert 'You read as a guest. <a href="/leader">Leader</a> <a href="/leave">Leave</a>' in page
        assert "You read as a guest" not in leader.get(address).text
        assert "You read as a guest" not in client.get(address).text


def test_a_guest_reads_why_a_key_is_taken_and_what_a_voice_reaches(guest):
    """Without the fields, what they say stays."""
    assert "the middle of what Maren sings easily" in guest.get("/sets/1").text
    assert "<dt>Reaches</dt>" in guest.get("/singers/1").text


@pytest.mark.parametrize(
    "address",
    [
        "/songs/new", "/songs/import", "/songs/1/edit", "/songs/1/remove", "/sets/1/remove",
        "/singers/new", "/singers/1/remove", "/players/new", "/players/1/remove",
    ],
)  # fmt: skip
def test_a_page_that_only_asks_for_a_change_is_the_leaders(guest, leader, address):
    """A guest who types its address is told before anything is written."""
    page = guest.get(address)
    assert page.status_code == 403
    assert "go to /leader" in page.text
    assert leader.get(address).status_code == 200


def test_a_leader_has_every_form(leader):
    """What is hidden from guests is there."""
    assert 'href="/songs/1/edit"' in leader.get("/songs/1").text
    page = leader.get("/sets/1").text
    assert "data-order" in page
    assert "Print everyone’s book" in page
    assert "Begin it" in leader.get("/sets").text
