"""The workbench's servers: one for this computer alone, and one for the house where it is shared."""

import asyncio
import gc
import signal
import socket
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress

import uvicorn
from starlette.types import ASGIApp

from fifthwise.errors import FifthwiseError
from fifthwise.web.guard import LOOPBACK, listening, server_options, url_of
from fifthwise.web.sharing import Sharing

__all__ = ["PortTaken", "serve"]

WASTE = 100_000  # objects made before they are looked through for waste


class PortTaken(FifthwiseError):
    """A port on which somebody else listens."""


def serve(app: ASGIApp, port: int, sharing: Sharing | None = None, *, on_open: Callable[[str], None]) -> None:
    """Serve until Ctrl+C or a signal ends it.

    Parameters
    ----------
    app : ASGI application
        Behind its guard.
    port : int
        On this computer; 0 takes a free one.
    sharing : Sharing or None
        Where others come in.
    on_open : callable
        Called with this computer's address once it is listened on.

    Raises
    ------
    PortTaken
        Somebody else listens there.
    """
    here = _listen(port)
    servers = [(uvicorn.Server(uvicorn.Config(app, **server_options())), [here])]
    if sharing is not None:
        shared = uvicorn.Server(uvicorn.Config(app, **server_options(sharing.certificates)))
        servers.append((shared, _listen_to_others(sharing)))
    # What stands by now stays to the end; looking through it for waste would hold answers up, and so does
    # looking often: one answer makes some ten thousand objects, nearly none of them in circles.
    gc.freeze()
    gc.set_threshold(WASTE)
    with _ended_by_signals(), suppress(KeyboardInterrupt):
        on_open(url_of(LOOPBACK[0], here.getsockname()[1], secure=False))
        asyncio.run(_run(servers))


@contextmanager
def _ended_by_signals() -> Iterator[None]:
    """Let a stopped service and a closed terminal end like Ctrl+C: the book is closed, its log folded in."""
    if threading.current_thread() is not threading.main_thread():
        yield
        return

    def end(_signal: int, _frame: object) -> None:
        raise KeyboardInterrupt

    def pass_on(_signal: int, _frame: object) -> None:
        signal.raise_signal(signal.SIGTERM)  # which the servers heed

    ways = {signal.SIGTERM: end} | ({signal.SIGHUP: pass_on} if hasattr(signal, "SIGHUP") else {})
    before = {number: signal.signal(number, way) for number, way in ways.items()}
    try:
        yield
    finally:
        for number, way in before.items():
            signal.signal(number, way)


async def _run(servers: list[tuple[uvicorn.Server, list[socket.socket]]]) -> None:
    await asyncio.gather(*(server.serve(sockets=sockets) for server, sockets in servers))


def _listen(port: int) -> socket.socket:
    try:
        return next(iter(listening(("127.0.0.1",), port)))
    except OSError as error:
        raise _taken(port) from error


def _listen_to_others(sharing: Sharing) -> list[socket.socket]:
    try:
        return list(listening(sharing.hosts, sharing.port))
    except OSError as error:
        raise _taken(sharing.port) from error


def _taken(port: int) -> PortTaken:
    return PortTaken(
        f"port {port} is taken",
        "serve",
        "Perhaps the workbench is open already; else name another with --port",
    )
