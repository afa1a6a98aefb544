"""The workbench behind its guard: shared, joined, led and left."""

import re
import ssl

import pytest
from argon2 import PasswordHasher
from starlette.testclient import TestClient

from fifthwise.web import PASSWORD_FILE, NoPassword, Sharing, guarded, make_app, open_sharing
from fifthwise.web.guard import Password, People, certificates, keep_password, url_of

QUICK = PasswordHasher(time_cost=1, memory_cost=64, parallelism=1)
WORDS = "bow and rosin"
HOST, PORT = "192.168.1.20", 5152
THERE = url_of(HOST, PORT, secure=True).rstrip("/")
HERE = "http://127.0.0.1:5151"


@pytest.fixture
def sharing(tmp_path):
    """A workbench shared by HTTPS at one address."""
    people = People(tmp_path / "kept", Password(QUICK.hash(WORDS), QUICK), "ABC234")
    return Sharing(people, (HOST,), (), PORT, certificates(tmp_path / "kept", (HOST, "localhost")))


def visit(book, sharing, base, address):
    """A browser somewhere; it says its origin as browsers do."""
    app = guarded(make_app(book, sharing), sharing)
    return TestClient(app, base_url=base, client=(address, 50000), headers={"origin": base})


@pytest.fixture
def there(book, sharing):
    """A tablet in the hall."""
    with visit(book, sharing, THERE, "192.168.1.77") as visitor:
        yield visitor


@pytest.fixture
def here(book, sharing):
    """The owner's own browser."""
    with visit(book, sharing, HERE, "127.0.0.1") as visitor:
        yield visitor


def test_a_stranger_is_led_to_the_code(there):
    """Any page leads to the form, which needs no code to be seen."""
    answer = there.get("/songs")
    assert answer.url.path == "/join"
    assert "code of six signs" in answer.text
    assert "ABC234" not in answer.text


def test_a_guest_reads_and_changes_nothing(there):
    """With the code songs are read; a change is refused with what to do instead."""
    assert there.post("/join", data={"code": "abc 234"}).url.path == "/songs"
    assert "Black Buoy" in there.get("/songs/1").text
    refused = there.post("/songs/1", data={"text": "x"})
    assert refused.status_code == 403
    assert "go to /leader" in refused.text
    assert '<a class="home"' in refused.text


def test_guests_may_choose_their_look(there):
    """Night and day are a screen's own."""
    assert there.post("/theme", data={"theme": "stage", "back": "/join"}).status_code == 200
    assert 'data-theme="stage"' in there.get("/join").text


def test_a_wrong_code_is_told_and_soon_has_to_wait(there):
    """422 with what to do, then 429 with how long; the right one is not taken meanwhile."""
    answers = [there.post("/join", data={"code": f"WRONG{n}"}) for n in range(2, 14)]
    assert answers[0].status_code == 422
    assert "That is not tonight&#39;s code" in answers[0].text
    assert answers[-1].status_code == 429
    assert re.search(r"Wait \d+ seconds, then try again", answers[-1].text)
    assert 0 < int(answers[-1].headers["retry-after"]) <= 15
    assert there.post("/join", data={"code": "ABC234"}).status_code == 429


def test_a_leader_comes_in_and_leaves(there):
    """The password makes a guest a leader, on top of which the guest's session ends; leaving ends that."""
    there.post("/join", data={"code": "ABC234"})
    guest = there.cookies["__Host-fifthwise"]
    assert there.post("/leader", data={"password": "bow and resin"}).status_code == 422
    there.post("/leader", data={"password": WORDS})
    leader = there.cookies["__Host-fifthwise"]
    assert "You may change things already" in there.get("/leader").text
    assert there.post("/leave").url.path == "/join"
    for replayed in (guest, leader):
        there.cookies.clear()
        answer = there.get("/songs", headers={"cookie": f"__Host-fifthwise={replayed}"})
        assert answer.url.path == "/join"


