"""What a bar line says: repeats, the end of a bracket, which endings begin.

References
----------
The abc music standard 2.1, 4.8 "Repeat/bar symbols", 4.9 "First and second repeats", 4.10 "Variant endings";
from memory.
"""

import re
from dataclasses import dataclass
from functools import lru_cache

__all__ = ["BarLine", "read_bar_line", "read_endings"]

LINE = re.compile(r"([|:\[\].]*?)(\[?\d.*)?\Z", re.DOTALL)
COLONS = re.compile(r":+")
RANGE = re.compile(r"(\d{1,2})(?:-(\d{1,2}))?")
MOST_TIMES = 32


@dataclass(frozen=True, slots=True)
class BarLine:
    """A bar line, read.

    Attributes
    ----------
    times : int
        How often what a repeat ends here is played; 0 where none ends.
    opens : bool
        Whether a repeat begins.
    closes : bool
        Whether a bracket ends, as at every double line.
    endings : tuple of int
        Those that begin behind it.
    """

    times: int = 0
    opens: bool = False
    closes: bool = False
    endings: tuple[int, ...] = ()


@lru_cache(maxsize=1024)
def read_bar_line(text: str) -> BarLine:
    """Read a bar line with the endings that touch it; times more than written are not believed."""
    match = LINE.match(text)
    assert match is not None
    line = match[1].lstrip(".")
    endings = read_endings(match[2]) if match[2] else ()
    if line.strip(":") == "":
        return BarLine(len(line) // 2 + 1, opens=True, closes=True, endings=endings)
    times, opens = 0, False
    for colons in COLONS.finditer(line):
        if colons.end() == len(line):
            opens = True
        else:
            times = min(len(colons[0]) + 1, MOST_TIMES)
    thick = "||" in line or "]" in line.removeprefix("[|]") or line.startswith("[|") or "|[" in line
    return BarLine(times, opens, bool(times) or opens or (thick and line != "[|]"), endings)


@lru_cache(maxsize=256)
def read_endings(text: str) -> tuple[int, ...]:
    """The numbers of an ending, as ``[1``, ``1,3`` or ``1-3``; one in words is the first or the second."""
    found: set[int] = set()
    for first, last in RANGE.findall(text):
        found.update(range(int(first), min(int(last or first), int(first) + MOST_TIMES) + 1))
    return tuple(sorted(found - {0}))[:MOST_TIMES]
