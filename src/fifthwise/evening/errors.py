"""Faults of an evening.

FifthwiseError
└── EveningError
    ├── EveningFaults   everything that is wrong with one evening's file
    └── PartFault       an instrument that is not known
"""

from fifthwise.chart import TextFaults
from fifthwise.errors import FifthwiseError

__all__ = ["EveningError", "EveningFaults", "PartFault"]


class EveningError(FifthwiseError):
    """A fault of an evening."""


class EveningFaults(TextFaults, EveningError):
    """Everything that is wrong with one evening's file."""


class PartFault(EveningError):
    """An instrument that is not known."""
