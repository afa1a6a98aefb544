"""What every answer tells the browser."""

import asyncio

from starlette.responses import PlainTextResponse

from fifthwise.web.guard import PAGE_POLICY, SELF_CONTAINED_POLICY, Headers
from tests.web.guard.asking import ask, fine


def directives(policy):
    """A policy as a mapping."""
    parts = (part.split() for part in policy.split(";"))
    return {part[0]: part[1:] for part in parts if part}


def test_pages_carry_every_header():
    """Policy, sniffing, referrer, isolation, permissions and no copy kept."""
    found = ask(Headers(fine)).headers
    assert found["content-security-policy"] == PAGE_POLICY
    assert found["x-content-type-options"] == "nosniff"
    assert found["cross-origin-opener-policy"] == "same-origin"
    assert found["cross-origin-resource-policy"] == "same-origin"
    assert found["cache-control"] == "no-store"
    assert "microphone=(self)" in found["permissions-policy"]
    assert "camera=()" in found["permissions-policy"]


def test_the_referrer_policy_lets_our_own_forms_say_their_origin():
    """Under no-referrer a browser sends ``Origin: null`` even to us.

    Source: Fetch standard, "append a request Origin header", step 4.2.
    """
    assert ask(Headers(fine)).headers["referrer-policy"] == "same-origin"


def test_no_page_runs_what_stands_in_its_text():
    """Neither inline script nor style nor eval, no other site, no frame, no plug-in.

    Source: OWASP Content Security Policy Cheat Sheet, "Strict CSP".
    """
    policy = directives(PAGE_POLICY)
    assert policy["default-src"] == ["'none'"]
    assert policy["frame-ancestors"] == policy["base-uri"] == ["'none'"]
    allowed = {source for sources in policy.values() for source in sources}
    assert allowed == {"'none'", "'self'", "data:", "blob:"}
    assert "data:" not in policy["script-src"]


def test_a_page_on_its_own_is_cut_off():
    """A page that carries its style runs no script and reaches nothing."""
    policy = directives(SELF_CONTAINED_POLICY)
    assert policy["default-src"] == ["'none'"]
    assert policy["sandbox"] == []
    assert not policy.keys() & {"script-src", "connect-src"}


def test_an_answer_may_bring_its_own_policy_and_cache_rule():
    """What the answer brings is kept, once, and the rest is added."""
    own = {"content-security-policy": SELF_CONTAINED_POLICY, "cache-control": "public, max-age=60"}
    answer = ask(Headers(PlainTextResponse("a chart", headers=own)))
    names = [name for name, _ in answer.messages[0]["headers"]]
    assert answer.headers["content-security-policy"] == SELF_CONTAINED_POLICY
    assert answer.headers["cache-control"] == "public, max-age=60"
    assert len(names) == len(set(names))
    assert answer.headers["x-content-type-options"] == "nosniff"


def test_what_is_no_page_passes_untouched():
    """The server's start and stop go through."""
    seen = []

    async def app(scope, receive, send):
        seen.append((scope["type"], send))

    async def nothing(message=None):
        return {}

    asyncio.run(Headers(app)({"type": "lifespan"}, nothing, nothing))
    assert seen == [("lifespan", nothing)]
