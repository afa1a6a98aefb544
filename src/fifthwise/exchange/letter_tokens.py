"""A line of bars in letters taken apart: bar lines, endings, metres, repeats, chords and beats."""

import re
from typing import Literal, NamedTuple

from fifthwise.theory import ChordFault, read_letter_chord, read_number_chord

__all__ = [
    "BODY",
    "SIGNS",
    "Token",
    "could_be_music",
    "is_chord",
    "is_music",
    "is_number",
    "looks_like_a_chord",
    "split_bars",
]

TokenKind = Literal[
    "bar", "cue", "times", "metre", "metre on", "ending", "mark", "nc", "group", "same", "beats", "bass",
    "jump", "word", "stray",
]  # fmt: skip
# What fills a bar; every other kind stands beside it.
BODY = ("nc", "group", "same", "beats", "bass", "word", "stray")
# Signs of repeats and double bars, as chart text writes them.
SIGNS = {
    "‖": "||", "𝄀": "|", "𝄁": "||", "𝄂": "||", "𝄆": "|:", "𝄇": ":|", "|]": "||", "|||": "||", ":|]": ":|",
    "‖:": "||:", ":‖": ":||", ":|||": ":||",
}  # fmt: skip
WORD = r"[^\s|‖\"“\[\]():,;]+(?:\([^()]*\)[^\s|‖\"“\[\]():,;]*)*"
DIGITS = r"\d(?:st|nd|rd|th)?\.?(?:[\s,&+-]*+\d\.?)*+"  # possessive, so that the time stays linear
METRE = r"\d{1,2}/(?:16|[248])(?:\s+\d(?:\+\d)+)?"
LEX = re.compile(
    r"(?P<bar>:\|\|:|:\|:|:‖|:\|{1,3}\]?|\|\|:|\|:|\|\]|\|{1,3}|‖:?|[𝄀𝄁𝄂𝄆𝄇])"
    r'|(?P<cue>"[^"]*"|“[^”]*”)'
    r"|(?P<times>\(\s*(?:[xX×]\s*\d{1,3}|\d{1,3}\s*[xX×])\s*\)|(?:[xX×]\s?\d{1,3}|\d{1,3}\s?[xX×])(?![\w/]))"
    rf"|(?P<metre>\(\s*{METRE}\s*\)|\[\s*{METRE}\s*\])"
    rf"|(?P<metre_on>{METRE}(?![\w/]))"
    rf"|(?P<ending>\[\s*{DIGITS}(?:\s*(?:time|ending|x))?\s*\]|\[{DIGITS}(?=\s|$)"
    r"|\d(?:[.,]{1,2}\s?\d){0,8}[.)](?=\s|[A-G])|(?<=[|‖])\d(?=\s+[A-G(%]))"
    r"|(?P<mark>\[[^\[\]]*\])"
    r"|(?P<nc>(?:\(N\.?C\.?\)|N\.C\.?|NC|n\.c\.|nc)(?![\w]))"
    r"|(?P<group>\((?:[^()]|\([^()]*\))*\))"
    r"|(?P<same>%|𝄎)"
    r"|(?P<jump>[Dd]\.?\s?[SCsc]\.?\s+al\s+(?:[Cc]oda|[Ff]ine)|[Tt]o\s+[Cc]oda|(?:[Ff]ine|[Ss]egno)(?!\w)|[𝄋𝄌])"
    r"|(?P<beats>(?:/+|\.+|[-–—]+)(?=[\s|‖:]|$))"
    r"|(?P<bass>/[A-G][#b♯♭]?(?=[\s|‖:]|$))"
    rf"|(?P<word>{WORD})"
    r"|[,;]|(?P<stray>\S)"
)
LOOKS = re.compile(r"[A-H](?:[#b♯♭]|m(?:aj|in|i)?(?![a-z])|M|dim|aug|sus|add|[\d/(°oøΔ△+^-]|\.|\Z)")


class Token(NamedTuple):
    """A piece of a line; ``column`` counts from 1."""

    kind: str
    text: str
    column: int


def split_bars(text: str, column: int = 1) -> list[Token]:
    """Split a line of bars; ``column`` is that of its first character."""
    found = []
    for match in LEX.finditer(text):
        if match.lastgroup is not None:
            found.append(Token(match.lastgroup.replace("_", " "), match[0], match.start() + column))
    return found


def is_chord(text: str) -> bool:
    """Whether a word is a chord in letters."""
    try:
        read_letter_chord(text)
    except ChordFault:
        return False
    return True


def is_number(text: str) -> bool:
    """Whether a word is a chord in numbers."""
    try:
        read_number_chord(text)
    except ChordFault:
        return False
    return text.lstrip("b#♭♯")[:1].isdigit()


def looks_like_a_chord(text: str) -> bool:
    """Whether a word is a chord, or one with a slip in it, rather than a word that is sung."""
    return bool(LOOKS.match(text)) or is_chord(text)


def could_be_music(token: Token) -> bool:
    """Whether a token is music, or a chord typed with a small letter."""
    capital = token.text[:1].upper() + token.text[1:]
    return is_music(token) or (token.kind == "word" and is_chord(capital))


def is_music(token: Token) -> bool:
    """Whether a token is a chord, even one with a slip in it, or stands for one, rather than a word."""
    if token.kind == "group":
        return any(looks_like_a_chord(word) for word in token.text.strip("()").split())
    if token.kind == "word":
        return looks_like_a_chord(token.text) or is_number(token.text)
    return token.kind != "stray"
