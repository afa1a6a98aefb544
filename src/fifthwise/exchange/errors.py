"""Faults of other people's files.

ExchangeError
├── TooLarge        more than is read, told before it is read
├── UnreadableFile  broken, unsafe, or not of the format that it should be
├── EmptyScore      nothing in it that a song could be made of
└── UnknownPart     the part that was asked for is not there
"""

from fifthwise.errors import FifthwiseError

__all__ = ["EmptyScore", "ExchangeError", "TooLarge", "UnknownPart", "UnreadableFile"]


class ExchangeError(FifthwiseError):
    """A fault of a file that is brought in, or of what is to be written."""


class TooLarge(ExchangeError):
    """More than is read."""


class UnreadableFile(ExchangeError):
    """The file is broken, unsafe, or of another format."""


class EmptyScore(ExchangeError):
    """Nothing in it that a song could be made of."""


class UnknownPart(ExchangeError):
    """The part that was asked for is not there."""
