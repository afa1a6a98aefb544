"""The guard of the workbench: who may ask, from where, how much, and what is told to the browser and the log.

Pure ASGI, with no knowledge of the pages: `apply_guard` puts it round any application.
"""

from fifthwise.web.guard.access import Access, Rules, Verdict, verdict
from fifthwise.web.guard.addresses import LOOPBACK, listening, local_addresses, local_names, url_of
from fifthwise.web.guard.bodies import BodyLimit, BodyLimits
from fifthwise.web.guard.certificates import Certificates, certificates, is_inside
from fifthwise.web.guard.downloads import attachment
from fifthwise.web.guard.errors import BrokenFile, ExposedFile, GuardFault, WeakPassword
from fifthwise.web.guard.headers import PAGE_POLICY, SELF_CONTAINED_POLICY, Headers
from fifthwise.web.guard.heads import HeadLimits
from fifthwise.web.guard.hosts import HostCheck
from fifthwise.web.guard.logs import LOG_CONFIG, Logs, fault_refusal, log_fault, reference_of, where_rose
from fifthwise.web.guard.origin import OriginCheck
from fifthwise.web.guard.passwords import (
    LONGEST_PASSWORD,
    SHORTEST_PASSWORD,
    Password,
    keep_password,
    load_password,
)
from fifthwise.web.guard.paths import PathCheck
from fifthwise.web.guard.people import Entry, People, Visitor
from fifthwise.web.guard.refusal import PageOf, Refusal, plain_page, refuse
from fifthwise.web.guard.server import server_options
from fifthwise.web.guard.sessions import clear_cookie, cookie_of, give_cookie
from fifthwise.web.guard.settings import GuardSettings, apply_guard

__all__ = [
    "LOG_CONFIG",
    "LONGEST_PASSWORD",
    "LOOPBACK",
    "PAGE_POLICY",
    "SELF_CONTAINED_POLICY",
    "SHORTEST_PASSWORD",
    "Access",
    "BodyLimit",
    "BodyLimits",
    "BrokenFile",
    "Certificates",
    "Entry",
    "ExposedFile",
    "GuardFault",
    "GuardSettings",
    "HeadLimits",
    "Headers",
    "HostCheck",
    "Logs",
    "OriginCheck",
    "PageOf",
    "Password",
    "PathCheck",
    "People",
    "Refusal",
    "Rules",
    "Verdict",
    "Visitor",
    "WeakPassword",
    "apply_guard",
    "attachment",
    "certificates",
    "clear_cookie",
    "cookie_of",
    "fault_refusal",
    "give_cookie",
    "is_inside",
    "keep_password",
    "listening",
    "load_password",
    "local_addresses",
    "local_names",
    "log_fault",
    "plain_page",
    "reference_of",
    "refuse",
    "server_options",
    "url_of",
    "verdict",
    "where_rose",
]
