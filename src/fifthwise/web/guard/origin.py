"""Changes only from our own pages: the check against forged requests from other sites.

OWASP, Cross-Site Request Forgery Prevention: compare the Origin header with the target's own origin, and
fall back on Fetch Metadata. Browsers send Origin with every request that is neither GET nor HEAD (Fetch
standard, "append a request Origin header") and with every socket's handshake (RFC 6455, 4.1).

Under ``Referrer-Policy: no-referrer`` that standard makes a form of our own send ``Origin: null``, which is
refused here: the policy has to be ``same-origin``, see `headers`.
"""

from starlette.types import ASGIApp, Receive, Scope, Send

from fifthwise.web.guard.hosts import authority
from fifthwise.web.guard.refusal import PageOf, Refusal, header_values, plain_page, refuse

__all__ = ["SAFE_METHODS", "OriginCheck", "is_from_here"]

# RFC 9110, 9.2.1.
SAFE_METHODS = frozenset({"GET", "HEAD", "OPTIONS", "TRACE"})
DEFAULT_PORTS = {"http": 80, "https": 443}
SCHEMES = {"http": "http", "https": "https", "ws": "http", "wss": "https"}
FOREIGN = Refusal(
    403,
    "This did not come from a page of the workbench",
    "Nothing was changed. Open the workbench itself, load the page again and repeat it there.",
)


class OriginCheck:
    """Let what may change something through only from our own origin; it stands behind ``HostCheck``."""

    def __init__(self, app: ASGIApp, page: PageOf = plain_page) -> None:
        self.app, self.page = app, page

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse an unsafe method or a socket from elsewhere with 403."""
        unsafe = scope["type"] == "websocket" or (
            scope["type"] == "http" and scope["method"] not in SAFE_METHODS
        )
        if unsafe and not is_from_here(scope):
            await refuse(scope, send, FOREIGN, self.page)
            return
        await self.app(scope, receive, send)


def is_from_here(scope: Scope) -> bool:
    """Tell whether a browser says that the request came from our own origin.

    Without an Origin, Sec-Fetch-Site has to say ``same-origin``, or ``none`` for what a person did outside
    of any page (W3C Fetch Metadata). A request that says neither is not taken.
    """
    origins, own = header_values(scope, b"origin"), _own(scope)
    if origins:
        return own is not None and [_parts(origin) for origin in origins] == [own]
    return header_values(scope, b"sec-fetch-site") in (["same-origin"], ["none"])


def _own(scope: Scope) -> tuple[str, str, int] | None:
    hosts = header_values(scope, b"host")
    return _parts(f"{SCHEMES[scope['scheme']]}://{hosts[0]}") if len(hosts) == 1 else None


def _parts(origin: str) -> tuple[str, str, int] | None:
    """Scheme, host and port of an origin (RFC 6454, 4); ``None`` for ``null`` and for what is no origin."""
    scheme, _, rest = origin.partition("://")
    place = authority(rest)
    if scheme not in DEFAULT_PORTS or place is None:
        return None
    return scheme, place.host, place.port or DEFAULT_PORTS[scheme]
