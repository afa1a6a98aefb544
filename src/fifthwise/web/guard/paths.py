"""Paths that no page of ours has: refused before anything looks at them.

A router and a file system read dot segments, backslashes and NUL differently; what only they could
disagree about is not let through (OWASP Path Traversal).
"""

import re

from starlette.types import ASGIApp, Receive, Scope, Send

from fifthwise.web.guard.refusal import PageOf, Refusal, plain_page, refuse

__all__ = ["PathCheck", "is_plain_path"]

# Control signs, NUL among them, and the backslash, which some systems take for a slash.
FORBIDDEN = re.compile(r"[\x00-\x1f\x7f\\]")
ODD_PATH = Refusal(400, "There is no such address", "Go to the first page and look for it from there.")


def is_plain_path(path: str) -> bool:
    """Tell whether a decoded path holds neither control signs, backslashes nor dot segments."""
    return not FORBIDDEN.search(path) and not {".", ".."} & set(path.split("/"))


class PathCheck:
    """Answer only plain paths."""

    def __init__(self, app: ASGIApp, page: PageOf = plain_page) -> None:
        self.app, self.page = app, page

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse a path that is not plain with 400."""
        if scope["type"] in ("http", "websocket") and not is_plain_path(scope["path"]):
            await refuse(scope, send, ODD_PATH, self.page)
            return
        await self.app(scope, receive, send)
