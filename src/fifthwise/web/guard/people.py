"""Who is asking: the owner at this machine, a leader with the password, a guest with the code, or a stranger.

The owner needs no password: the connection comes from this machine and asks for it by a loopback name. So
does everybody who has an account on it, and every program that passes requests on; the latter say so in a
header, and are strangers then. Reverse proxies are not supported, and what such headers say is not believed.
"""

import ipaddress
import time
from collections.abc import Callable
from dataclasses import dataclass
from enum import Enum
from pathlib import Path

from starlette.types import Scope

from fifthwise.web.guard.codes import is_code, new_code
from fifthwise.web.guard.hosts import authority
from fifthwise.web.guard.passwords import Password
from fifthwise.web.guard.rate import Attempts, Buckets
from fifthwise.web.guard.refusal import header_values
from fifthwise.web.guard.sessions import Sessions, cookie_of

__all__ = ["Entry", "People", "Visitor", "is_at_this_machine"]

Clock = Callable[[], float]
LOOPBACK_HOSTS = frozenset({"localhost", "127.0.0.1", "[::1]"})
PASSED_ON = (b"forwarded", b"x-forwarded-for", b"x-forwarded-host", b"x-real-ip", b"via")
# At 60 a minute for all together, 12 hours try 43,200 of 2**30 codes.
CODE_EACH, CODE_EACH_PER_MINUTE = 10, 4
CODE_ALL, CODE_ALL_PER_MINUTE = 60, 60
PASSWORD_EACH, PASSWORD_EACH_PER_MINUTE = 5, 1
PASSWORD_ALL, PASSWORD_ALL_PER_MINUTE = 20, 10


class Visitor(Enum):
    """The kinds of people that the workbench tells apart."""

    OWNER = "owner"
    LEADER = "leader"
    GUEST = "guest"
    STRANGER = "stranger"

    @property
    def may_change(self) -> bool:
        """Whether they may change what is kept."""
        return self in (Visitor.OWNER, Visitor.LEADER)


@dataclass(frozen=True, slots=True)
class Entry:
    """What came of an attempt to come in: a cookie, a wrong secret, or a wait before the next attempt."""

    cookie: str | None = None
    wait_s: float = 0.0


class People:
    """Those who come in from other machines, for one start of the server.

    Parameters
    ----------
    folder : Path
        Where the guard keeps its files.
    password : Password
        The leader's.
    code : str, optional
        The join code; a new one by default.
    wall_clock, clock : callable
        Seconds since 1970, for sessions; seconds that only go forward, for attempts.
    """

    def __init__(
        self,
        folder: Path,
        password: Password,
        code: str | None = None,
        wall_clock: Clock = time.time,
        clock: Clock = time.monotonic,
    ) -> None:
        self.code = code or new_code()
        self.password = password
        self.sessions = Sessions(folder, wall_clock)
        self._code_attempts = Attempts(
            Buckets(CODE_EACH, CODE_EACH_PER_MINUTE, clock), Buckets(CODE_ALL, CODE_ALL_PER_MINUTE, clock)
        )
        self._password_attempts = Attempts(
            Buckets(PASSWORD_EACH, PASSWORD_EACH_PER_MINUTE, clock),
            Buckets(PASSWORD_ALL, PASSWORD_ALL_PER_MINUTE, clock),
        )

    def visitor(self, scope: Scope) -> Visitor:
        """Who is asking."""
        if is_at_this_machine(scope):
            return Visitor.OWNER
        session = self.sessions.known(cookie_of(scope))
        under = {"leader": self.password.kept, "guest": self.code}
        if session is None or session.kind not in under:
            return Visitor.STRANGER
        holds = self.sessions.is_under(session, under[session.kind])
        return Visitor(session.kind) if holds else Visitor.STRANGER

    def join(self, scope: Scope, typed: str) -> Entry:
        """Come in as a guest, by the code."""
        wait_s = self._code_attempts.wait_s(scope)
        if wait_s or not is_code(typed, self.code):
            return Entry(wait_s=wait_s)
        return Entry(self.sessions.begin("guest", self.code))

    async def lead(self, scope: Scope, typed: str) -> Entry:
        """Come in as a leader, by the password."""
        wait_s = self._password_attempts.wait_s(scope)
        if wait_s or not await self.password.fits(typed):
            return Entry(wait_s=wait_s)
        return Entry(self.sessions.begin("leader", self.password.kept))


def is_at_this_machine(scope: Scope) -> bool:
    """Tell whether a request comes from this machine, for this machine, and through nobody's hands."""
    client, hosts = scope.get("client"), header_values(scope, b"host")
    asked = authority(hosts[0]) if len(hosts) == 1 else None
    if client is None or asked is None or asked.host not in LOOPBACK_HOSTS:
        return False
    if any(header_values(scope, name) for name in PASSED_ON):
        return False
    try:
        return ipaddress.ip_address(client[0]).is_loopback
    except ValueError:
        return False
