"""Headings read: ``# name``, how often the section plays, and its cues."""

import re

from fifthwise.chart.bar_text import read_cue
from fifthwise.chart.drafts import SectionDraft
from fifthwise.chart.source import FaultList
from fifthwise.chart.tokens import Token

__all__ = ["MOST_TIMES", "opens_section", "read_heading"]

# A hash and a space; ``#4o`` opening a line is a chord, and so are ``##4`` and ``#iv``.
HEADING = re.compile(r"\s*(#+)(?=\s|\Z)")
# What was meant for a heading: a hash and a word that no chord begins with.
JOINED = re.compile(r"\s*(#+)(?=[A-Za-z])(?!(?:[IV]+|[iv]+)(?:o|dim|aug|sus|maj|add|m|M)?(?![A-Za-z]))")
CUE = re.compile(r'"[^"]*"')
TIMES = re.compile(r"(?:(.*\S)\s+)?x([0-9]{1,2})\Z")
MOST_TIMES = 32


def opens_section(text: str) -> bool:
    """Whether a line is a heading, or was meant for one."""
    return bool(HEADING.match(text) or JOINED.match(text))


def read_heading(line: str, number: int, faults: FaultList) -> SectionDraft:
    """Read a heading; what is wrong with it is noted."""
    match = HEADING.match(line) or JOINED.match(line)
    assert match
    rest, column = line[match.end() :], match.start(1) + 1
    cues = [read_cue(Token("cue", m[0], m.start() + 1)) for m in CUE.finditer(rest)]
    name, times = _times(CUE.sub(" ", rest).strip(), line, number, faults)
    name = " ".join(name.split())
    fault = _misshapen(match, rest, name)
    if fault:
        faults.add(number, column, len(line.strip()), *fault)
    if '"' in name:
        faults.add(number, line.rindex('"') + 1, 1, "the cue is not closed", "End it with '\"'")
    return SectionDraft(name or None, number, times, cues)


def _misshapen(match: re.Match[str], rest: str, name: str) -> tuple[str, str] | None:
    if not name:
        return "the heading has no name", "Write it as in '# verse'"
    if len(match[1]) > 1:
        return "a heading has one '#'", f"Write '# {rest.strip()}'"
    if rest[:1].strip():
        return "a heading has a space after its '#'", f"Write '# {rest.strip()}'"
    return None


def _times(name: str, line: str, number: int, faults: FaultList) -> tuple[str, int]:
    match = TIMES.match(name)
    if not match:
        return name, 1
    times = int(match[2])
    if not 1 <= times <= MOST_TIMES:
        shown = f"x{match[2]}"
        fix = f"Write x2 to x{MOST_TIMES}"
        faults.add(number, line.rindex(shown) + 1, len(shown), f"'{shown}' is out of range", fix)
        times = 1
    return match[1] or "", times
