"""File names made of what people are called."""

import re
import unicodedata
from collections.abc import Iterable
from itertools import chain, count

__all__ = ["file_name", "file_names"]

LONGEST = 60
OTHERS = re.compile(r"[^\w]+")


def file_names(titles: Iterable[str], taken: Iterable[str] = ()) -> list[str]:
    """Name files by titles, those of one name numbered apart; none is one of those ``taken``."""
    used = set(taken)
    names = []
    for stem in map(file_name, titles):
        ways = chain([stem], (f"{stem}-{number}" for number in count(2)))
        names.append(next(name for name in ways if name not in used))
        used.add(names[-1])
    return names


def file_name(*parts: str) -> str:
    """Join names to one that every file system takes: letters, digits and hyphens, in small letters."""
    text = unicodedata.normalize("NFC", "-".join(parts)).lower()
    return OTHERS.sub("-", text.replace("♭", "b").replace("♯", "sharp"))[:LONGEST].strip("-_") or "page"
