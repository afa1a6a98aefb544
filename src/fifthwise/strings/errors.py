"""Faults of the fingerboard's side.

FifthwiseError
└── StringsError
    ├── InstrumentFault   an instrument that is not known
    ├── TuningFault       strings that cannot be right
    ├── PositionFault     a position that the instrument's table does not have
    ├── LevelFault        a level that the instrument's table does not have
    ├── LineFault         a line that cannot be read
    └── Unplayable        notes that no hand reaches there; says which, and the nearest way
"""

from fifthwise.errors import FifthwiseError

__all__ = [
    "InstrumentFault",
    "LevelFault",
    "LineFault",
    "PositionFault",
    "StringsError",
    "TuningFault",
    "Unplayable",
]


class StringsError(FifthwiseError):
    """A fault in what is asked of an instrument."""


class InstrumentFault(StringsError):
    """An instrument that is not known."""


class TuningFault(StringsError):
    """Strings that cannot be right."""


class PositionFault(StringsError):
    """A position that the instrument's table does not have."""


class LevelFault(StringsError):
    """A level that the instrument's table does not have."""


class LineFault(StringsError):
    """A line that cannot be read."""


class Unplayable(StringsError):
    """Notes that no hand reaches there; says which, and the nearest way."""
