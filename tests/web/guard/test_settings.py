"""The whole guard, attacked from outside."""

import asyncio

import pytest
from argon2 import PasswordHasher
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse
from starlette.routing import Mount, Route
from starlette.staticfiles import StaticFiles

from fifthwise.web.guard import (
    PAGE_POLICY,
    BodyLimit,
    GuardSettings,
    Password,
    People,
    Refusal,
    Rules,
    apply_guard,
)
from tests.web.guard.asking import LAN, THERE, ask

QUICK = PasswordHasher(time_cost=1, memory_cost=64, parallelism=1)
PASSWORD = Password(QUICK.hash("bow and rosin"), QUICK)
OURS = ("origin", "http://localhost:5151")
OURS_THERE = ("origin", f"http://{LAN}")
SECRET = "a private file"


@pytest.fixture
def reached():
    """What reached a page that changes things."""
    return []


@pytest.fixture
def app(tmp_path, reached):
    """A small workbench: pages, a form, and static files beside a private one."""
    (tmp_path / "static").mkdir()
    (tmp_path / "static" / "bench.css").write_text("p { color: red }")
    (tmp_path / "private.txt").write_text(SECRET)

    async def page(request: Request) -> PlainTextResponse:
        return PlainTextResponse(f"a page for the {request.state.visitor.value}")

    async def change(request: Request) -> PlainTextResponse:
        reached.append(request.method)
        return PlainTextResponse(str(len(await request.body())))

    unsafe = ["POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE"]
    return Starlette(
        routes=[
            Route("/songs/{id}", page),
            Route("/songs/{id}", change, methods=unsafe),
            Route("/import", change, methods=["POST"]),
            Route("/join", change, methods=["POST"]),
            Mount("/static", StaticFiles(directory=tmp_path / "static")),
        ]
    )


@pytest.fixture
def alone(app):
    """The workbench on its owner's machine."""
    return apply_guard(app, GuardSettings(limits=(BodyLimit("/import", 64_000_000),)))


@pytest.fixture
def people(tmp_path):
    """Those who come in from other machines."""
    return People(tmp_path / "kept", PASSWORD, "ABC234")


@pytest.fixture
def shared(app, people):
    """The workbench shared in the house."""
    hosts = ("localhost", "127.0.0.1", "::1", "192.168.1.20")
    return apply_guard(app, GuardSettings(hosts=hosts, people=people, rules=Rules(leaders=("/songs/9",))))


def cookie_for(people, kind):
    """The header of somebody who came in."""
    under = {"guest": people.code, "leader": people.password.kept}[kind]
    return ("cookie", f"fifthwise={people.sessions.begin(kind, under)}")


def test_the_owner_works(alone):
    """Reads, changes, and imports sixty-four megabytes."""
    assert ask(alone, path="/songs/7").text == "a page for the owner"
    assert ask(alone, "POST", "/songs/7", [OURS], body=[b"x" * 9]).text == "9"
    assert ask(alone, "POST", "/import", [OURS], body=[b"x" * 1_000_000] * 64).text == "64000000"


def test_a_rebinding_page_reads_nothing(alone):
    """Its own name in the Host header gives it away, though it comes from this machine and is same-origin."""
    headers = [("origin", "http://rebound.example:5151"), ("sec-fetch-site", "same-origin")]
    for method in ("GET", "POST"):
        answer = ask(alone, method, "/songs/7", headers, host="rebound.example:5151")
        assert (answer.status, "a page" in answer.text) == (400, False)


def test_a_foreign_page_changes_nothing(alone, reached):
    """A cross-site form, and a script that hides its origin, do not reach the page."""
    for origin in ("http://elsewhere.example", "null", "http://localhost:3000"):
        headers = [("origin", origin), ("sec-fetch-site", "cross-site")]
        assert ask(alone, "POST", "/songs/7", headers).status == 403
    assert ask(alone, "POST", "/songs/7").status == 403
    assert reached == []


def test_a_foreign_page_changes_nothing_with_a_leaders_cookie(shared, people, reached):
    """The cookie alone does not do it."""
    headers = [("origin", "http://elsewhere.example"), cookie_for(people, "leader")]
    assert ask(shared, "POST", "/songs/7", headers, client=THERE, host=LAN).status == 403
    assert reached == []


@pytest.mark.parametrize("method", ["POST", "PUT", "PATCH", "DELETE", "OPTIONS", "TRACE", "PURGE"])
@pytest.mark.parametrize("kind", ["guest", None])
def test_guests_and_strangers_change_nothing(shared, people, reached, method, kind):
    """Every unsafe method is refused before the page, with what to do instead."""
    headers = [OURS_THERE, *([cookie_for(people, kind)] if kind else [])]
    answer = ask(shared, method, "/songs/7", headers, client=THERE, host=LAN)
    assert answer.status == (403 if kind else 401)
    assert ("/leader" if kind else "/join") in answer.text
    assert reached == []


def test_a_method_in_a_header_is_not_taken(shared, people, reached):
    """A guest's GET stays a GET."""
    headers = [cookie_for(people, "guest"), ("x-http-method-override", "DELETE"), OURS_THERE]
    answer = ask(shared, "GET", "/songs/7", headers, query=b"_method=DELETE", client=THERE, host=LAN)
    assert (answer.text, reached) == ("a page for the guest", [])


