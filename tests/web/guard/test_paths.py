"""Paths that no page has."""

import pytest

from fifthwise.web.guard import PathCheck
from tests.web.guard.asking import ask, fine

GUARDED = PathCheck(fine)


@pytest.mark.parametrize("path", ["/", "/songs/7", "/a.b/..c/d..", "/songs/Füße", "/a b", "/...", "//a"])
def test_plain_paths_pass(path):
    """Dots within a name, any script and spaces are plain."""
    assert ask(GUARDED, path=path).status == 200


@pytest.mark.parametrize(
    "path",
    ["/..", "/../a", "/a/..", "/a/../b", "/.", "/a/./b", "/a\\b", "/..\\a", "/a\0", "/a\r\nb", "/a\x7f"],
)
def test_what_a_router_and_a_folder_could_read_differently_is_refused(path):
    """Dot segments, backslashes, NUL and other control signs.

    Source: OWASP Path Traversal; dot segments: RFC 3986, 3.3.
    """
    assert ask(GUARDED, path=path).status == 400
    assert ask(GUARDED, path=path, kind="websocket", scheme="ws").messages[0]["type"] == "websocket.close"
