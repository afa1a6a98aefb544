"""A line of bars taken apart: bar lines, marks, cues, groups and words, each with its column."""

import re
from typing import NamedTuple

__all__ = ["DEEPEST", "Token", "split_group", "split_line"]

# How deep groups may nest; LEX and INSIDE spell it out, since a pattern cannot count.
DEEPEST = 3
WORD = r"[^\s|\"\[\]():]+(?:\([^()]*\)[^\s|\"\[\]():]*)*"
LEX = re.compile(
    r"(?P<bar>:\|\|:|:\|:|:\|\|?|\|\|:|\|:|\|\||\|)"
    r'|(?P<cue>"[^"]*")'
    r"|(?P<mark>\[[^\[\]]*\])"
    r'|(?P<open>"[^|]*|\[[^\[\]|"]*)'  # a cue or mark that is not closed reaches to the bar line
    r"|(?P<group>\((?:[^()]|\((?:[^()]|\([^()]*\))*\))*\)[^\s|\"\[\]()]*)"
    rf"|(?P<word>{WORD})"
    r"|(?P<stray>\S)"
)
INSIDE = re.compile(rf"(?P<group>\((?:[^()]|\((?:[^()]|\([^()]*\))*\))*\))|(?P<word>{WORD})|(?P<stray>\S)")


class Token(NamedTuple):
    """A piece of a line; ``kind`` is a group of ``LEX``, and ``column`` counts from 1."""

    kind: str
    text: str
    column: int


def split_line(text: str) -> list[Token]:
    """Split a line of bars."""
    return [Token(str(m.lastgroup), m[0], m.start() + 1) for m in LEX.finditer(text)]


def split_group(text: str, column: int) -> list[Token]:
    """Split what stands between a group's brackets; ``column`` is that of the opening one."""
    inner = text[1:-1]
    return [Token(str(m.lastgroup), m[0], m.start() + 1 + column) for m in INSIDE.finditer(inner)]
