"""A word of a number sheet taken apart: the chords that it joins, and the signs round each of them."""

import re
from typing import NamedTuple

from fifthwise.exchange.numbers.convention import Convention

__all__ = ["Joined", "Unit", "is_musical", "read_unit", "split_word"]

ACCIDENTAL = "b#♭♯"
START = rf"[<>^!◇◆♢♦]{{0,3}}[{ACCIDENTAL}]{{0,2}}(?:[1-7]|[iIvV])"
OWN_MARK = re.compile(r"\.(hold|stop|push16|push|late|accent)\Z")
DOTS = re.compile(r"[.'’·•]+\Z")
DIAMONDS = "◇◆♢♦⋄"
# Where one word holds several chords, whatever the convention.
AFTER_DOTS = rf"(?<=[.'’·•])(?={START})"
UNDERSCORE = r"_+"
# A slash between two chords, but not before a bass in letters, nor in 6/9.
SLASH = rf"(?<!6)/(?={START})|/(?={START})(?!9)"
HYPHEN = rf"[-–](?={START})"
DIGIT = rf"(?<![/^(<>!{ACCIDENTAL}])(?<!\A)(?=[{ACCIDENTAL}]{{0,2}}[1-7])"
QUALITY_WORDS = re.compile(r"hdim|maj|Maj|min|dim|aug|sus|add|dom|omit|no|ma|mi|[mMob]")
MUSICAL = re.compile(
    rf"-?[_<>^!◇◆♢♦(]*[{ACCIDENTAL}]{{0,2}}[1-7][-–\d/_.,'’·•<>^!+()°ºøØΔ△◇◆♢♦⋄{ACCIDENTAL}]*\Z"
)
ROMAN = re.compile(
    r"[_<>^!]*[b#♭♯]{0,2}(?:VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)(?![A-Za-z])[-+°oøΔ^\d/_.'’<>!]*\Z"
)

TELEPHONE = re.compile(r"\d{3,4}-\d{4}\Z")


class Joined(NamedTuple):
    """One chord of a word as typed; ``same_bar`` tells that it shares the bar of the one before."""

    text: str
    offset: int
    same_bar: bool


class Unit(NamedTuple):
    """One chord without its signs; ``dots`` counts the dots or ticks behind it."""

    text: str
    marks: tuple[str, ...]
    dots: int


def split_word(word: str, convention: Convention) -> list[Joined]:
    """Part a word into its chords."""
    found: list[Joined] = []
    at, same_bar = 0, False
    for match in _joins(convention).finditer(_blank_brackets(word)):
        found += _part(word, at, match.start(), same_bar=same_bar)
        same_bar = match.lastgroup != "apart" if found else False
        at = match.end()
    found += _part(word, at, len(word), same_bar=same_bar)
    return found


def _part(word: str, start: int, end: int, *, same_bar: bool) -> list[Joined]:
    return [Joined(word[start:end], start, same_bar)] if end > start else []


def _joins(convention: Convention) -> re.Pattern[str]:
    """What parts a word: ``apart`` where another bar begins."""
    apart = {"hyphens": HYPHEN, "digits": DIGIT}.get(convention.bars)
    join = f"{AFTER_DOTS}|{UNDERSCORE}" + (f"|{SLASH}" if convention.slash == "split" else "")
    return re.compile((f"(?P<apart>{apart})|" if apart else "") + f"(?P<join>{join})")


def _blank_brackets(word: str) -> str:
    """The word with what stands in its brackets blanked, so that it is never parted there."""
    return re.sub(r"\([^()]*\)", lambda match: "(" + " " * (len(match[0]) - 2) + ")", word)


def read_unit(text: str, convention: Convention) -> Unit:
    """Take the signs off a chord."""
    marks: list[str] = []
    dots = 0
    while True:
        own, beats = OWN_MARK.search(text), DOTS.search(text)
        if own:
            marks.append(own[1])
            text = text[: own.start()]
        elif beats and beats.start():
            dots += len(beats[0])
            text = text[: beats.start()]
        else:
            shorter, mark = _sign(text, convention)
            if shorter == text:
                return Unit(text, tuple(dict.fromkeys(marks)), dots)
            text = shorter
            marks += [mark] if mark else []


def _sign(text: str, convention: Convention) -> tuple[str, str]:
    """Take one sign off a chord; the chord as it is where it has none."""
    if len(text) > 2 and text[0] == "<" and text[-1] == ">":
        return text[1:-1], "hold"
    signs = {"<": "push", ">": convention.greater, "!": convention.bang, **dict.fromkeys(DIAMONDS, "hold")}
    for inner, sign in ((text[1:], text[:1]), (text[:-1], text[-1:])):
        if inner and sign in signs:
            return inner, signs[sign]
    if len(text) > 1 and text[0] == "^":
        return text[1:], "stop" if convention.caret == "stop" else "push"
    if len(text) > 1 and text[-1] == "^" and convention.caret != "major-seven":
        return text[:-1], convention.caret
    return text, ""


def is_musical(word: str) -> bool:
    """Whether a word looks like numbers, whatever the convention."""
    if TELEPHONE.match(word):
        return False
    if word in ("%", "𝄎") or ROMAN.match(word):
        return True
    return bool(MUSICAL.match(QUALITY_WORDS.sub("", word).replace(" ", "")))
