"""Elements as text; what XML cannot hold is left out."""

import re
from fractions import Fraction

__all__ = ["decimal", "element", "escaped"]

# What no XML 1.0 text may have.
FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
SIGNS = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;"})
PLACES = 9


def escaped(text: str) -> str:
    """A text as it stands in XML, also between quotes."""
    return FORBIDDEN.sub("", text).translate(SIGNS)


def element(name: str, text: object) -> str:
    """An element with a text."""
    return f"<{name}>{text}</{name}>"


def decimal(number: Fraction) -> str:
    """A number with so many decimals that the fraction is found again."""
    if number.denominator == 1:
        return str(number.numerator)
    return f"{float(number):.{PLACES}f}".rstrip("0")
