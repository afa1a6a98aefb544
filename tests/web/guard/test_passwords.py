"""The leader's password."""

import asyncio
import threading
import time

import pytest
from argon2 import PasswordHasher, extract_parameters

from fifthwise.web.guard import (
    LONGEST_PASSWORD,
    BrokenFile,
    Password,
    WeakPassword,
    keep_password,
    load_password,
)
from fifthwise.web.guard.passwords import HASHER

QUICK = PasswordHasher(time_cost=1, memory_cost=64, parallelism=1)


def test_a_password_is_kept_as_a_hash_and_known_again(tmp_path):
    """The file holds no part of it; it fits, and others do not."""
    keep_password(tmp_path / "p", "bow and rosin", QUICK)
    assert b"rosin" not in (tmp_path / "p").read_bytes()
    password = load_password(tmp_path / "p", QUICK)
    assert asyncio.run(password.fits("bow and rosin"))
    for wrong in ("", "bow and rosi", "bow and rosin ", "Bow and rosin", "x" * 10_000, "\ud800" * 12):
        assert not asyncio.run(password.fits(wrong))


def test_the_hash_is_the_recommended_one():
    """Argon2id, 64 MiB, 3 passes, 4 lanes.

    Source: RFC 9106, section 4, second recommended option.
    """
    found = extract_parameters(HASHER.hash("bow and rosin"))
    assert found.type.name == "ID"
    assert (found.memory_cost, found.time_cost, found.parallelism) == (65536, 3, 4)


def test_the_same_letters_are_the_same_password(tmp_path):
    """A letter with its accent beside it is the letter with its accent on.

    Source: NIST SP 800-63B, 5.1.1.2: NFKC or NFKD before hashing.
    """
    keep_password(tmp_path / "p", "caf\u00e9 caf\u00e9 caf\u00e9", QUICK)
    assert asyncio.run(load_password(tmp_path / "p", QUICK).fits("cafe\u0301 cafe\u0301 cafe\u0301"))


@pytest.mark.parametrize(
    ("text", "said"),
    [("nine sign", "it has 9 signs. Take at least 10"), ("x" * (LONGEST_PASSWORD + 1), "Take at most 256")],
)
def test_a_password_has_ten_signs_and_an_end(tmp_path, text, said):
    """Too short is guessed, too long takes time; neither is kept."""
    with pytest.raises(WeakPassword, match=said):
        keep_password(tmp_path / "p", text, QUICK)
    assert not (tmp_path / "p").exists()


def test_a_new_password_takes_the_place_of_the_old(tmp_path):
    """The old one fits no more."""
    keep_password(tmp_path / "p", "bow and rosin", QUICK)
    keep_password(tmp_path / "p", "strings and pegs", QUICK)
    password = load_password(tmp_path / "p", QUICK)
    assert not asyncio.run(password.fits("bow and rosin"))
    assert asyncio.run(password.fits("strings and pegs"))


def test_no_password_is_none_and_a_damaged_one_is_told(tmp_path):
    """A missing file is no fault; one with something else in it is."""
    assert load_password(tmp_path / "p") is None
    (tmp_path / "p").write_bytes(b"bow and rosin")
    (tmp_path / "p").chmod(0o600)
    with pytest.raises(BrokenFile, match=r"this holds no password\. Delete it and set the password again"):
        load_password(tmp_path / "p")


class SlowHasher:
    """It takes its time, and notes how many it has at once and in which thread."""

    def __init__(self):
        self.now = self.most = 0
        self.threads = set()

    def verify(self, kept, plain):
        """Say yes after a while."""
        self.now += 1
        self.most = max(self.most, self.now)
        self.threads.add(threading.get_ident())
        time.sleep(0.02)
        self.now -= 1
        return True


def test_passwords_are_looked_at_one_at_a_time_outside_the_loop():
    """A crowd that knocks at once takes memory for one, and pages are answered meanwhile."""
    hasher = SlowHasher()
    password = Password("$argon2id$", hasher)

    async def crowd():
        ticks = 0
        knocking = asyncio.gather(*(password.fits("bow and rosin") for _ in range(8)))
        while not knocking.done():
            await asyncio.sleep(0.002)
            ticks += 1
        return ticks

    assert asyncio.run(crowd()) > 8
    assert hasher.most == 1
    assert threading.get_ident() not in hasher.threads
