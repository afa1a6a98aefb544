"""Faults of the ground.

FifthwiseError
└── TheoryError
    ├── NoteFault      a note name or pitch that cannot be read
    ├── KeyFault       a key that cannot be read, or has more than seven sharps or flats
    ├── MetreFault     a metre that cannot be read
    └── ChordFault     a chord that cannot be read; carries the likely mends
"""

from fifthwise.errors import FifthwiseError

__all__ = ["ChordFault", "KeyFault", "MetreFault", "NoteFault", "TheoryError"]


class TheoryError(FifthwiseError):
    """A fault in a note, key, metre or chord."""


class NoteFault(TheoryError):
    """A note name or pitch that cannot be read."""


class KeyFault(TheoryError):
    """A key that cannot be read, or has more than seven sharps or flats."""


class MetreFault(TheoryError):
    """A metre that cannot be read."""


class ChordFault(TheoryError):
    """A chord that cannot be read.

    Attributes
    ----------
    mends : tuple of str
        What may have been meant, each ready to be typed in its place.
    """

    def __init__(self, what: str, where: str, fix: str, mends: tuple[str, ...] = ()) -> None:
        super().__init__(what, where, fix)
        self.mends = mends
