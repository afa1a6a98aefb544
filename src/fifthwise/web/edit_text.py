"""A text as a form brings it: its line ends, its mends, and the one to begin a new song with."""

import re
from collections.abc import Mapping

from fifthwise.theory import KeyFault, NoteFault, read_key

__all__ = ["mended", "new_text", "text_in"]

MEND = re.compile(r"([0-9]{1,7}) ([0-9]{1,7}) ([0-9]{1,7}) (.{1,200})\Z", re.DOTALL)
BLANK = re.compile(r"[\s\x00]+")
NEW = """---
title: {title}
key: {key}
meter: 4/4
tempo: 100
---
# verse
{verse}

# chorus
4 | 5 | 6- | 5
"""
# A minor key counts from six unless the text says otherwise.
VERSES = {False: "1 | 4 | 5 | 1", True: "6- | 2- | 3- | 6-"}


def text_in(form: Mapping[str, str]) -> str:
    """The text of a form as a chart has it; a mark of byte order before it is dropped."""
    return form.get("text", "").replace("\r\n", "\n").replace("\r", "\n").removeprefix("\ufeff")


def mended(text: str, mend: str) -> str:
    """Put a mend, ``line column length text``, into a text; one that points nowhere changes nothing.

    Parameters
    ----------
    mend : str
        Column from 1 and length are in UTF-16 units, as for a mark.
    """
    found = MEND.match(mend)
    lines = text.split("\n")
    if not found or not 1 <= int(found[1]) <= len(lines):
        return text
    at = int(found[1]) - 1
    units = lines[at].encode("utf-16-le", "surrogatepass")
    start, end = 2 * (int(found[2]) - 1), 2 * (int(found[2]) - 1 + int(found[3]))
    if not 0 <= start < end <= len(units):
        return text
    new = units[:start] + found[4].encode("utf-16-le", "surrogatepass") + units[end:]
    lines[at] = new.decode("utf-16-le", "replace")
    return "\n".join(lines)


def new_text(title: str, key: str) -> str:
    """A short chart to begin with, round the home of its key."""
    plain = BLANK.sub(" ", key).strip() or "C"
    return NEW.format(title=BLANK.sub(" ", title).strip(), key=plain, verse=VERSES[_is_minor(plain)])


def _is_minor(key: str) -> bool:
    try:
        return read_key(key).is_minor
    except (KeyFault, NoteFault):
        return False
