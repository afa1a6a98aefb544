"""Faults of an evening.

FifthwiseError
└── StageError
    ├── EveningFaults   everything that is wrong with one evening's file
    └── PartFault       an instrument that is not known
"""

from fifthwise.chart import Fault
from fifthwise.errors import FifthwiseError

__all__ = ["EveningFaults", "PartFault", "StageError"]


class StageError(FifthwiseError):
    """A fault of an evening."""


class EveningFaults(StageError):
    """Everything that is wrong with one evening's file.

    Attributes
    ----------
    faults : tuple of Fault
        In text order.
    """

    def __init__(self, faults: tuple[Fault, ...]) -> None:
        first = faults[0]
        super().__init__(first.what, f"{first.file}, line {first.line}, column {first.column}", first.fix)
        self.faults = faults

    def __str__(self) -> str:
        return "\n".join(str(fault) for fault in self.faults)


class PartFault(StageError):
    """An instrument that is not known."""
