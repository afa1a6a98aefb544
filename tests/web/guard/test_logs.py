"""Logs without private text, and faults without traces."""

import json
import logging
import logging.config
import re

import pytest
from starlette.applications import Starlette
from starlette.requests import Request
from starlette.responses import PlainTextResponse, StreamingResponse
from starlette.routing import Mount, Route

from fifthwise.web.guard import LOG_CONFIG, Logs, reference_of
from tests.web.guard.asking import ask

SECRET = "Secret-Title"


async def show(request: Request) -> PlainTextResponse:
    """A page."""
    return PlainTextResponse(reference_of(request.scope))


async def fail(request: Request) -> PlainTextResponse:
    """A page with a fault that quotes what it was given."""
    raise ValueError(f"no such song: {SECRET}")


async def fail_late(request: Request) -> StreamingResponse:
    """A page whose fault comes after its beginning."""

    async def parts():
        yield "begun"
        raise ValueError(SECRET)

    return StreamingResponse(parts())


APP = Starlette(
    routes=[
        Route("/songs/{title}", show),
        Route("/fail/{title}", fail),
        Route("/late/{title}", fail_late),
        Mount("/below", routes=[Route("/{title}", show)]),
    ]
)


@pytest.fixture
def logged(caplog):
    """What is logged, at its finest."""
    with caplog.at_level(logging.DEBUG):
        yield lambda: "\n".join(
            record.getMessage() + str(record.exc_info or "")
            for record in caplog.records
            if record.name != "asyncio"
        )


@pytest.mark.parametrize("start", ["/songs/", "/fail/", "/late/", "/below/", "/nowhere/", f"/{SECRET}/"])
def test_nothing_that_was_asked_is_logged(logged, start):
    """Neither path nor query, cookie, header nor a fault's words."""
    secret = [("cookie", SECRET), ("referer", SECRET), ("user-agent", SECRET), ("x-a", f"\n{SECRET}")]
    ask(Logs(APP), path=start + SECRET, headers=secret, query=SECRET.encode())
    assert logged()
    assert SECRET not in logged()


@pytest.mark.parametrize(
    ("method", "path", "line"),
    [
        ("GET", "/songs/7", r"GET /songs/\{title\} 200 \d+ ms"),
        ("DELETE", "/songs/7", r"DELETE /songs/\{title\} 405 \d+ ms"),
        ("SECRET\nINFO", "/songs/7", r"OTHER /songs/\{title\} 405 \d+ ms"),
        ("GET", "/nowhere", r"GET - 404 \d+ ms"),
    ],
)
def test_a_line_says_method_route_status_and_time(logged, method, path, line):
    """And nothing else; a method that is none cannot write a line of its own."""
    ask(Logs(APP), method, path)
    assert re.fullmatch(line, logged())


@pytest.mark.parametrize("app", [APP, Starlette(routes=[Route("/fail/{title}", fail)], debug=False)])
def test_a_fault_is_found_by_its_reference(logged, app):
    """The page shows the reference and no more; the log has the class and the places under it."""

    async def bare(scope, receive, send):
        raise ValueError(SECRET)

    answer = ask(Logs(bare))
    reference = re.search(r"reference ([0-9a-f]{8})\.", answer.text)[1]
    assert answer.status == 500
    assert not re.search(r"ValueError|Traceback|\.py|Secret", answer.text)
    assert re.search(rf"reference {reference}: ValueError at \S*test_logs\.py:\d+ bare", logged())


def test_a_fault_that_the_framework_answered_is_logged_too(logged):
    """And goes no further: the server would log its words."""
    assert ask(Logs(APP), path="/fail/7").status == 500
    assert re.search(r"reference [0-9a-f]{8}: ValueError at \S*test_logs\.py:\d+ fail", logged())
    assert "GET /fail/{title} 500" in logged()


def test_each_request_has_its_own_reference():
    """Two requests never share one."""
    references = {ask(Logs(APP), path="/songs/7").text for _ in range(50)}
    assert len(references) == 50


def test_the_servers_own_lines_are_off():
    """Uvicorn's access log holds paths and queries, and its log of sockets does."""
    try:
        logging.config.dictConfig(json.loads(json.dumps(LOG_CONFIG)))
        assert not logging.getLogger("uvicorn.access").isEnabledFor(logging.ERROR)
        assert not logging.getLogger("uvicorn.error").isEnabledFor(logging.INFO)
        assert logging.getLogger("uvicorn.error").isEnabledFor(logging.ERROR)
    finally:
        for name in LOG_CONFIG["loggers"]:
            logger = logging.getLogger(name)
            logger.handlers, logger.propagate, logger.level = [], True, logging.NOTSET
            logger.manager._clear_cache()
