"""Names that are kept: short, on one line, and each once."""

import unicodedata

from fifthwise.book.errors import NameFault
from fifthwise.book.folded import LONGEST_INDEXED, fold

__all__ = ["LONGEST_NAME", "checked_name"]

LONGEST_NAME = 100  # characters
# Control characters, halves of characters, and the ends of lines and paragraphs.
REFUSED = ("Cc", "Cs", "Zl", "Zp")
# They turn the direction of what stands after them, so that a name shows what it is not (Unicode UAX 9, 2.1
# to 2.4). The marks of 2.6, which turn nothing but themselves, stay.
TURNING = frozenset(map(chr, (*range(0x202A, 0x202F), *range(0x2066, 0x206A))))


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
    turning = sorted(TURNING.intersection(kept))
    if turning:
        what = f"the name holds the invisible sign U+{ord(turning[0]):04X}, which turns the direction of text"
        raise NameFault(what, where, "Type it anew, without that sign")
    folded = fold(kept)
    if not folded:
        raise NameFault("the name is empty", where, "Write a name")
    # Some single signs are folded to a whole phrase; that has to fit its column too.
    if len(kept) > LONGEST_NAME or len(folded) > LONGEST_INDEXED:
        fix = f"Write at most {LONGEST_NAME} characters"
        raise NameFault(f"the name has {len(kept)} characters", where, fix)
    return kept
