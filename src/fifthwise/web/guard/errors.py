"""Faults of the guard, said to the one who starts the server.

FifthwiseError
└── GuardFault
    ├── ExposedFile    a private file that others on this machine may read
    ├── BrokenFile     a private file that does not hold what it should
    └── WeakPassword   a password that is too short or too long
"""

from fifthwise.errors import FifthwiseError

__all__ = ["BrokenFile", "ExposedFile", "GuardFault", "WeakPassword"]


class GuardFault(FifthwiseError):
    """A fault that keeps the server from being started safely."""


class ExposedFile(GuardFault):
    """A private file that others on this machine may read."""


class BrokenFile(GuardFault):
    """A private file that does not hold what it should."""


class WeakPassword(GuardFault):
    """A password that is too short or too long."""
