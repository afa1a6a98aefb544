"""What stands in curly braces in a typed sheet: words for some program, which are neither sung nor played."""

import re

from fifthwise.exchange.letter_head import LEFT_OUT
from fifthwise.exchange.placed import Piece, Source

__all__ = ["BRACED", "tell_braced", "without_braces"]

# One pair in another is enough; possessive, so that the time stays linear.
BRACED = re.compile(r"\{(?:[^{}\n]|\{[^{}\n]*+\})*+\}")
LONGEST_SHOWN = 60  # characters


def without_braces(text: str) -> str:
    """The text with blanks for what stands in braces, so that all else stays in its column."""
    return BRACED.sub(lambda match: " " * len(match[0]), text)


def tell_braced(source: Source, lines: list[str]) -> list[str]:
    """The lines with blanks for what stands in braces, each of which is told."""
    for number, line in enumerate(lines, start=1):
        for match in BRACED.finditer(line):
            shown = match[0] if len(match[0]) <= LONGEST_SHOWN else f"{match[0][: LONGEST_SHOWN - 1]}…"
            at = Piece("", number, match.start() + 1, len(match[0]))
            source.tell(at, f"'{shown}' is left out", LEFT_OUT)
    return [without_braces(line) for line in lines]
