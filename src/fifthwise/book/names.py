"""Names that are kept: short, on one line, and each once."""

import unicodedata

from fifthwise.book.errors import NameFault
from fifthwise.book.folded import LONGEST_INDEXED, fold

__all__ = ["LONGEST_NAME", "checked_name"]

LONGEST_NAME = 100  # characters
# Control characters, halves of characters, and the ends of lines and paragraphs.
REFUSED = ("Cc", "Cs", "Zl", "Zp")


def checked_name(name: str, where: str) -> str:
    """A name without blanks around it.

    Raises
    ------
    NameFault
        It is empty, too long, or holds what does not stand on one line.
    """
    kept = name.strip()
    if any(unicodedata.category(sign) in REFUSED for sign in kept):
        raise NameFault("the name holds a control character", where, "Type it anew, on one line")
    folded = fold(kept)
    if not folded:
        raise NameFault("the name is empty", where, "Write a name")
    # Some single signs are folded to a whole phrase; that has to fit its column too.
    if len(kept) > LONGEST_NAME or len(folded) > LONGEST_INDEXED:
        fix = f"Write at most {LONGEST_NAME} characters"
        raise NameFault(f"the name has {len(kept)} characters", where, fix)
    return kept
