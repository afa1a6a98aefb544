"""Attempts limited by a token bucket an address and one for all, in bounded memory.

A bucket holds so many tokens and fills at a steady rate; an attempt takes one. When too many addresses are
known, the one that was quiet longest is forgotten: the bucket for all bounds what that could win.
"""

import ipaddress
import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass

from starlette.types import Scope

__all__ = ["Attempts", "Buckets", "client_key"]

Clock = Callable[[], float]
MOST_ADDRESSES = 4096
# A device is given a whole /64 to choose its addresses from (RFC 4291, 2.5.4; RFC 8981).
IPV6_PREFIX = 64


class Buckets:
    """Token buckets by key.

    Parameters
    ----------
    burst : int
        Tokens that a full bucket holds.
    per_minute : float
        Tokens that come back in a minute.
    clock : callable
        Seconds that only go forward.
    most : int
        Keys kept at once.
    """

    def __init__(
        self, burst: int, per_minute: float, clock: Clock = time.monotonic, most: int = MOST_ADDRESSES
    ) -> None:
        self.burst, self.per_s = burst, per_minute / 60
        self.clock, self.most = clock, most
        self._kept: OrderedDict[str, tuple[float, float]] = OrderedDict()

    def __len__(self) -> int:
        return len(self._kept)

    def take(self, key: str) -> float:
        """Take a token: 0 when there was one, otherwise the seconds until there is."""
        now = self.clock()
        tokens, then = self._kept.pop(key, (float(self.burst), now))
        tokens = min(self.burst, tokens + (now - then) * self.per_s)
        wait_s = 0.0 if tokens >= 1 else (1 - tokens) / self.per_s
        self._kept[key] = (tokens if wait_s else tokens - 1, now)
        while len(self._kept) > self.most:
            self._kept.popitem(last=False)
        return wait_s


@dataclass(frozen=True, slots=True)
class Attempts:
    """Attempts at one secret: some an address, more for all together."""

    each: Buckets
    together: Buckets

    def wait_s(self, scope: Scope) -> float:
        """Count one attempt: 0 when it may go on, otherwise the seconds to wait."""
        return self.each.take(client_key(scope)) or self.together.take("all")


def client_key(scope: Scope) -> str:
    """Whom a request came from; a client's IPv6 addresses count as one.

    Only the connection's own address: what a header says about it, anyone can write.
    """
    client = scope.get("client")
    try:
        address = ipaddress.ip_address(client[0].partition("%")[0]) if client else None
    except ValueError:
        address = None
    if address is None:
        return "unknown"
    if isinstance(address, ipaddress.IPv4Address):
        return str(address)
    if address.ipv4_mapped:
        return str(address.ipv4_mapped)
    return str(ipaddress.ip_network((address, IPV6_PREFIX), strict=False))