def test_each_visitor_sees_what_is_theirs(shared, people):
    """The owner here, a leader and a guest there; a stranger is sent to the code."""
    there = {"client": THERE, "host": LAN}
    assert ask(shared, path="/songs/9").text == "a page for the owner"
    leader, guest = [cookie_for(people, "leader")], [cookie_for(people, "guest")]
    assert ask(shared, path="/songs/9", headers=leader, **there).text == "a page for the leader"
    assert ask(shared, path="/songs/7", headers=guest, **there).text == "a page for the guest"
    assert ask(shared, path="/songs/9", headers=guest, **there).status == 403
    stranger = ask(shared, path="/songs/7", **there)
    assert (stranger.status, stranger.headers["location"]) == (303, "/join")
    fragment = ask(shared, path="/songs/7", headers=[("hx-request", "true")], **there)
    assert (fragment.status, fragment.headers["hx-redirect"]) == (401, "/join")
    assert ask(shared, "POST", "/songs/7", [*leader, OURS_THERE], **there).status == 200


def test_a_cookie_that_was_left_is_worth_nothing(shared, people):
    """Replayed after leaving, it is a stranger's."""
    name, value = cookie_for(people, "guest")
    people.sessions.leave(value.partition("=")[2])
    assert ask(shared, path="/songs/7", headers=[(name, value)], client=THERE, host=LAN).status == 303


def test_a_stranger_cannot_send_much(shared, reached):
    """The doors are bounded like every page, and other pages refuse before the body is looked at."""
    long = [b"x" * 500_000] * 5
    there = {"client": THERE, "host": LAN, "headers": [OURS_THERE], "body": long}
    assert ask(shared, "POST", "/join", **there).status == 413
    reached.clear()
    assert ask(shared, "POST", "/import", **there).status == 401
    assert reached == []


@pytest.mark.parametrize(
    "path",
    [
        "/static/../private.txt",
        "/static/../../private.txt",
        "/static/./../private.txt",
        "/static/..\\private.txt",
        "/static/..\\..\\private.txt",
        "/static//private.txt",
        "/static/%2e%2e/private.txt",
        "/static/..%2fprivate.txt",
        "/static/bench.css\0",
        "/static/\0/../private.txt",
        "/static/bench.css\r\nx: y",
        "/static/....//private.txt",
        "/static/..;/private.txt",
        "/static/\u2025/private.txt",
        "/static/" + "a/" * 2000,
        "/static/{tmp}/private.txt",
        "/static",
        "/static/",
    ],
)
@pytest.mark.parametrize("kind", ["alone", "shared"])
def test_no_path_leads_out_of_the_static_files(request, tmp_path, path, kind):
    """Dot segments, decoded or not, backslashes, NUL, absolute paths: nothing but what is served.

    Source: OWASP Path Traversal.
    """
    app = request.getfixturevalue(kind)
    there = {"client": THERE, "host": LAN} if kind == "shared" else {}
    answer = ask(app, path=path.replace("{tmp}", str(tmp_path)), **there)
    assert answer.status in (303, 307, 400, 404)
    assert SECRET not in answer.text
    assert ask(app, path="/static/bench.css", **there).text == "p { color: red }"


def test_refusals_carry_the_headers_too(alone):
    """Also what the application never sees is told to the browser in full."""
    answers = (ask(alone, host="rebound.example"), ask(alone, path="/a\\b"), ask(alone, "POST"))
    assert [answer.status for answer in answers] == [400, 400, 403]
    for answer in answers:
        assert answer.headers["content-security-policy"] == PAGE_POLICY
        assert answer.headers["cache-control"] == "no-store"


def test_a_refusal_repeats_nothing_of_the_request(alone):
    """Neither host, path, query nor origin can be made to speak."""
    evil = "<script>alert(1)</script>"
    answers = (
        ask(alone, host=evil),
        ask(alone, path=f"/\\{evil}", query=evil.encode()),
        ask(alone, "POST", headers=[("origin", evil)]),
    )
    assert all(answer.status >= 400 and "alert" not in answer.text for answer in answers)


def test_a_refusals_page_may_be_dressed(app):
    """The workbench may put its own frame round the words."""

    def dressed(refusal: Refusal) -> str:
        return f"our frame: {refusal.status} {refusal.title}"

    answer = ask(apply_guard(app, GuardSettings(page=dressed)), host="rebound.example")
    assert answer.text == "our frame: 400 This address is not one of ours"


def test_a_head_is_answered_without_a_body(alone):
    """RFC 9110, 9.3.2."""
    assert ask(alone, "HEAD", host="rebound.example").text == ""


def test_start_and_stop_pass_through(app):
    """What an application does when the server starts is done."""
    started = []

    async def inner(scope, receive, send):
        started.append(scope["type"])

    async def nothing(message=None):
        return {}

    asyncio.run(apply_guard(inner, GuardSettings())({"type": "lifespan"}, nothing, nothing))
    assert started == ["lifespan"]
