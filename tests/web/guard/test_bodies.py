"""Bodies are bounded in length and time."""

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse
from starlette.routing import Route

from fifthwise.web.guard import BodyLimit, BodyLimits
from fifthwise.web.guard.bodies import DEFAULT_LIMIT, GRACE_S, SLOWEST_BYTES
from tests.web.guard.asking import ask

PART = b"x" * 500_000
LIMITS = (BodyLimit("/songs/{id}/takes", 3 * DEFAULT_LIMIT), BodyLimit("/join", 1000))


async def length(request: Request) -> PlainTextResponse:
    """Say how much came."""
    return PlainTextResponse(str(len(await request.body())))


async def fields(request: Request) -> PlainTextResponse:
    """Say how many fields came."""
    async with request.form() as form:
        return PlainTextResponse(str(len(form)))


def guarded(**more):
    """An application that reads bodies, behind the limits."""
    methods = ["GET", "POST"]
    routes = [Route("/form", fields, methods=methods), Route("/{path:path}", length, methods=methods)]
    return BodyLimits(Starlette(routes=routes), LIMITS, **more)


def test_a_body_up_to_the_limit_is_read():
    """Two million bytes, told or counted."""
    parts = [PART] * 4
    assert ask(guarded(), "POST", body=parts).text == str(DEFAULT_LIMIT)
    told = [("content-length", str(DEFAULT_LIMIT))]
    assert ask(guarded(), "POST", headers=told, body=parts).text == str(DEFAULT_LIMIT)


def test_a_told_length_over_the_limit_is_refused_unread():
    """RFC 9110, 15.5.14: 413, before a byte of it was taken."""
    read = []

    async def app(scope, receive, send):
        read.append(await receive())

    answer = ask(BodyLimits(app), "POST", headers=[("content-length", str(DEFAULT_LIMIT + 1))])
    assert (answer.status, read) == (413, [])
    assert "At most 2 MB" in answer.text
    assert answer.headers["connection"] == "close"


@pytest.mark.parametrize("path", ["/", "/form"])
def test_a_chunked_body_over_the_limit_is_refused_as_it_comes(path):
    """Without a length it is counted, whether the page reads it whole or as a form with a file in it."""
    head = b'--x\r\ncontent-disposition: form-data; name="a"; filename="a"\r\n\r\n'
    headers = [("transfer-encoding", "chunked"), ("content-type", "multipart/form-data; boundary=x")]
    answer = ask(guarded(), "POST", path, headers=headers, body=[head, *[PART] * 100])
    assert answer.status == 413
    assert len([m for m in answer.messages if m["type"] == "http.response.start"]) == 1


def test_a_told_length_that_is_a_lie_does_not_help():
    """What comes is counted, whatever was told."""
    assert ask(guarded(), "POST", headers=[("content-length", "10")], body=[PART] * 5).status == 413


@pytest.mark.parametrize("told", ["-1", "+1", "1e3", "1,1", " ", "0x10", "²", "1_0"])
def test_a_length_that_is_no_number_is_refused(told):
    """RFC 9110, 8.6: digits and nothing else."""
    answer = ask(guarded(), "POST", headers=[("content-length", told)])
    assert answer.status == 400


def test_two_lengths_are_refused():
    """RFC 9112, 6.3: lengths that differ are an attempt at smuggling."""
    twice = [("content-length", "1"), ("content-length", "2")]
    assert ask(guarded(), "POST", headers=twice).status == 400


def test_a_length_of_thousands_of_digits_is_too_much():
    """It is refused like any other, without being reckoned."""
    assert ask(guarded(), "POST", headers=[("content-length", "9" * 9000)]).status == 413


def test_a_route_may_take_more_or_less():
    """The table of routes decides, by their patterns."""
    parts = [PART] * 10
    assert ask(guarded(), "POST", "/songs/7/takes", body=parts).status == 200
    assert ask(guarded(), "POST", "/songs/7/takes/more", body=parts).status == 413
    assert ask(guarded(), "POST", "/join", body=[b"x" * 1001]).status == 413


def test_a_body_that_drips_is_given_up():
    """A client that sends a byte now and then holds nothing open (slow loris)."""
    answer = ask(guarded(grace_s=0.05), "POST", body=[b"x"] * 1000, pause_s=0.02)
    assert answer.status == 408
    assert "too slowly" in answer.text


def test_a_body_that_stops_is_given_up():
    """A client that sends half and then nothing is answered too."""
    answer = ask(guarded(grace_s=0.05), "POST", body=[b"x" * 9, b"y"], pause_s=30)
    assert answer.status == 408


def test_a_slow_but_steady_body_is_waited_for():
    """Each part that comes buys its time."""
    parts = [b"x" * SLOWEST_BYTES] * 5
    assert ask(guarded(grace_s=0.05), "POST", body=parts, pause_s=0.03).text == str(5 * SLOWEST_BYTES)


def test_the_patience_is_the_published_one():
    """Source: Apache mod_reqtimeout, default ``body=20,MinRate=500``."""
    assert (GRACE_S, SLOWEST_BYTES) == (20, 500)


def test_waiting_for_the_client_to_leave_is_not_timed():
    """A stream of events listens for the client's going for hours."""
    left = []

    async def app(scope, receive, send):
        await receive()
        await send({"type": "http.response.start", "status": 200, "headers": []})
        left.append((await receive())["type"])
        await send({"type": "http.response.body", "body": b"end"})

    assert ask(BodyLimits(app, grace_s=0.01), stays_s=0.1).text == "end"
    assert left == ["http.disconnect"]


def test_a_fault_of_the_page_stays_its_own():
    """Only our own refusal is turned into an answer."""

    async def app(scope, receive, send):
        raise RuntimeError("a fault")

    with pytest.raises(RuntimeError, match="a fault"):
        ask(BodyLimits(app), "POST")
