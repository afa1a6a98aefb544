"""Sessions: signed cookies that last an evening, and can be left for good.

A cookie says who somebody is, until when, and under which code or password they came in: a new code or
password ends them all. Nothing in it is secret, and nobody without the secret can make one. One that was
left is remembered, over a restart too, until it would have ended by itself.

Sources: OWASP Session Management Cheat Sheet; cookie prefixes and SameSite of RFC 6265bis, 4.1.2 and 4.1.3.
"""

import hashlib
import hmac
import json
import secrets
import time
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path

from itsdangerous import BadData, URLSafeSerializer
from starlette.requests import cookie_parser
from starlette.responses import Response
from starlette.types import Scope

from fifthwise.web.guard.private_files import make_once, read_private, replace_private
from fifthwise.web.guard.refusal import header_values

__all__ = ["SESSION_S", "Session", "Sessions", "clear_cookie", "cookie_of", "give_cookie"]

Clock = Callable[[], float]
SESSION_S = 12 * 3600
SECRET_BYTES = 32
SALT = "fifthwise session 1"
LONGEST_COOKIE = 1024


@dataclass(frozen=True, slots=True)
class Session:
    """Somebody's session.

    Parameters
    ----------
    kind : str
        What they may do.
    bond : str
        A digest of the code or password under which they came in.
    number : str
        What tells this session from every other.
    until_s : int
        When it ends, in seconds since 1970.
    """

    kind: str
    bond: str
    number: str
    until_s: int


class Sessions:
    """Sessions begun, known again, and left.

    Parameters
    ----------
    folder : Path
        Where the secret and the sessions that were left are kept.
    clock : callable
        Seconds since 1970.
    """

    def __init__(self, folder: Path, clock: Clock = time.time) -> None:
        self.clock = clock
        self._secret = make_once(folder / "session.secret", lambda: secrets.token_bytes(SECRET_BYTES))
        self._signer = URLSafeSerializer(
            self._secret,
            salt=SALT,
            signer_kwargs={"key_derivation": "hmac", "digest_method": hashlib.sha256},
        )
        self._left_file = folder / "sessions-left.json"
        self._left = _read_left(self._left_file)

    def begin(self, kind: str, under: str) -> str:
        """A new cookie for somebody who knew the code or password ``under``."""
        until_s = int(self.clock()) + SESSION_S
        return str(self._signer.dumps([kind, self._bond(kind, under), secrets.token_urlsafe(16), until_s]))

    def known(self, cookie: str | None) -> Session | None:
        """The session of a cookie; ``None`` where it is forged, over, left, or none."""
        if not cookie or len(cookie) > LONGEST_COOKIE:
            return None
        try:
            # Signed by us, so it has the shape that we gave it.
            session = Session(*self._signer.loads(cookie))
        except BadData:
            return None
        ended = self.clock() >= session.until_s or session.number in self._left
        return None if ended else session

    def is_under(self, session: Session, under: str) -> bool:
        """Tell whether the code or password that the session came in under still holds."""
        return hmac.compare_digest(session.bond, self._bond(session.kind, under))

    def leave(self, cookie: str | None) -> None:
        """End a session, so that a copy of its cookie is worth nothing either."""
        session = self.known(cookie)
        if session is None:
            return
        now = self.clock()
        self._left = {number: until for number, until in self._left.items() if until > now}
        self._left[session.number] = session.until_s
        replace_private(self._left_file, json.dumps(self._left).encode())

    def _bond(self, kind: str, under: str) -> str:
        # Keyed, so that a guest's cookie does not help to find the code.
        return hmac.new(self._secret, f"{kind}\n{under}".encode(), hashlib.sha256).hexdigest()[:32]


def _read_left(path: Path) -> dict[str, int]:
    """Ends by session number. A file that cannot be read counts as none: what it held ends by itself."""
    left: dict[str, int] = {}
    with suppress(ValueError, TypeError, AttributeError):
        left = {str(number): int(until) for number, until in json.loads(read_private(path) or b"{}").items()}
    return left


def _cookie_name(*, secure: bool) -> str:
    # __Host-: only this very host may have set it, and only over HTTPS.
    return "__Host-fifthwise" if secure else "fifthwise"


def give_cookie(response: Response, cookie: str, *, secure: bool) -> None:
    """Let an answer hand out a session's cookie."""
    response.set_cookie(
        _cookie_name(secure=secure),
        cookie,
        max_age=SESSION_S,
        path="/",
        secure=secure,
        httponly=True,
        samesite="strict",
    )


def clear_cookie(response: Response, *, secure: bool) -> None:
    """Let an answer take the cookie back."""
    name = _cookie_name(secure=secure)
    response.delete_cookie(name, path="/", secure=secure, httponly=True, samesite="strict")


def cookie_of(scope: Scope) -> str | None:
    """The session's cookie that a request brings."""
    name = _cookie_name(secure=scope["scheme"] in ("https", "wss"))
    cookies = cookie_parser("; ".join(header_values(scope, b"cookie")))
    return cookies.get(name)
