"""Attempts are limited by who makes them, and all together."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.web.guard.rate import Attempts, Buckets, client_key
from tests.web.guard.clock import Clock


def scope(address):
    """A request from an address."""
    return {"client": (address, 50000)}


@given(st.integers(1, 20), st.floats(1, 600), st.lists(st.floats(0, 30), max_size=60))
def test_no_timing_wins_more_than_the_burst_and_the_rate(burst, per_minute, pauses):
    """Whatever the pauses, no more attempts pass than the bucket held and got back."""
    clock = Clock(0.0)
    buckets = Buckets(burst, per_minute, clock)
    passed = 0
    for pause in pauses:
        clock.wait(pause)
        passed += buckets.take("a") == 0
    assert passed <= burst + clock.now_s * per_minute / 60 + 1e-6


@given(st.integers(1, 20), st.floats(1, 600))
def test_whoever_waits_as_told_may_go_on(burst, per_minute):
    """The wait that is told is long enough, and no wait is told while there are tokens."""
    clock = Clock(0.0)
    buckets = Buckets(burst, per_minute, clock)
    assert [buckets.take("a") for _ in range(burst)] == [0.0] * burst
    wait_s = buckets.take("a")
    assert 0 < wait_s <= 60 / per_minute + 1e-9
    clock.wait(wait_s + 1e-6)
    assert buckets.take("a") == 0


def test_waiting_long_saves_nothing_up():
    """A bucket never holds more than its burst."""
    clock = Clock(0.0)
    buckets = Buckets(3, 60, clock)
    buckets.take("a")
    clock.wait(3600)
    assert [buckets.take("a") for _ in range(4)] == [0, 0, 0, 1]


def test_one_address_does_not_use_up_another_ones_attempts():
    """Each has a bucket of its own."""
    buckets = Buckets(1, 1, Clock())
    assert (buckets.take("a"), buckets.take("b")) == (0, 0)
    assert buckets.take("a") > 0


def test_memory_is_bounded():
    """However many addresses ask, only so many are kept, and the last ones stay limited."""
    buckets = Buckets(1, 1, Clock(), most=50)
    for number in range(10_000):
        buckets.take(str(number))
    assert len(buckets) == 50
    assert buckets.take("9999") > 0


def test_many_addresses_together_are_limited_too():
    """A crowd of addresses tries no more than the bucket for all holds."""
    clock = Clock()
    attempts = Attempts(Buckets(5, 1, clock), Buckets(20, 1, clock))
    waits = [attempts.wait_s(scope(f"10.0.{n // 250}.{n % 250}")) for n in range(1000)]
    assert waits.count(0) == 20


@pytest.mark.parametrize(
    ("address", "key"),
    [
        ("192.168.1.7", "192.168.1.7"),
        ("2001:db8:1:2:3:4:5:6", "2001:db8:1:2::/64"),
        ("2001:db8:1:2:ffff::1", "2001:db8:1:2::/64"),
        ("fe80::1%eth0", "fe80::/64"),
        ("::ffff:192.168.1.7", "192.168.1.7"),
        ("a socket", "unknown"),
    ],
)
def test_a_device_is_known_by_what_it_cannot_choose(address, key):
    """An IPv6 device picks any address of its /64 (RFC 8981), so that counts as one."""
    assert client_key(scope(address)) == key


def test_what_a_header_says_of_the_address_is_not_read():
    """Anyone can write X-Forwarded-For."""
    asked = scope("192.168.1.7") | {"headers": [(b"x-forwarded-for", b"10.0.0.1")]}
    assert client_key(asked) == "192.168.1.7"
    assert client_key({"client": None}) == "unknown"
