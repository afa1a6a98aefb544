"""Faults of an evening.

FifthwiseError
└── StageError
    ├── EveningFaults   everything that is wrong with one evening's file
    └── PartFault       an instrument that is not known
"""

from fifthwise.chart import TextFaults
from fifthwise.errors import FifthwiseError

__all__ = ["EveningFaults", "PartFault", "StageError"]


class StageError(FifthwiseError):
    """A fault of an evening."""


class EveningFaults(TextFaults, StageError):
    """Everything that is wrong with one evening's file."""


class PartFault(StageError):
    """An instrument that is not known."""