def test_the_cookie_is_kept_from_scripts(there):
    """Over HTTPS it is Secure, HttpOnly, SameSite=Strict and bound to the host."""
    answer = there.post("/join", data={"code": "ABC234"}, follow_redirects=False)
    said = answer.headers["set-cookie"]
    assert said.startswith("__Host-fifthwise=")
    assert {"HttpOnly", "Secure", "SameSite=strict", "Path=/"} <= set(said.split("; "))


def test_a_foreign_page_lets_nobody_in_or_out(there):
    """Not even a right code may be sent from elsewhere."""
    foreign = {"origin": "https://elsewhere.example"}
    assert there.post("/join", data={"code": "ABC234"}, headers=foreign).status_code == 403
    there.post("/join", data={"code": "ABC234"})
    assert there.post("/leave", headers=foreign).status_code == 403
    assert there.get("/songs").url.path == "/songs"


def test_the_owner_sees_what_to_tell(here, sharing):
    """The address, the code and the fingerprint, without a password."""
    page = here.get("/share").text
    for said in (f"{THERE}/", "ABC234", sharing.certificates.fingerprint):
        assert said in page


def test_a_stranger_learns_neither_code_nor_fingerprint(there):
    """The steps to trust are open; what is compared is on the leader's screen alone."""
    page = there.get("/share/devices").text
    assert "Get the certificate" in page
    assert "ABC234" not in page
    assert not re.search(r"([0-9A-F]{2}:){31}", page)
    assert there.get("/share").url.path == "/join"


def test_the_certificate_can_be_had_before_it_is_trusted(there, sharing):
    """In DER, of the kind that devices know, and without the key."""
    answer = there.get("/share/ca.crt")
    assert answer.headers["content-type"] == "application/x-x509-ca-cert"
    assert answer.content == ssl.PEM_cert_to_DER_cert(sharing.certificates.authority.decode())


@pytest.mark.parametrize("path", ["/share", "/join", "/leader", "/leave", "/share/devices", "/cautions"])
def test_a_workbench_that_is_not_shared_says_so(book, path):
    """Every page about sharing is there, and there is nothing to join."""
    with visit(book, None, HERE, "127.0.0.1") as owner:
        answer = owner.get(path)
        assert answer.status_code == 200
        assert owner.post("/join", data={"code": "ABC234"}).url.path == "/share"
        assert owner.post("/leader", data={"password": WORDS}).url.path == "/share"
        assert owner.get("/share/ca.crt").status_code == 404
        assert "fifthwise serve --share" in owner.get("/share").text


def test_the_cautions_are_open_to_all(there):
    """Nobody has to join to read them; they name their sources and defer to local rules."""
    page = there.get("/cautions").text
    for said in ("85", "NIOSH", "INDG247", "Never disconnect the safety earth", "local law", "Zaza"):
        assert said in page


def test_a_slip_of_ours_shows_its_reference(book, sharing, monkeypatch):
    """And neither its class, words nor places; the log has it under the same reference."""
    app = make_app(book, sharing)
    app.state.book = None
    client = TestClient(guarded(app, sharing), base_url=HERE, client=("127.0.0.1", 1))
    answer = client.get("/songs")
    assert answer.status_code == 500
    assert re.search(r"reference <b>[0-9a-f]{8}</b>", answer.text)
    assert not re.search(r"Traceback|\.py|Error\b|None", answer.text)


def test_sharing_needs_a_password_first(tmp_path):
    """Without one it is refused, with one everything else is made."""
    with pytest.raises(NoPassword, match="no leader's password is set"):
        open_sharing(tmp_path, PORT)
    keep_password(tmp_path / PASSWORD_FILE, WORDS, QUICK)
    made = open_sharing(tmp_path, PORT)
    assert len(made.people.code) == 6
    assert {*made.hosts, *made.names} < set(made.certificates.names)
    assert all(address.startswith("https://") for address in made.addresses)
    assert open_sharing(tmp_path, PORT, secure=False).certificates is None
