"""Number sheets in the trade's other hand-written conventions: guessed, shown, and read as charts."""

from fifthwise.exchange.numbers.convention import DIMENSIONS, Convention
from fifthwise.exchange.numbers.guess import Choice, Guess, OpenPoint
from fifthwise.exchange.numbers.lone import is_lone_letter
from fifthwise.exchange.numbers.read import ReadNumbers, is_number_sheet, read_number_sheet

__all__ = [
    "DIMENSIONS",
    "Choice",
    "Convention",
    "Guess",
    "OpenPoint",
    "ReadNumbers",
    "is_lone_letter",
    "is_number_sheet",
    "read_number_sheet",
]
