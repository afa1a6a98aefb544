"""Who is asking, and how they come in."""

import asyncio

import pytest
from argon2 import PasswordHasher

from fifthwise.web.guard import Password, People, Visitor
from fifthwise.web.guard.people import CODE_ALL, CODE_EACH, PASSWORD_EACH
from tests.web.guard.clock import Clock

QUICK = PasswordHasher(time_cost=1, memory_cost=64, parallelism=1)
WORDS = "bow and rosin"
PASSWORD = Password(QUICK.hash(WORDS), QUICK)


def scope(client, host, cookie=None, *headers, scheme="http"):
    """A request as far as the person behind it goes."""
    cookies = [(b"cookie", f"fifthwise={cookie}".encode())] if cookie else []
    return {
        "type": "http",
        "scheme": scheme,
        "client": client and (client, 50000),
        "headers": [(b"host", host.encode()), *cookies, *headers],
    }


def from_afar(cookie=None, address="192.168.1.77"):
    """A request from another machine in the house."""
    return scope(address, "192.168.1.20:5151", cookie)


@pytest.fixture
def clock():
    """A clock that goes when it is told to."""
    return Clock()


@pytest.fixture
def people(tmp_path, clock):
    """A workbench that is shared."""
    return People(tmp_path, PASSWORD, "ABC234", wall_clock=clock, clock=clock)


@pytest.mark.parametrize(
    ("client", "host"), [("127.0.0.1", "localhost:5151"), ("::1", "[::1]:5151"), ("127.0.0.2", "127.0.0.1")]
)
def test_at_this_machine_one_is_the_owner(people, client, host):
    """A loopback connection to a loopback name needs no password, shared or not."""
    assert people.visitor(scope(client, host)) is Visitor.OWNER


@pytest.mark.parametrize(
    ("client", "host"),
    [
        ("192.168.1.77", "localhost:5151"),
        ("127.0.0.1", "192.168.1.20:5151"),
        ("127.0.0.1", "stage.local"),
        ("127.0.0.1", "localhost.rebound.example"),
        (None, "localhost"),
        ("unix", "localhost"),
    ],
)
def test_from_elsewhere_one_is_a_stranger(people, client, host):
    """Either end elsewhere, or unknown, is not this machine."""
    assert people.visitor(scope(client, host)) is Visitor.STRANGER


@pytest.mark.parametrize(
    "name", [b"x-forwarded-for", b"forwarded", b"via", b"x-real-ip", b"x-forwarded-host"]
)
def test_what_another_program_passes_on_is_not_the_owners(people, name):
    """A proxy or tunnel on this machine connects from loopback for somebody who is not here."""
    passed_on = scope("127.0.0.1", "localhost", None, (name, b"203.0.113.9"))
    assert people.visitor(passed_on) is Visitor.STRANGER


def test_a_header_makes_nobody_the_owner(people):
    """X-Forwarded-For from afar is not believed."""
    claimed = (b"x-forwarded-for", b"127.0.0.1")
    assert people.visitor(scope("192.168.1.77", "localhost", None, claimed)) is Visitor.STRANGER


def test_the_code_lets_in_a_guest(people):
    """And only the code does."""
    assert people.join(from_afar(), "ABC235").cookie is None
    cookie = people.join(from_afar(), "abc 234").cookie
    assert people.visitor(from_afar(cookie)) is Visitor.GUEST


def test_the_password_lets_in_a_leader(people):
    """And only the password does; each entry has a session of its own."""
    assert asyncio.run(people.lead(from_afar(), "bow and resin")).cookie is None
    assert asyncio.run(people.lead(from_afar(), "ABC234")).cookie is None
    first = asyncio.run(people.lead(from_afar(), WORDS)).cookie
    second = asyncio.run(people.lead(from_afar(), WORDS)).cookie
    assert people.visitor(from_afar(first)) is Visitor.LEADER
    assert first != second


def test_the_code_cannot_be_found_by_trying(people, clock):
    """One address tries ten at once and four a minute after; even the right one is not looked at then."""
    tried = [people.join(from_afar(), f"AAAA{n // 10}{n % 10}") for n in range(2, 102)]
    assert sum(entry.wait_s == 0 for entry in tried) == CODE_EACH
    refused = people.join(from_afar(), "ABC234")
    assert refused.cookie is None
    assert 0 < refused.wait_s <= 15
    clock.wait(refused.wait_s)
    assert people.join(from_afar(), "ABC234").cookie


def test_many_addresses_do_not_find_the_code_either(people):
    """All together are limited: twelve hours of trying find one of 2**30 codes less than once in 20,000."""
    tried = [people.join(from_afar(None, f"10.0.{n // 250}.{n % 250}"), "AAAAAA") for n in range(2000)]
    assert sum(entry.wait_s == 0 for entry in tried) == CODE_ALL
    assert (CODE_ALL + 12 * 60 * 60) / 32**6 < 1 / 20_000


def test_passwords_cannot_be_tried_without_end(tmp_path, clock):
    """The rate is limited before the costly check."""
    looked_at = []

    class Counting(Password):
        async def fits(self, text):
            """Note that it was asked."""
            looked_at.append(text)
            return False

    people = People(tmp_path, Counting("$argon2id$"), wall_clock=clock, clock=clock)

    async def tries():
        return [await people.lead(from_afar(), str(n)) for n in range(100)]

    waits = [entry.wait_s for entry in asyncio.run(tries())]
    assert len(looked_at) == waits.count(0) == PASSWORD_EACH


def test_a_new_start_has_a_new_code_and_ends_the_guests(people, tmp_path, clock):
    """A guest of yesterday is a stranger; a leader goes on."""
    guest = people.join(from_afar(), "ABC234").cookie
    leader = asyncio.run(people.lead(from_afar(), WORDS)).cookie
    again = People(tmp_path, PASSWORD, wall_clock=clock, clock=clock)
    assert again.code != people.code
    assert again.visitor(from_afar(guest)) is Visitor.STRANGER
    assert again.visitor(from_afar(leader)) is Visitor.LEADER


def test_a_new_password_ends_the_leaders(people, tmp_path, clock):
    """A leader under the old one is a stranger."""
    leader = asyncio.run(people.lead(from_afar(), WORDS)).cookie
    changed = People(tmp_path, Password(QUICK.hash("strings and pegs"), QUICK), wall_clock=clock, clock=clock)
    assert changed.visitor(from_afar(leader)) is Visitor.STRANGER


def test_a_guest_does_not_become_a_leader_by_the_cookies_words(people):
    """A session of a kind that there is not is nobody's, signed or not."""
    cookie = people.sessions.begin("owner", "")
    assert people.visitor(from_afar(cookie)) is Visitor.STRANGER
