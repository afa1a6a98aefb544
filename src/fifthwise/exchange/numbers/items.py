"""A line of a number sheet taken apart into words and signs, whatever its convention."""

import re
from typing import NamedTuple

from fifthwise.exchange.numbers.words import is_musical

__all__ = ["Item", "is_music_line", "line_items", "numbers_in"]

METRE = r"\d{1,2}/(?:16|[248])(?:\s+\d(?:\+\d)+)?"
MARK = r"(?i:key|met(?:er|re)|time|tempo|feel|pickup|segno|coda|to coda|fine|d[sc] al)"
ENDING = r"\d(?:st|nd|rd|th|\.)(?:[\s,&+-]{0,3}\d(?:st|nd|rd|th|\.)?)*+"
# Every repeat is bounded, possessive, or stops at a sign that may not stand in it: the time is linear.
ITEM = re.compile(
    r"(?P<bar>:\|\|:|:\|:|:‖|:\|{1,3}\]?|\|\|:|\|:|\|\]|\|{1,3}|‖:?|[𝄀𝄁𝄂𝄆𝄇])"
    r'|(?P<cue>"[^"\n]*"|“[^“”]*”)'
    r"|(?P<times>\(\s{0,4}(?:[xX×]\s{0,4}\d{1,3}|\d{1,3}\s{0,4}[xX×])\s{0,4}\)"
    r"|(?:[xX×]\s?\d{1,3}|\d{1,3}\s?[xX×])(?![\w/]))"
    rf"|(?P<metre>\(\s{{0,4}}{METRE}\s{{0,4}}\)|\[\s{{0,4}}{METRE}\s{{0,4}}\])"
    rf"|(?P<ending>\[\s{{0,4}}{ENDING}(?:\s{{0,4}}(?:time|ending))?\s{{0,4}}\]|\d(?:st|nd|rd)(?:\s(?:time|ending))?[:.)]?(?!\w)"
    r"|(?<=[|‖])\d\.(?=\s+[^\s.|])|(?<=[|‖])\d\)(?=\s))"
    rf"|(?P<mark>\[{MARK}[^\[\]]*\])"
    r"|(?P<nc>(?:\(N\.?C\.?\)|N\.C\.?|NC|n\.c\.|nc)(?!\w))"
    r"|(?P<jump>[Dd]\.?\s?[SCsc]\.?\s{1,4}al\s{1,4}(?:[Cc]oda|[Ff]ine)|[Tt]o\s{1,4}[Cc]oda|(?:[Ff]ine|[Ss]egno)(?!\w)|[𝄋𝄌])"
    r"|(?P<same>%|𝄎)"
    r"|(?P<opens>[\[(])|(?P<shuts>[\])])"
    r"|(?P<comma>[,;])"
    r"|(?P<sign>(?:/+|\.+|[-–—]+|_+)(?=[\s|‖:)\]]|\Z|N\.?C))"
    r"|(?P<word>(?:(?![-–/_]N\.?C)[^\s|‖\"“\[\](),;%])+(?:\([^()]{0,40}\)(?:(?![-–/_]N\.?C)[^\s|‖\"“\[\](),;%])*)*)"
    r"|(?P<stray>\S)"
)
RESTS = frozenset({"0", "rest", "Rest", "REST", "tacet"})


class Item(NamedTuple):
    """A word or sign; ``start`` counts from 0, and ``glued`` tells that it touches the one before."""

    kind: str
    text: str
    start: int
    glued: bool

    @property
    def end(self) -> int:
        """The place behind it."""
        return self.start + len(self.text)


def line_items(text: str) -> list[Item]:
    """Take a line apart."""
    found: list[Item] = []
    for match in ITEM.finditer(text):
        glued = bool(found) and found[-1].end == match.start()
        found.append(Item(_kind(match), match[0], match.start(), glued))
    return found


def _kind(match: re.Match[str]) -> str:
    kind = match.lastgroup or "stray"
    return "rest" if kind == "word" and match[0] in RESTS else kind


def numbers_in(items: list[Item]) -> list[str]:
    """The words that look like numbers."""
    return [item.text for item in items if item.kind == "word" and is_musical(item.text)]


def is_music_line(text: str) -> bool:
    """Whether a line is bars of numbers, with at most a word or two among them."""
    items = line_items(text)
    words = [item for item in items if item.kind in ("word", "stray")]
    music = len(numbers_in(items))
    if not music:
        signs = [item for item in items if item.kind in ("same", "nc", "rest")]
        return bool(signs) and not words
    opens_with_bar = items[0].kind == "bar"
    return music * 5 > len(words) * 3 or (opens_with_bar and music * 2 >= len(words))
