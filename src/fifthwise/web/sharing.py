"""The workbench shared in the house, and its guard, shared or not.

The server is started with ``guarded(make_app(book, sharing), sharing)`` and ``server_options``; see
``docs/sharing.md``.
"""

from dataclasses import dataclass
from pathlib import Path

from starlette.requests import Request
from starlette.types import ASGIApp

from fifthwise.web.guard import (
    LOOPBACK,
    BodyLimit,
    Certificates,
    GuardFault,
    GuardSettings,
    People,
    Rules,
    Visitor,
    apply_guard,
    certificates,
    is_inside,
    load_password,
    local_addresses,
    local_names,
    url_of,
)
from fifthwise.web.refused import refusal_page

__all__ = ["PASSWORD_FILE", "NoPassword", "Sharing", "guarded", "open_sharing", "sharing_of", "visitor_of"]

PASSWORD_FILE = "leader.password"
# A form with a code or a password in it is short.
FORM_BYTES = 4000
# Many charts are dropped at once.
IMPORT_BYTES = 64_000_000
LIMITS = (
    *(BodyLimit(path, FORM_BYTES) for path in ("/join", "/leader", "/leave", "/theme")),
    BodyLimit("/songs/import", IMPORT_BYTES),
)
# Pages that only ask for a change.
RULES = Rules(
    leaders=(
        "/songs/new", "/songs/import", "/songs/import/", "/songs/*/edit", "/songs/*/remove",
        "/singers/new", "/singers/*/remove", "/players/new", "/players/*/remove", "/sets/*/remove",
    )
)  # fmt: skip


class NoPassword(GuardFault):
    """Sharing is asked for before a leader's password was set."""


@dataclass(frozen=True, slots=True)
class Sharing:
    """What there is to know of a workbench that others may open.

    Parameters
    ----------
    people : People
        Those who come in, and the code.
    hosts : tuple of str
        This machine's addresses in the house, the likeliest first: what the server has to listen on.
    names : tuple of str
        Names under which the network may know it.
    port : int
        Where they come in.
    certificates : Certificates or None
        For HTTPS; ``None`` where the server speaks plain HTTP.
    """

    people: People
    hosts: tuple[str, ...]
    names: tuple[str, ...]
    port: int
    certificates: Certificates | None

    @property
    def addresses(self) -> tuple[str, ...]:
        """What to type into a browser, the likeliest first."""
        secure = self.certificates is not None
        return tuple(url_of(host, self.port, secure=secure) for host in (*self.hosts, *self.names))


def open_sharing(folder: Path, port: int, *, secure: bool = True) -> Sharing:
    """Make ready to share: the password read, a new code, the certificates as the addresses are now.

    Parameters
    ----------
    folder : Path
        Where the guard keeps its private files.
    port : int
        Where others come in.
    secure : bool
        Whether they come by HTTPS, without which a password can be read on its way.

    Raises
    ------
    NoPassword
        ``keep_password`` was never called for ``folder / PASSWORD_FILE``.
    GuardFault
        A private file is damaged or may be read by others.
    """
    password = load_password(folder / PASSWORD_FILE)
    if password is None:
        raise NoPassword("no leader's password is set", str(folder), "Start with --share again and set one")
    addresses = tuple(filter(is_inside, local_addresses()))
    names = tuple(filter(is_inside, local_names()))
    made = certificates(folder, (*addresses, *names, *LOOPBACK)) if secure else None
    return Sharing(People(folder, password), addresses, names, port, made)


def guarded(app: ASGIApp, sharing: Sharing | None = None, limits: tuple[BodyLimit, ...] = ()) -> ASGIApp:
    """The workbench behind its guard.

    Parameters
    ----------
    sharing : Sharing or None
        ``None`` where nobody else may open it.
    limits : tuple of BodyLimit
        Routes that take more than 2 MB.
    """
    settings = GuardSettings(
        hosts=LOOPBACK if sharing is None else (*LOOPBACK, *sharing.hosts, *sharing.names),
        people=None if sharing is None else sharing.people,
        rules=RULES,
        limits=(*LIMITS, *limits),
        page=refusal_page,
    )
    return apply_guard(app, settings)


def sharing_of(request: Request) -> Sharing | None:
    """How the workbench is shared; ``None`` where it is not."""
    sharing: Sharing | None = request.app.state.sharing
    return sharing


def visitor_of(request: Request) -> Visitor:
    """Who asks. Where no guard has looked, a stranger."""
    visitor: Visitor = getattr(request.state, "visitor", Visitor.STRANGER)
    return visitor
