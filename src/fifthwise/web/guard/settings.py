"""The guard put round an application, every piece in its place.

From the outside in: the headers, so that refusals have them too; the log, so that refusals are in it; then
what costs least and depends on least first: length of the head, host, path, origin, visitor, body. The
origin is compared with the host, so it comes after it; a body is only read for those who may send one.
"""

from dataclasses import dataclass, field

from starlette.types import ASGIApp

from fifthwise.web.guard.access import Access, Rules
from fifthwise.web.guard.addresses import LOOPBACK
from fifthwise.web.guard.bodies import BodyLimit, BodyLimits
from fifthwise.web.guard.headers import Headers
from fifthwise.web.guard.heads import HeadLimits
from fifthwise.web.guard.hosts import HostCheck
from fifthwise.web.guard.logs import Logs
from fifthwise.web.guard.origin import OriginCheck
from fifthwise.web.guard.paths import PathCheck
from fifthwise.web.guard.people import People
from fifthwise.web.guard.refusal import PageOf, plain_page

__all__ = ["GuardSettings", "apply_guard"]


@dataclass(frozen=True, slots=True)
class GuardSettings:
    """How the workbench is guarded.

    Parameters
    ----------
    hosts : tuple of str
        Names and addresses under which it answers, without ports.
    people : People or None
        Those who may come in from other machines; ``None`` where it is not shared.
    rules : Rules
        Which pages are open, and which are the leaders' own.
    limits : tuple of BodyLimit
        Routes that take more than 2 MB.
    page : callable
        Makes a refusal's page.
    """

    hosts: tuple[str, ...] = LOOPBACK
    people: People | None = None
    rules: Rules = field(default_factory=Rules)
    limits: tuple[BodyLimit, ...] = ()
    page: PageOf = plain_page


def apply_guard(app: ASGIApp, settings: GuardSettings) -> ASGIApp:
    """The application behind its guard: what a server is given instead of it."""
    page = settings.page
    guarded: ASGIApp = BodyLimits(app, settings.limits, page)
    guarded = Access(guarded, settings.people, settings.rules, page)
    guarded = OriginCheck(guarded, page)
    guarded = PathCheck(guarded, page)
    guarded = HostCheck(guarded, settings.hosts, page)
    guarded = HeadLimits(guarded, page)
    return Headers(Logs(guarded, page))
