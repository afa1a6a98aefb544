"""Lines of a number sheet that hold one short word: the key under the title, or the letter of a part."""

import re
from collections.abc import Sequence

from fifthwise.exchange.letter_fields import Field
from fifthwise.exchange.letter_headings import Heading

__all__ = ["LABELS", "are_lettered", "is_lone_letter", "lone_heading", "lone_key"]

# What parts of a song are called in front of a line of numbers, or alone above it.
LABELS = frozenset({
    "b", "bg", "br", "c", "ch", "i", "in", "inst", "int", "o", "out", "pc", "pre", "rf", "solo", "t", "ta",
    "tag", "turn", "v", "vs",
})  # fmt: skip
LETTER = re.compile(r"\s{0,20}([A-G][b#♭♯]?m?):?\s*\Z")
NAME = re.compile(r"\s{0,20}([A-Za-z]{1,4})[ ]?(\d{1,2})?:?\s*\Z")
PARTS = frozenset("ABCD")  # as parts are lettered, after the first bars


def is_lone_letter(text: str) -> bool:
    """Whether a line is a letter alone, perhaps in brackets, that may be a chord, a key or a part."""
    bare = text.strip()
    return bool(LETTER.match(bare[1:-1] if bare[:1] == "[" and bare[-1:] == "]" else bare))


def lone_key(text: str) -> Field | None:
    """A key alone on its line."""
    match = LETTER.match(text)
    if match is None:
        return None
    return Field("key", match[1], match.start(1) + 1, match.start(1) + 1)


def lone_heading(text: str) -> Heading | None:
    """The short name of a part alone on its line: ``V1``, ``C``, ``A``."""
    match = NAME.match(text)
    if match is None or not (match[1].lower() in LABELS or match[1] in PARTS):
        return None
    name = f"{match[1]}{match[2] or ''}"
    column = match.start(1) + 1
    return Heading(name, column, len(name), 1, column, "", len(text) + 1, sure=True)


def are_lettered(lines: Sequence[str]) -> bool:
    """Whether parts are lettered from ``A`` on, so that an ``A`` above all bars is no key."""
    found = {line.strip().strip(":") for line in lines if is_lone_letter(line)}
    return {"A", "B"} <= found
