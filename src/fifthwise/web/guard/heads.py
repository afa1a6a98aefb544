"""Request lines and headers bounded in length.

The server's own bound holds only for what has not come whole: what arrives in one piece, up to some 256 KB,
passes it.
"""

from starlette.types import ASGIApp, Receive, Scope, Send

from fifthwise.web.guard.refusal import PageOf, Refusal, plain_page, refuse

__all__ = ["LONGEST_HEADERS", "LONGEST_TARGET", "HeadLimits"]

# Bytes; RFC 9110, 4.1 asks for at least 8000 of a target.
LONGEST_TARGET = 8000
LONGEST_HEADERS = 16_000
# RFC 9110, 15.5.15 and RFC 6585, 5.
LONG_TARGET = Refusal(414, "That address is too long", "Search for less at once.")
LONG_HEADERS = Refusal(
    431, "The browser sent too much beside the question", "Clear its cookies for this address and try again."
)


class HeadLimits:
    """Answer only requests whose address and headers have a usual length."""

    def __init__(self, app: ASGIApp, page: PageOf = plain_page) -> None:
        self.app, self.page = app, page

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse a long address with 414 and long headers with 431."""
        refusal = _refusal(scope) if scope["type"] in ("http", "websocket") else None
        if refusal:
            await refuse(scope, send, refusal, self.page)
            return
        await self.app(scope, receive, send)


def _refusal(scope: Scope) -> Refusal | None:
    raw_path = scope.get("raw_path") or scope["path"].encode("utf-8", "replace")
    if len(raw_path) + len(scope["query_string"]) > LONGEST_TARGET:
        return LONG_TARGET
    length = sum(len(name) + len(value) for name, value in scope["headers"])
    return LONG_HEADERS if length > LONGEST_HEADERS else None
