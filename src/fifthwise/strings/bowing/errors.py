"""Faults of the right hand.

StringsError
└── BowingError
    ├── UnknownBowing   a pattern that is not known, or not in that metre
    └── BarFault        notes that cannot stand in their bar as written
"""

from fifthwise.strings.errors import StringsError

__all__ = ["BarFault", "BowingError", "UnknownBowing"]


class BowingError(StringsError):
    """A fault in what is asked of the bow."""


class UnknownBowing(BowingError):
    """A pattern that is not known, or not in that metre."""


class BarFault(BowingError):
    """Notes that cannot stand in their bar as written."""
