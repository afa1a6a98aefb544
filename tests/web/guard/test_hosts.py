"""Names that are ours are answered, and no others."""

import pytest

from fifthwise.web.guard import HostCheck
from fifthwise.web.guard.hosts import Authority, authority, host_key
from tests.web.guard.asking import ask, fine

GUARDED = HostCheck(fine, ("localhost", "127.0.0.1", "::1", "192.168.1.20", "Stage-Laptop.local"))


@pytest.mark.parametrize(
    "host",
    [
        "localhost",
        "localhost:5151",
        "LOCALHOST:5151",
        "localhost.:5151",
        "127.0.0.1:5151",
        "[::1]:5151",
        "[0:0:0:0:0:0:0:1]",
        "192.168.1.20:8443",
        "stage-laptop.local",
    ],
)
def test_our_hosts_are_answered_however_they_are_written(host):
    """Case, port, a full stop at the end and an address's longer spelling do not matter."""
    assert ask(GUARDED, host=host).status == 200


@pytest.mark.parametrize(
    "host",
    [
        "rebound.example:5151",
        "localhost.rebound.example",
        "127.0.0.1.rebound.example",
        "rebound.example#localhost",
        "localhost@rebound.example",
        "localhost:5151@rebound.example",
        "localhost:0",
        "localhost:99999",
        "localhost:",
        "localhost..",
        "local host",
        "localhost,rebound.example",
        "[::1",
        "[::1%25lo]",
        "::1",
        "2130706433",
        "0x7f.1",
        "127.1",
        "",
        ".",
        "lоcalhost".encode().decode("latin-1"),
    ],
)
def test_a_host_that_is_not_ours_is_refused(host):
    """A rebinding page's name, or one that is not well formed, is answered with 400 and no echo of it."""
    answer = ask(GUARDED, host=host)
    assert answer.status == 400
    assert "not one of ours" in answer.text
    assert "rebound" not in answer.text


def test_a_request_without_a_host_is_refused():
    """RFC 9112, 3.2: a server must answer a missing Host with 400."""
    assert ask(GUARDED, host=None).status == 400


def test_a_request_with_two_hosts_is_refused():
    """RFC 9112, 3.2: a server must answer more than one Host with 400, alike or not."""
    assert ask(GUARDED, headers=[("host", "localhost")], host="localhost").status == 400
    assert ask(GUARDED, headers=[("host", "rebound.example")], host="localhost").status == 400


def test_a_socket_under_a_foreign_name_is_closed():
    """A socket is held to the same hosts as a page."""
    answer = ask(GUARDED, kind="websocket", scheme="ws", host="rebound.example")
    assert answer.messages[0]["type"] == "websocket.close"


def test_authorities_are_read_by_the_standard():
    """Host and port come apart, an IPv6 address keeps its brackets.

    Source: RFC 3986, 3.2.2 and 3.2.3; the one spelling of an IPv6 address: RFC 5952, section 4.
    """
    assert authority("[2001:DB8:0:0:0:0:0:1]:80") == Authority("[2001:db8::1]", 80)
    assert authority("a.example") == Authority("a.example", None)
    assert host_key("2001:db8:0:0:1:0:0:1") == "[2001:db8::1:0:0:1]"
