"""The leader's password: kept as an Argon2id hash (RFC 9106), looked at by one request at a time.

Length is what is asked for, not a mix of signs, and the text is brought to one form of Unicode first
(NIST SP 800-63B, 5.1.1.2). A check takes 64 MiB and a third of a second: callers limit its rate before it.
"""

import unicodedata
from pathlib import Path

import anyio
from anyio import to_thread
from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerificationError

from fifthwise.web.guard.errors import BrokenFile, WeakPassword
from fifthwise.web.guard.private_files import read_private, replace_private

__all__ = ["LONGEST_PASSWORD", "SHORTEST_PASSWORD", "Password", "keep_password", "load_password"]

SHORTEST_PASSWORD = 10
LONGEST_PASSWORD = 256
# The second recommended option of RFC 9106, section 4.
HASHER = PasswordHasher(time_cost=3, memory_cost=65536, parallelism=4)
WHERE = "the leader's password"


def keep_password(path: Path, text: str, hasher: PasswordHasher = HASHER) -> None:
    """Keep the hash of a new password in a private file.

    Raises
    ------
    WeakPassword
        It is shorter than ``SHORTEST_PASSWORD`` signs or longer than ``LONGEST_PASSWORD``.
    """
    plain = _one_form(text)
    if len(plain) < SHORTEST_PASSWORD:
        fix = f"Take at least {SHORTEST_PASSWORD}; a few words are easy to keep"
        raise WeakPassword(f"it has {len(plain)} signs", WHERE, fix)
    if len(plain) > LONGEST_PASSWORD:
        raise WeakPassword(f"it has {len(plain)} signs", WHERE, f"Take at most {LONGEST_PASSWORD}")
    replace_private(path, hasher.hash(plain).encode())


def load_password(path: Path, hasher: PasswordHasher = HASHER) -> "Password | None":
    """The password kept in a file; ``None`` where none was set yet.

    Raises
    ------
    ExposedFile
        Others on this machine may read the file.
    BrokenFile
        It holds no such hash.
    """
    kept = read_private(path)
    if kept is None:
        return None
    text = kept.decode("ascii", "replace").strip()
    if not text.startswith("$argon2id$"):
        raise BrokenFile("this holds no password", str(path), "Delete it and set the password again")
    return Password(text, hasher)


def _one_form(text: str) -> str:
    return unicodedata.normalize("NFKC", text)


class Password:
    """A password as it is kept.

    Parameters
    ----------
    kept : str
        Its hash, which also names it: sessions end when it changes.
    """

    def __init__(self, kept: str, hasher: PasswordHasher = HASHER) -> None:
        self.kept, self.hasher = kept, hasher
        self._one = anyio.CapacityLimiter(1)

    async def fits(self, text: str) -> bool:
        """Tell whether this is the password, in a thread of its own, after those who asked before."""
        if len(text) > LONGEST_PASSWORD:
            return False
        return await to_thread.run_sync(self._fits, _one_form(text), limiter=self._one)

    def _fits(self, plain: str) -> bool:
        try:
            return self.hasher.verify(self.kept, plain)
        except (VerificationError, InvalidHashError, UnicodeEncodeError):
            return False
