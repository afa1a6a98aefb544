"""Addresses and headers are bounded in length."""

import pytest

from fifthwise.web.guard import HeadLimits
from fifthwise.web.guard.heads import LONGEST_HEADERS, LONGEST_TARGET
from tests.web.guard.asking import ask, fine

GUARDED = HeadLimits(fine)


def test_what_browsers_send_passes():
    """Addresses of 8000 bytes, as RFC 9110, 4.1 asks for, and headers as long as twice that."""
    query = b"q" * (LONGEST_TARGET - 1)
    assert LONGEST_TARGET >= 8000
    assert ask(GUARDED, query=query, headers=[("cookie", "c" * (LONGEST_HEADERS - 100))]).status == 200


@pytest.mark.parametrize(
    ("more", "status"),
    [
        ({"query": b"q" * LONGEST_TARGET}, 414),
        ({"path": "/" + "p" * LONGEST_TARGET}, 414),
        ({"headers": [("cookie", "c" * LONGEST_HEADERS)]}, 431),
        ({"headers": [(f"x-{n}", "a") for n in range(4000)]}, 431),
    ],
)
def test_what_is_longer_is_refused(more, status):
    """A long query, path or header, or very many of them. Statuses: RFC 9110, 15.5.15; RFC 6585, 5."""
    assert ask(GUARDED, **more).status == status
