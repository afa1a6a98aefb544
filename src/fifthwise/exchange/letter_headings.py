"""Headings of a chart in letters, in the many ways that people type them."""

import re
from typing import NamedTuple

from fifthwise.exchange.letter_tokens import is_chord, looks_like_a_chord

__all__ = ["Heading", "read_heading", "stem"]

PARTS = frozenset({
    "break", "breakdown", "bridge", "channel", "chorus", "coda", "double chorus", "end", "ending", "fill",
    "final chorus", "half chorus", "half verse", "head", "hook", "instrumental", "interlude", "intro",
    "introduction", "last chorus", "link", "middle", "middle 8", "middle eight", "out", "outro", "part",
    "postchorus", "prechorus", "preverse", "refrain", "riff", "section", "solo", "tag", "theme", "transition",
    "turn", "turnaround", "vamp", "verse",
})  # fmt: skip
# Parts that another word may tell apart, as in ``Fiddle solo``, and words that make them a line that is sung.
SECOND = frozenset(
    {"break", "bridge", "chorus", "interlude", "intro", "outro", "riff", "solo", "tag", "verse"}
)
SUNG = frozenset(
    {"a", "an", "and", "every", "her", "his", "my", "no", "of", "our", "that", "the", "this", "your"}
)
# Possessive and bounded repeats keep the time linear, whatever is typed.
BRACKETED = re.compile(
    r"\s*+(?:\[(?P<square>[^\[\]|]++)\]|<(?P<angle>[^<>|]++)>|\#{1,6}+[ \t](?P<hash>[^|]++)"
    r"|-{2,}+(?P<dashed>[^|]+?)-{2,}+|={2,}+(?P<doubled>[^|=]++)={2,}+|\*{1,2}+(?P<starred>[^|*]++)\*{1,2}+"
    r"|_{1,2}+(?P<low>[^|_]++)_{1,2}+)\s*+:?"
)
NAMED = re.compile(r"\s*+(?P<name>[^|:\"“]{1,40}+):(?![|‖])")
TIMES = r"\(?\s{0,4}(?:[xX×]\s{0,4}(\d{1,3})|(\d{1,3})\s{0,4}[xX×])\s{0,4}\)?"
ENDING = re.compile(r"\d(?:st|nd|rd|th)?\b[\s\d.,&+-]*+(?:time|ending|x)?\Z")
METRE = re.compile(r"\d{1,2}/\d{1,2}")
AT_END = re.compile(rf"{TIMES}\Z")
AT_START = re.compile(rf"\s*+{TIMES}(?!\w)")
NUMBERED = re.compile(
    r"\s{0,4}[-–#]?\s{0,4}(?:no\.?\s{0,4})?(?:\b\d{1,2}|\d{1,2}|\b(?:[a-d]|one|two|three|four|i{1,3}|iv))\Z"
)
BAR_SIGN = re.compile(r"[|‖𝄀-𝄇]")
QUOTES = {"(": ")", '"': '"', "“": "”"}


class Heading(NamedTuple):
    """A heading; columns count from 1, and ``times`` is 1 where none is said.

    ``rest`` is what else stands on the line: bars, or words for the band. ``sure`` tells whether the line
    says that it is a heading, by brackets or by the name of a part of a song.
    """

    name: str
    column: int
    length: int
    times: int
    times_column: int
    rest: str
    rest_column: int
    sure: bool


def read_heading(text: str) -> Heading | None:
    """Read a line as a heading; ``None`` where it is none."""
    match = BRACKETED.match(text)
    if match and match.lastgroup:
        name, column = match[match.lastgroup], match.start(match.lastgroup) + 1
        column += len(name) - len(name.lstrip())
        if _is_mark(name, match["square"] is not None):
            return None
        return _heading(name.strip(), column, text, match.end(), sure=True)
    named = NAMED.match(text)
    if named:
        known = is_part(_without_times(named["name"].strip()))
        single = len(named["name"].strip()) <= 2
        return _heading(
            named["name"].strip(), named.start("name") + 1, text, named.end(), sure=known or single
        )
    return _plain(text)


def _plain(text: str) -> Heading | None:
    """A heading without any sign: the name of a part, a number, ``x2``, a remark in brackets or quotes."""
    bar = BAR_SIGN.search(text)
    before = AT_END.sub("", (text[: bar.start()] if bar else text).rstrip())
    for name in (before, re.split(r"[(\"“]|\s[-–—]\s", before, maxsplit=1)[0]):
        remark = before[len(name) :].strip()
        closed = not remark or remark.endswith(QUOTES.get(remark[0], ""))
        if closed and name.strip() and is_part(_without_times(name.strip())):
            return _heading(name.strip(), len(name) - len(name.lstrip()) + 1, text, len(name), sure=True)
    return None


def _heading(name: str, column: int, text: str, end: int, *, sure: bool) -> Heading:
    times, times_column, name = _times(name, column)
    rest = text[end:]
    match = AT_START.match(rest)
    if match and times == 1:
        times, times_column = int(match[1] or match[2]), end + match.start() + 1
        end += match.end()
    rest = text[end:].rstrip()
    match = AT_END.search(rest)
    if match and times == 1 and not BAR_SIGN.search(rest):
        times, times_column = int(match[1] or match[2]), end + match.start() + 1
        rest = rest[: match.start()].rstrip()
    skipped = len(rest) - len(rest.lstrip(" \t:-–"))
    kept = rest if "|" in rest[:skipped] else rest[skipped:]
    column_of_rest = end + 1 + len(rest) - len(kept)
    return Heading(
        _settled(name), column, max(1, len(name)), times, times_column, kept.strip(), column_of_rest, sure
    )


def _times(name: str, column: int) -> tuple[int, int, str]:
    match = AT_END.search(name)
    if not match or not name[: match.start()].strip():
        return 1, column, name.strip()
    return int(match[1] or match[2]), column + match.start(), name[: match.start()].strip()


def _without_times(name: str) -> str:
    return AT_END.sub("", name).strip()


def _settled(name: str) -> str:
    """The name as chart text holds it: no commas or quotes, and capitals only where they say something."""
    plain = " ".join(re.sub(r"[\",“”\[\]#]", " ", name).split()).strip(":- ")
    return plain.lower() if plain.isupper() and len(stem(plain)) > 2 else plain


def is_part(name: str) -> bool:
    """Whether words name a part of a song, such as ``Pre-Chorus`` or ``verse 2``."""
    words = name.lower().split()
    told_apart = len(words) == 2 and words[1] in SECOND and words[0] not in SUNG
    return stem(name) in PARTS or told_apart


def stem(name: str) -> str:
    """A name in small letters without its number: ``verse`` of ``Verse 2``."""
    plain = " ".join(name.lower().split())
    plain = re.sub(r"\b(pre|post)[\s-]++", r"\1", plain)
    if plain in PARTS:
        return plain
    return NUMBERED.sub("", plain).strip() or plain


def _is_mark(name: str, square: bool) -> bool:
    """Whether square brackets hold what stands in bars: an ending, a metre, a key."""
    inner = name.strip()
    marks = ("key ", "meter ", "metre ", "tempo ", "feel ", "pickup ")
    return square and bool(ENDING.match(inner) or METRE.match(inner) or inner.lower().startswith(marks))


def stands_among_words(heading: Heading) -> bool:
    """Whether a chord in square brackets stands in a line of words, so that it is no heading."""
    words = heading.rest.split()
    return (
        is_chord(heading.name)
        and bool(words)
        and "|" not in heading.rest
        and not all(looks_like_a_chord(word) for word in words)
    )
