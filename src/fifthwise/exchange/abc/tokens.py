"""The signs of a tune's body, one pattern each.

Every repetition has a bound, so that no text takes longer than its length allows.

References
----------
The abc music standard 2.1, 4 "The tune body"; from memory.
"""

import re
from fractions import Fraction
from functools import lru_cache

__all__ = ["CHORD_NOTE", "GRACE_NOTE", "TOKEN", "factor_of"]

LENGTH = r"\d{0,4}(?:/{1,8}\d{0,4})?"
PITCH = r"(?:\^{1,2}|_{1,2}|=)?[A-Ga-g][,']{0,6}"
TOKEN = re.compile(
    rf"""
      (?P<note>(?P<pitch>{PITCH})(?P<length>{LENGTH})[ \t`]*+)
    | (?P<blank>[ \t`]+)
    | (?P<bar>\.?(?:\[\||\||:(?=[:|]))[|:\]]{{0,12}}(?:\[(?=\||\]))?[|:\]]{{0,4}}(?:\[?\d[\d,-]{{0,20}})?)
      [ \t`]*+
    | (?P<tie>\.?-)
    | (?P<broken>>{{1,3}}|<{{1,3}})
    | (?P<rest>[zx]{LENGTH})
    | (?P<bars>[ZX]\d{{0,4}})
    | (?P<tuplet>\((?P<p>[1-9])(?P<qr>(?::\d{{0,2}}){{0,2}}))
    | (?P<open>\(|\.\()
    | (?P<close>\))
    | "(?P<quote>[^"]{{0,400}}+)"
    | (?P<ending>\[\d[\d,-]{{0,20}}|\["[^"|\]]{{0,40}}"(?=[ \t]))
    | \[(?P<inline>[A-Za-z]:[^\]]{{0,300}}+)\]
    | (?P<chord>\[(?P<inner>[^\[\]|]{{1,200}}+)\](?P<longer>{LENGTH}))
    | (?P<grace>\{{/?(?P<quick>[^}}|]{{0,100}}+)\}})
    | !(?P<sign>[^!|\s"]|[^!|\s"][^!|"]{{0,38}}[^!|\s"])!
    | \+(?P<plus>[A-Za-z0-9.<>^_()/]{{1,40}})\+
    | (?P<spacer>y\d{{0,4}})
    | (?P<overlay>\(?&\)?)
    | (?P<letter>[.~H-Wh-w])
    | (?P<other>.)
    """,
    re.VERBOSE | re.DOTALL,
)
CHORD_NOTE = re.compile(rf'(?P<pitch>{PITCH})(?P<length>{LENGTH})(?P<tie>-?)|"(?P<quote>[^"]{{0,80}})"')
GRACE_NOTE = re.compile(rf"(?P<pitch>{PITCH})")
LENGTHS = re.compile(r"(\d*)(/*)(\d*)\Z")
FINEST = 512


@lru_cache(maxsize=4096)
def factor_of(text: str) -> Fraction | None:
    """How many units a note lasts, as in ``3``, ``/``, ``3/2``, ``//``; ``None`` where that is nothing."""
    match = LENGTHS.match(text)
    if match is None:
        return None
    parts = int(match[3]) if match[3] else 2 ** len(match[2])
    count = int(match[1]) if match[1] else 1
    return Fraction(count, parts) if count and 0 < parts <= FINEST else None
