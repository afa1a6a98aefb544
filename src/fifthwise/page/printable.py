"""Which characters can be printed: print uses our fonts alone, and they do not have every script.

A screen borrows from the device's fonts, so a page in HTML shows what print cannot.
"""

import unicodedata
from functools import cache, lru_cache
from importlib import resources

__all__ = ["STAND_IN", "printable", "unprintable"]

STAND_IN = "?"
# Typst needs no glyph for these; line breaks and spaces of any kind.
BLANK = {"\t", "\n", "\r", "\u00a0", "\u2009", "\u200b", "\ufeff"}


@cache
def _covered() -> frozenset[str]:
    """The characters of ``fonts/coverage.txt``, which ``tools/font_coverage.py`` writes."""
    text = resources.files("fifthwise.page").joinpath("fonts/coverage.txt").read_text("utf-8")
    ends = (line.split("-") for line in text.split())
    return frozenset(chr(p) for first, last in ends for p in range(int(first, 16), int(last, 16) + 1))


def unprintable(text: str) -> str:
    """The characters of a text that our fonts do not have, each once, in order."""
    composed = unicodedata.normalize("NFC", text)
    missing = (c for c in composed if c not in _covered() and c not in BLANK and c.isprintable())
    return "".join(dict.fromkeys(missing))


@lru_cache(4096)  # a book says most of its words many times
def printable(text: str) -> str:
    """The text with ``STAND_IN`` for each character that cannot be printed."""
    composed = unicodedata.normalize("NFC", text)
    missing = {c for c in set(composed) if c not in _covered() and c not in BLANK}
    return composed.translate({ord(c): STAND_IN for c in missing}) if missing else composed
