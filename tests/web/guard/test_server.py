"""The server itself, with our options, on a loopback socket."""

import asyncio
import contextlib
import datetime
import logging
import ssl

import pytest
import uvicorn

from fifthwise.web.guard import LOG_CONFIG, GuardSettings, apply_guard, certificates, server_options
from fifthwise.web.guard.server import LONGEST_HEAD
from tests.web.guard.asking import fine


@pytest.fixture(autouse=True)
def loggers():
    """The server sets loggers; they are put back."""
    yield
    for name in (*LOG_CONFIG["loggers"], "uvicorn.error"):
        logger = logging.getLogger(name)
        logger.handlers, logger.propagate, logger.level = [], True, logging.NOTSET
        logger.manager._clear_cache()


async def talk(app, request, context=None, **options):
    """Start the server, send bytes, and give back all that comes until it closes."""
    config = uvicorn.Config(app, host="127.0.0.1", port=0, lifespan="off", **(server_options() | options))
    server = uvicorn.Server(config)
    server.config.load()
    server.lifespan = config.lifespan_class(config)
    await server.startup()
    # Where the headers of every answer are set; running, the server does so each second.
    await server.on_tick(0)
    try:
        port = server.servers[0].sockets[0].getsockname()[1]
        reader, writer = await asyncio.open_connection(
            "127.0.0.1", port, ssl=context, server_hostname="127.0.0.1" if context else None
        )
        with contextlib.suppress(ConnectionError):
            writer.write(request)
            await writer.drain()
            return (await asyncio.wait_for(reader.read(), 10)).decode("latin-1")
        return ""
    finally:
        writer.close()
        await server.shutdown()


def request(head="", target="/"):
    """A request that asks for the connection to be closed after it."""
    return f"GET {target} HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n{head}\r\n".encode()


def test_a_page_is_served_and_does_not_say_by_what():
    """The server's name and version are nobody's business."""
    said = asyncio.run(talk(apply_guard(fine, GuardSettings()), request()))
    assert said.startswith("HTTP/1.1 200")
    assert "fine" in said
    assert "uvicorn" not in said.lower()


@pytest.mark.parametrize(
    "long",
    [request(target="/?" + "q" * 64 * LONGEST_HEAD), request(head=f"X-A: {'a' * 64 * LONGEST_HEAD}\r\n")],
)
def test_a_head_without_end_is_refused(long):
    """A megabyte is not waited for, and the application sees none of it."""
    seen = []

    async def app(scope, receive, send):
        seen.append(scope)
        await fine(scope, receive, send)

    said = asyncio.run(talk(app, long))
    assert said == "" or said.startswith("HTTP/1.1 400")
    assert seen == []


@pytest.mark.parametrize(
    "head",
    ["X-A: a\0b\r\n", "Content-Length: 1\r\nContent-Length: 2\r\n", "X A: b\r\n", "Host: other\r\n"],
)
def test_a_malformed_head_is_refused(head):
    """RFC 9112, 3.2, 5.2 and 6.3."""
    assert asyncio.run(talk(fine, request(head))).startswith("HTTP/1.1 400")


def test_a_forwarded_address_is_not_believed():
    """Even from loopback the connection's own address and scheme hold."""
    seen = []

    async def app(scope, receive, send):
        seen.append((scope["client"][0], scope["scheme"]))
        await fine(scope, receive, send)

    asyncio.run(talk(app, request("X-Forwarded-For: 203.0.113.9\r\nX-Forwarded-Proto: https\r\n")))
    assert seen == [("127.0.0.1", "http")]


def test_it_speaks_https_to_those_who_trust_the_authority(tmp_path):
    """The certificate's one file is all that the server needs."""
    made = certificates(tmp_path, ("127.0.0.1",), datetime.datetime.now(datetime.UTC))
    context = ssl.create_default_context(cadata=made.authority.decode())
    seen = []

    async def app(scope, receive, send):
        seen.append(scope["scheme"])
        await fine(scope, receive, send)

    said = asyncio.run(talk(app, request(), context, **server_options(made)))
    assert "fine" in said
    assert seen == ["https"]


def test_a_refused_body_closes_the_connection():
    """What is still to come of it is not read."""
    head = b"Host: localhost\r\nSec-Fetch-Site: same-origin\r\nContent-Length: 9000000\r\n"
    post = b"POST / HTTP/1.1\r\n" + head + b"\r\nx"
    said = asyncio.run(talk(apply_guard(fine, GuardSettings()), post))
    assert said.startswith("HTTP/1.1 413")
    assert "connection: close" in said.lower()
