"""Addresses to tell people."""

import asyncio
import ipaddress
import socket

import pytest

from fifthwise.web.guard import addresses, listening, local_addresses, local_names, url_of


def test_addresses_are_this_machines_and_can_be_told():
    """Each can be listened on here, and none is loopback or bound to an interface's name."""
    for found in local_addresses():
        address = ipaddress.ip_address(found)
        assert not address.is_loopback
        assert not address.is_link_local
        family = socket.AF_INET6 if address.version == 6 else socket.AF_INET
        with socket.socket(family) as probe:
            probe.bind((found, 0))


def test_every_way_is_asked_and_each_address_told_once(monkeypatch):
    """What is short to type and on the way out comes first; what cannot be told is left out."""
    ways = {
        "_routed": ["192.168.1.20", "fd00::20"],
        "_of_interfaces": ["127.0.0.1", "10.0.0.5", "192.168.1.20"],
        "_of_name": ["127.0.1.1", "fe80::1", "0.0.0.0", "::1", "224.0.0.251"],
    }
    for way, found in ways.items():
        monkeypatch.setattr(addresses, way, lambda found=found: map(ipaddress.ip_address, found))
    assert local_addresses() == ("192.168.1.20", "10.0.0.5", "fd00::20")


def test_only_the_given_addresses_are_listened_on():
    """Another address of the machine, at the same port, is not answered."""
    (one,) = listening(("127.0.0.1",), 0)
    with one:
        port = one.getsockname()[1]
        socket.create_connection(("127.0.0.1", port), 5).close()
        with pytest.raises(ConnectionRefusedError):
            socket.create_connection(("127.0.0.2", port), 5)


def test_an_answer_is_sent_at_once():
    """An answer's head does not hold up its body: asyncio sets TCP_NODELAY there (RFC 896)."""

    async def accepted():
        (one,) = listening(("127.0.0.1",), 0)
        told = asyncio.get_running_loop().create_future()
        server = await asyncio.start_server(lambda _, writer: told.set_result(writer), sock=one)
        async with server:
            _, ours = await asyncio.open_connection(*one.getsockname())
            theirs = await told
            found = theirs.get_extra_info("socket").getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY)
            for writer in (ours, theirs):
                writer.close()
                await writer.wait_closed()
            return found

    assert asyncio.run(accepted())


def test_where_one_address_cannot_be_had_no_socket_stays_open():
    """The first is given back, and can be had again."""
    (taken,) = listening(("127.0.0.3",), 0)
    with taken:
        port = taken.getsockname()[1]
        with pytest.raises(OSError, match="in use"):
            listening(("127.0.0.2", "127.0.0.3"), port)
        (again,) = listening(("127.0.0.2",), port)
        again.close()


def test_without_a_network_there_is_none(monkeypatch):
    """A machine on its own has nothing to tell, and no fault."""

    class Off(socket.socket):
        def connect(self, place):
            """There is no way out."""
            raise OSError(101, "Network is unreachable")

    def unknown(*_):
        raise socket.gaierror(-2, "Name or service not known")

    monkeypatch.setattr(socket, "socket", Off)
    monkeypatch.setattr(socket, "if_nameindex", list)
    monkeypatch.setattr(socket, "getaddrinfo", unknown)
    assert local_addresses() == ()


@pytest.mark.parametrize(
    ("name", "names"),
    [
        ("Stage-Laptop", ("stage-laptop", "stage-laptop.local")),
        ("stage-laptop.lan", ("stage-laptop", "stage-laptop.local")),
        ("localhost", ()),
        ("", ()),
        ("büro", ()),
        ("a b", ()),
    ],
)
def test_names_are_fit_for_a_browser(monkeypatch, name, names):
    """The machine's own, and in ``.local``."""
    monkeypatch.setattr(socket, "gethostname", lambda: name)
    assert local_names() == names


def test_addresses_are_written_as_they_are_typed():
    """The usual port goes without saying, an IPv6 address stands in brackets."""
    assert url_of("192.168.1.20", 5151, secure=True) == "https://192.168.1.20:5151/"
    assert url_of("192.168.1.20", 443, secure=True) == "https://192.168.1.20/"
    assert url_of("fd00::20", 80, secure=False) == "http://[fd00::20]/"
