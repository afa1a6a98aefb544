"""The header of a file to be kept, whatever its name holds.

A song's title may hold quotes, line ends or any script; in a header it must not end the line or the name.
"""

import re
from urllib.parse import quote

__all__ = ["attachment"]

# Control signs, what quotes and escapes, what separates folders, and what some systems refuse in a name.
UNFIT = re.compile(r'[\x00-\x1f\x7f-\x9f\u2028\u2029"\\/:*?<>|%]+')
LONGEST_NAME = 120
# RFC 8187, 3.2.1: attr-char, beside letters and digits.
ATTR_CHARS = "!#$&+-.^_`|~"


def attachment(name: str) -> str:
    """A Content-Disposition with the name twice: in ASCII, and in full (RFC 6266, 4.3; RFC 8187).

    Parameters
    ----------
    name : str
        With its ending; signs that are unfit become ``-``, and dots at the front fall away.
    """
    # A lone half of a pair of surrogates has no UTF-8; it becomes "?", which is unfit too.
    fit = UNFIT.sub("-", name.encode("utf-8", "replace").decode()).strip(". ")
    stem, dot, ending = fit.rpartition(".")
    fit = f"{stem[:LONGEST_NAME]}{dot}{ending[:LONGEST_NAME]}" or "file"
    plain = fit.encode("ascii", "replace").decode().replace("?", "-")
    full = quote(fit, safe=ATTR_CHARS)
    return f"attachment; filename=\"{plain}\"; filename*=UTF-8''{full}"
