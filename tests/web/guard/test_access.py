"""What each visitor may do."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.web.guard import Access, Rules, Verdict, Visitor, verdict
from tests.web.guard.asking import HERE, LAN, THERE, ask, fine

RULES = Rules(leaders=("/backup", "/settings/"))
UNSAFE = ("POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "CONNECT", "PURGE", "post", "")
paths = st.one_of(st.sampled_from(["/", "/songs", "/songs/7", "/join/x", "/static", "/backup"]), st.text())


@pytest.mark.parametrize("method", UNSAFE)
@pytest.mark.parametrize("visitor", [Visitor.GUEST, Visitor.STRANGER])
@given(path=paths)
def test_guests_change_nothing_by_any_method(visitor, method, path):
    """Whatever is neither GET nor HEAD is refused, anywhere but at the doors."""
    if method != "POST" or path not in RULES.posts:
        assert verdict(visitor, "http", method, path, RULES) is not Verdict.PASS


@given(path=paths)
def test_guests_open_no_socket(path):
    """A socket could send."""
    assert verdict(Visitor.GUEST, "websocket", "", path, RULES) is Verdict.LEADERS_ONLY
    assert verdict(Visitor.STRANGER, "websocket", "", path, RULES) is Verdict.JOIN_FIRST


@pytest.mark.parametrize("method", ["GET", "HEAD"])
def test_guests_read(method):
    """All but the leaders' own pages."""
    assert verdict(Visitor.GUEST, "http", method, "/songs/7", RULES) is Verdict.PASS
    assert verdict(Visitor.GUEST, "http", method, "/backup-notes", RULES) is Verdict.PASS
    assert verdict(Visitor.GUEST, "http", method, "/backup", RULES) is Verdict.LEADERS_ONLY
    assert verdict(Visitor.GUEST, "http", method, "/settings/keys", RULES) is Verdict.LEADERS_ONLY


@pytest.mark.parametrize(
    ("path", "said"),
    [
        ("/join", Verdict.PASS),
        ("/cautions", Verdict.PASS),
        ("/share/ca.crt", Verdict.PASS),
        ("/static/1/bench.css", Verdict.PASS),
        ("/", Verdict.JOIN_FIRST),
        ("/songs", Verdict.JOIN_FIRST),
        ("/share", Verdict.JOIN_FIRST),
        ("/joins", Verdict.JOIN_FIRST),
        ("/join/", Verdict.JOIN_FIRST),
        ("//static/", Verdict.JOIN_FIRST),
        ("/STATIC/a", Verdict.JOIN_FIRST),
    ],
)
def test_strangers_see_the_open_pages_alone(path, said):
    """The way in, the cautions, the certificate, and what pages are drawn with."""
    assert verdict(Visitor.STRANGER, "http", "GET", path, RULES) is said


@given(method=st.sampled_from(["GET", *UNSAFE]), path=paths)
def test_owner_and_leader_do_everything(method, path):
    """Nothing is kept from them."""
    for visitor in (Visitor.OWNER, Visitor.LEADER):
        assert verdict(visitor, "http", method, path, RULES) is Verdict.PASS


def test_where_nothing_is_shared_only_this_machine_is_answered():
    """Even if the server could be reached from elsewhere."""
    guarded = Access(fine, None, RULES)
    assert ask(guarded, "POST", client=HERE).status == 200
    answer = ask(guarded, client=THERE, host=LAN)
    assert answer.status == 403
    assert "not shared" in answer.text
