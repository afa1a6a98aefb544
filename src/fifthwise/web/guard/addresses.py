"""The addresses of this machine in the house's network, found without sending anything."""

import contextlib
import ipaddress
import socket
import struct
from collections.abc import Iterable, Iterator
from ipaddress import IPv4Address, IPv6Address

__all__ = ["LOOPBACK", "listening", "local_addresses", "local_names", "url_of"]

LOOPBACK = ("localhost", "127.0.0.1", "::1")
# Addresses kept for documentation (RFC 5737, RFC 3849): a socket is pointed at them and sends nothing; the
# system only says which of our own addresses it would send from.
FAR_AWAY = ((socket.AF_INET, "192.0.2.1"), (socket.AF_INET6, "2001:db8::1"))
# Linux, <linux/sockios.h>: the address of a network interface.
SIOCGIFADDR = 0x8915
DEFAULT_PORTS = {"http": 80, "https": 443}


def local_addresses() -> tuple[str, ...]:
    """Where others in the network reach this machine: the shorter kind of address first, then the likelier.

    Loopback addresses, and those that only hold together with an interface's name, are left out.
    """
    found = filter(_can_be_told, dict.fromkeys((*_routed(), *_of_interfaces(), *_of_name())))
    return tuple(map(str, sorted(found, key=lambda address: address.version)))


def local_names() -> tuple[str, ...]:
    """The names under which others may find this machine: its own, and its own in ``.local`` (RFC 6762)."""
    name = socket.gethostname().lower().removesuffix(".").partition(".")[0]
    fit = name.isascii() and name.replace("-", "").isalnum() and name != "localhost"
    return (name, f"{name}.local") if fit else ()


def listening(addresses: Iterable[str], port: int) -> tuple[socket.socket, ...]:
    """Sockets on just these addresses, for ``uvicorn.Server.serve(sockets=…)``; whoever asks closes them.

    Not to all of a machine's addresses: it may stand in networks that nobody means to share with.

    Raises
    ------
    OSError
        The port is taken, or an address is gone; no socket stays open then.
    """
    with contextlib.ExitStack() as opened:
        sockets = tuple(opened.enter_context(_bound(address, port)) for address in addresses)
        opened.pop_all()
    return sockets


def _bound(address: str, port: int) -> socket.socket:
    family = socket.AF_INET6 if ":" in address else socket.AF_INET
    made = socket.create_server((address, port), family=family)
    # asyncio sends an answer's parts at once only where the socket says that it speaks TCP; else the second
    # part waits for the first one's acknowledgement, some 40 ms.
    return socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP, made.detach())


def url_of(host: str, port: int, *, secure: bool) -> str:
    """The address to type into a browser."""
    scheme = "https" if secure else "http"
    place = f"[{host}]" if ":" in host else host
    return f"{scheme}://{place}/" if port == DEFAULT_PORTS[scheme] else f"{scheme}://{place}:{port}/"


def _can_be_told(address: IPv4Address | IPv6Address) -> bool:
    return not (
        address.is_loopback or address.is_link_local or address.is_multicast or address.is_unspecified
    )


def _routed() -> Iterator[IPv4Address | IPv6Address]:
    """The address of the way out, one a family."""
    for family, target in FAR_AWAY:
        with contextlib.suppress(OSError), socket.socket(family, socket.SOCK_DGRAM) as probe:
            probe.connect((target, 9))
            yield ipaddress.ip_address(probe.getsockname()[0].partition("%")[0])


def _of_interfaces() -> Iterator[IPv4Address]:
    """The first IPv4 address of each interface; on Linux alone, where the standard library can ask."""
    try:
        import fcntl
    except ImportError:
        return
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        for _, name in socket.if_nameindex():
            with contextlib.suppress(OSError):
                asked = struct.pack("256s", name.encode()[:15])
                answer = fcntl.ioctl(probe.fileno(), SIOCGIFADDR, asked)
                yield IPv4Address(answer[20:24])


def _of_name() -> Iterator[IPv4Address | IPv6Address]:
    """What the machine's own name stands for, by its own tables or the network's."""
    with contextlib.suppress(OSError):
        for *_, place in socket.getaddrinfo(socket.gethostname(), None):
            with contextlib.suppress(ValueError):
                yield ipaddress.ip_address(str(place[0]).partition("%")[0])
