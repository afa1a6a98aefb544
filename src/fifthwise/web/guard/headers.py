"""Headers that tell a browser what our pages never do, on every answer, the refusals' too.

Sources: OWASP HTTP Headers Cheat Sheet; CSP Level 3; Fetch standard (Cross-Origin-Resource-Policy);
HTML standard (Cross-Origin-Opener-Policy); RFC 9111, 5.2.2.5 (no-store).
"""

from starlette.datastructures import MutableHeaders
from starlette.types import ASGIApp, Message, Receive, Scope, Send

__all__ = ["PAGE_POLICY", "SELF_CONTAINED_POLICY", "Headers"]

PAGE_POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; font-src 'self'; "
    "connect-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'; manifest-src 'self'; "
    "media-src 'self' blob:; worker-src 'self'"
)
# For a page that carries its own style, pictures and fonts and has no script: it is also cut off from us.
SELF_CONTAINED_POLICY = (
    "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; form-action 'none'; "
    "base-uri 'none'; frame-ancestors 'none'; sandbox"
)
# What a response may choose for itself.
UNLESS_GIVEN = {"Content-Security-Policy": PAGE_POLICY, "Cache-Control": "no-store"}
ALWAYS = {
    "X-Content-Type-Options": "nosniff",
    # Not no-referrer: under it our own forms would send "Origin: null" and be refused.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": (
        "microphone=(self), screen-wake-lock=(self), autoplay=(self), fullscreen=(self), camera=(), "
        "geolocation=(), display-capture=(), payment=(), usb=(), serial=(), hid=(), midi=()"
    ),
}


class Headers:
    """Put the headers on every answer; it stands outermost."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer with the headers; a policy or a cache rule that the answer brings is kept."""

        async def with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                for name, value in UNLESS_GIVEN.items():
                    headers.setdefault(name, value)
                headers.update(ALWAYS)
            await send(message)

        await self.app(scope, receive, with_headers if scope["type"] == "http" else send)
