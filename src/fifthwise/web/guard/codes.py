"""The join code: six signs that are easily told apart, called out at a rehearsal and typed on a phone."""

import hmac
import secrets

__all__ = ["SIGNS", "is_code", "new_code"]

# Without 0 and O, 1 and I: 32 signs, so six of them are one of 2**30.
SIGNS = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"
LENGTH = 6
LONGEST_TYPED = 40


def new_code() -> str:
    """A code by chance, from the system's own source of it."""
    return "".join(secrets.choice(SIGNS) for _ in range(LENGTH))


def is_code(typed: str, code: str) -> bool:
    """Tell whether what was typed is the code; case, spaces and hyphens do not count.

    Compared in a time that does not tell how much of it was right.
    """
    plain = "".join(typed[:LONGEST_TYPED].replace("-", " ").split()).upper()
    return hmac.compare_digest(plain.encode("utf-8", "replace"), code.encode())
