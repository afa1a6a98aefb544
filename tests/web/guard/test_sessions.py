"""Sessions begun, known again, forged, over and left."""

import base64
import hashlib
import hmac
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st
from itsdangerous import URLSafeSerializer
from starlette.responses import Response

from fifthwise.web.guard import clear_cookie, cookie_of, give_cookie
from fifthwise.web.guard.sessions import SALT, SESSION_S, Sessions
from tests.web.guard.clock import Clock

CODE = "ABC234"


@pytest.fixture
def clock():
    """A clock that goes when it is told to."""
    return Clock()


@pytest.fixture
def sessions(tmp_path, clock):
    """Sessions with a secret of their own."""
    return Sessions(tmp_path, clock)


def test_a_session_is_known_again_for_twelve_hours(sessions, clock):
    """Up to the last second, and not after."""
    cookie = sessions.begin("guest", CODE)
    clock.wait(SESSION_S - 1)
    session = sessions.known(cookie)
    assert session.kind == "guest"
    assert sessions.is_under(session, CODE)
    clock.wait(1)
    assert sessions.known(cookie) is None
    assert SESSION_S == 12 * 3600


def test_a_session_outlives_a_restart(sessions, tmp_path, clock):
    """The secret is kept, so a crash on stage logs nobody out."""
    cookie = sessions.begin("leader", "a hash")
    assert Sessions(tmp_path, clock).known(cookie) == sessions.known(cookie)


def test_another_servers_session_is_unknown(sessions, tmp_path, clock):
    """Each data folder has its own secret."""
    other = Sessions(tmp_path / "other", clock)
    assert other.known(sessions.begin("leader", "a hash")) is None


def test_a_session_under_another_code_does_not_hold(sessions):
    """A new code or password ends the sessions that came in under the old one, of their kind alone."""
    session = sessions.known(sessions.begin("guest", CODE))
    assert not sessions.is_under(session, "XYZ789")
    leader = sessions.known(sessions.begin("leader", CODE))
    assert leader.bond != session.bond


def test_a_session_that_was_left_is_over_for_every_copy(sessions, tmp_path, clock):
    """A replayed cookie is refused, after a restart too; others go on."""
    cookie, other = sessions.begin("leader", "a hash"), sessions.begin("leader", "a hash")
    sessions.leave(cookie)
    assert sessions.known(cookie) is None
    assert Sessions(tmp_path, clock).known(cookie) is None
    assert Sessions(tmp_path, clock).known(other)


def test_what_was_left_is_forgotten_when_it_would_have_ended(sessions, tmp_path, clock):
    """The list does not grow for ever."""
    for _ in range(3):
        sessions.leave(sessions.begin("guest", CODE))
    clock.wait(SESSION_S)
    sessions.leave(sessions.begin("guest", CODE))
    assert len(json.loads((tmp_path / "sessions-left.json").read_bytes())) == 1


def test_a_damaged_list_keeps_nobody_from_starting(sessions, tmp_path, clock):
    """What it held ends by itself."""
    sessions.leave(sessions.begin("guest", CODE))
    for damage in (b"", b"{", b"[]", b'{"a": null}', b"\xff"):
        (tmp_path / "sessions-left.json").write_bytes(damage)
        assert Sessions(tmp_path, clock).begin("guest", CODE)


@given(st.data())
def test_a_cookie_with_anything_changed_is_forged(tmp_path_factory, data):
    """One sign put in another's place, anywhere, makes it nobody's, unless it spells the same bytes."""
    sessions = Sessions(tmp_path_factory.getbasetemp() / "forged", Clock())
    cookie = sessions.begin("guest", CODE)
    place = data.draw(st.integers(0, len(cookie) - 1))
    sign = data.draw(st.characters(min_codepoint=33, max_codepoint=126))
    changed = cookie[:place] + sign + cookie[place + 1 :]
    # The last sign of the signature holds two bits that say nothing.
    if place < len(cookie) - 1:
        assert (sessions.known(changed) is None) == (changed != cookie)


def _forged(payload, key):
    """A cookie in our shape with a signature by a key of the forger's."""
    serializer = URLSafeSerializer(
        key, salt=SALT, signer_kwargs={"key_derivation": "hmac", "digest_method": hashlib.sha256}
    )
    return serializer.dumps(payload)


def test_forged_cookies_are_nobodys(sessions):
    """Not signed, signed with a guess, raised in rank, or too long."""
    guest = sessions.begin("guest", CODE)
    signature = guest.rpartition(".")[2]
    leader = ["leader", "0" * 32, "n", 9_999_999_999]
    raised = base64.urlsafe_b64encode(json.dumps(leader).encode()).decode().rstrip("=")
    forged = (raised, f"{raised}.", f"{raised}.{signature}", _forged(leader, b""), _forged(leader, b"secret"))
    for cookie in (*forged, "", ".", "a.b", None, "é", guest * 20, f"{guest}.{signature}"):
        assert sessions.known(cookie) is None, cookie


def test_a_cookie_does_not_help_to_find_the_code(sessions):
    """What is readable in it is no plain digest of the code, and not the code."""
    body = sessions.begin("guest", CODE).rpartition(".")[0]
    kind, bond, *_ = json.loads(base64.urlsafe_b64decode(body + "=" * (-len(body) % 4)))
    assert kind == "guest"
    digests = {
        hashlib.new(name, text).hexdigest()[:32]
        for name in ("md5", "sha1", "sha256")
        for text in (CODE.encode(), b"guest\n" + CODE.encode())
    }
    assert bond not in digests


def test_bonds_are_compared_in_constant_time(sessions, monkeypatch):
    """By the library's comparison."""
    session = sessions.known(sessions.begin("guest", CODE))
    monkeypatch.setattr(hmac, "compare_digest", lambda one, other: False)
    assert not sessions.is_under(session, CODE)


@pytest.mark.parametrize(("secure", "name"), [(True, "__Host-fifthwise"), (False, "fifthwise")])
def test_the_cookie_is_kept_from_scripts_and_other_sites(secure, name):
    """HttpOnly, SameSite=Strict, for the whole site, twelve hours; Secure and host-bound over HTTPS.

    Source: OWASP Session Management Cheat Sheet, "Cookies"; ``__Host-``: RFC 6265bis, 4.1.3.2.
    """
    response = Response()
    give_cookie(response, "value", secure=secure)
    first, *parts = response.headers["set-cookie"].split("; ")
    assert first == f"{name}=value"
    wanted = {"HttpOnly", "SameSite=strict", "Path=/", f"Max-Age={SESSION_S}"}
    assert set(parts) == wanted | ({"Secure"} if secure else set())
    clear_cookie(response, secure=secure)
    taken = response.headers.getlist("set-cookie")[1]
    assert taken.startswith(f'{name}=""')
    assert "Max-Age=0" in taken


def test_the_cookie_is_read_under_the_name_for_the_scheme():
    """A cookie that plain HTTP could have set counts for nothing over HTTPS."""
    headers = [(b"cookie", b"theme=stage; fifthwise=plain"), (b"cookie", b"__Host-fifthwise=sure")]
    assert cookie_of({"scheme": "https", "headers": headers}) == "sure"
    assert cookie_of({"scheme": "http", "headers": headers}) == "plain"
    assert cookie_of({"scheme": "http", "headers": []}) is None
