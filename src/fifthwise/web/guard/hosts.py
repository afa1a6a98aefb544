"""Trusted hosts: a page elsewhere must not reach us under a name of its own.

A page can point its own name at this machine (DNS rebinding) and is then, to the browser, the same origin
as we are. Its requests still carry that name in their Host header, so only names that are ours are answered.
"""

import ipaddress
import re
from collections.abc import Iterable
from dataclasses import dataclass

from starlette.types import ASGIApp, Receive, Scope, Send

from fifthwise.web.guard.refusal import PageOf, Refusal, header_values, plain_page, refuse

__all__ = ["Authority", "HostCheck", "authority", "host_key"]

# RFC 3986, 3.2.2 and 3.2.3: a name or an IPv6 address in brackets, then perhaps a port.
AUTHORITY = re.compile(r"(?P<host>\[[0-9A-Fa-f:.]+\]|[0-9A-Za-z._-]+)(?::(?P<port>[0-9]{1,5}))?")
HIGHEST_PORT = 65535
UNKNOWN_HOST = Refusal(
    400,
    "This address is not one of ours",
    "Open the workbench at an address that fifthwise showed when it was started.",
)


@dataclass(frozen=True, slots=True)
class Authority:
    """A host in its one spelling, and the port that was written with it, if any."""

    host: str
    port: int | None


def host_key(host: str) -> str | None:
    """A host in the one spelling by which it is compared; ``None`` where it is none.

    Lower case, no full stop at the end, an IPv6 address compressed and in brackets.
    """
    bare = host[1:-1] if host.startswith("[") and host.endswith("]") else host
    if ":" in bare:
        try:
            return f"[{ipaddress.IPv6Address(bare).compressed}]"
        except ValueError:
            return None
    name = host.lower().removesuffix(".")
    return name if name and not name.startswith((".", "[")) and ".." not in name else None


def authority(text: str) -> Authority | None:
    """A Host header, or what follows ``://`` in an origin; ``None`` where it is not well formed."""
    match = AUTHORITY.fullmatch(text)
    host = host_key(match["host"]) if match else None
    if match is None or host is None:
        return None
    port = int(match["port"]) if match["port"] else None
    return Authority(host, port) if port is None or 0 < port <= HIGHEST_PORT else None


class HostCheck:
    """Answer only under the given hosts.

    Parameters
    ----------
    app : ASGIApp
        What is asked when the host is ours.
    hosts : iterable of str
        Names and addresses without ports.
    """

    def __init__(self, app: ASGIApp, hosts: Iterable[str], page: PageOf = plain_page) -> None:
        self.app, self.page = app, page
        self.hosts = frozenset(filter(None, map(host_key, hosts)))

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Refuse with 400 where the host is missing, doubled, malformed (RFC 9112, 3.2) or not ours."""
        if scope["type"] in ("http", "websocket") and not self._is_ours(scope):
            await refuse(scope, send, UNKNOWN_HOST, self.page)
            return
        await self.app(scope, receive, send)

    def _is_ours(self, scope: Scope) -> bool:
        given = header_values(scope, b"host")
        asked = authority(given[0]) if len(given) == 1 else None
        return asked is not None and asked.host in self.hosts
