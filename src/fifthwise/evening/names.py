"""File names made of what people are called."""

import re
import unicodedata

__all__ = ["file_name"]

LONGEST = 60
OTHERS = re.compile(r"[^\w]+")


def file_name(*parts: str) -> str:
    """Join names to one that every file system takes: letters, digits and hyphens, in small letters."""
    text = unicodedata.normalize("NFC", "-".join(parts)).lower()
    return OTHERS.sub("-", text.replace("♭", "b").replace("♯", "sharp"))[:LONGEST].strip("-_") or "page"
