"""What a line of a sheet with chords over words is: chords alone, words with chords in brackets, or words.

Some words are chords too: a line ``A`` or ``Am`` is chords, ``Go`` and ``Do`` are words unless chords stand
beside them.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from fifthwise.exchange.letter_braces import without_braces
from fifthwise.exchange.letter_german import english_name
from fifthwise.exchange.letter_headings import is_part
from fifthwise.exchange.letter_tokens import Token, is_chord, looks_like_a_chord, split_bars

__all__ = [
    "BAR_SIGN", "Inline", "chord_items", "is_chord_line", "is_slip", "is_words_sheet", "read_inline",
    "split_part",
]  # fmt: skip

BAR_SIGN = re.compile(r"[|‖𝄀-𝄇]")
BRACKETS = re.compile(r"\[([^\[\]\n]{1,24})\]")
NO_CHORD = re.compile(r"(?:N\.?C\.?|n\.?c\.?)\Z")
WORDS_TOO = frozenset({"Go", "Do", "Ebb"})
PLAIN_WORD = re.compile(r"[^\W\d_]+['’]?[^\W\d_]*\Z")
PART_FIRST = re.compile(r"\s*+([A-Za-z][A-Za-z-]{1,14}+(?:[ ]\d{1,2})?)\s++(?=\S)")
DECORATION = "*~^'’"
DASHES = frozenset("-–—.")
LONGEST = 600  # characters; nobody plays or sings a longer line


class Inline(NamedTuple):
    """A line whose chords stand in square brackets: its words, and each chord with its place in them."""

    words: str
    chords: tuple[tuple[Token, int], ...]


def read_inline(text: str, column: int = 1, *, alone: bool = False) -> Inline | None:
    """Read a line with chords in square brackets; ``None`` where it has none.

    Parameters
    ----------
    alone : bool
        Whether one chord alone on its line counts, which is otherwise a heading such as ``[A]``.
    """
    found = [match for match in BRACKETS.finditer(text) if _names_chord(match[1])]
    if not found or BAR_SIGN.search(text):
        return None
    words, chords, at = "", [], 0
    for match in found:
        words += text[at : match.start()]
        token = _chord_token(match[1].strip(), column + match.start(1))
        chords.append((token, len(words)))
        at = match.end()
    words += text[at:]
    if len(chords) == 1 and not words.strip() and not alone:
        return None
    return Inline(words, tuple(chords))


def _names_chord(text: str) -> bool:
    return is_chord(text.strip()) or bool(NO_CHORD.match(text.strip()))


def _chord_token(text: str, column: int) -> Token:
    return Token("nc" if NO_CHORD.match(text) else "word", text, column)


def chord_items(text: str, column: int = 1) -> list[Token]:
    """A line of chords taken apart; brackets round chords and signs that only part them are gone."""
    return list(_opened(split_bars(text, column)))


def _opened(tokens: list[Token]) -> Iterator[Token]:
    for token in tokens:
        inner = token.text[1:-1].strip() if token.kind in ("group", "mark") else ""
        if token.kind == "word":
            bare = token.text.rstrip(DECORATION)
            yield token._replace(text=bare) if bare and is_chord(bare) else token
        elif token.kind == "mark" and _names_chord(inner):
            yield _chord_token(inner, token.column + 1)
        elif token.kind == "group" and inner and all(_names_chord(word) for word in inner.split()):
            yield from split_bars(token.text[1:-1], token.column + 1)
        elif not (token.kind == "beats" and set(token.text) <= DASHES):
            yield token


def is_chord_line(text: str) -> bool:
    """Whether a line holds chords, perhaps with some words for the band among them."""
    if len(text) > LONGEST:
        return False
    tokens = chord_items(text)
    chords = [t for t in tokens if t.kind == "nc" or (t.kind == "word" and is_chord(t.text.rstrip("/")))]
    certain = [t for t in chords if t.text not in WORDS_TOO]
    others = [t for t in tokens if t.kind in ("word", "stray") and t not in chords and not is_slip(t)]
    if not certain:
        return False
    return not others or (len(certain) > 1 and len(certain) > 2 * len(others))


def is_slip(token: Token) -> bool:
    """Whether a word is a chord with a slip in it, such as ``Gmm7`` or ``Fis``, and no plain word."""
    if token.kind != "word":
        return False
    slip = looks_like_a_chord(token.text) and not PLAIN_WORD.match(token.text)
    return slip or english_name(token.text) is not None


def split_part(text: str) -> tuple[str, int] | None:
    """The name of a part in front of chords, as in ``Intro  G C D``, and where the chords begin."""
    match = PART_FIRST.match(text)
    if match and is_part(match[1]) and is_chord_line(text[match.end() :]):
        return match[1], match.end()
    return None


def is_words_sheet(text: str) -> bool:
    """Whether a text has chords over or among its words, and more such lines than lines of bars."""
    without = barred = 0
    for line in without_braces(text).splitlines():
        if len(line) > LONGEST or not line.strip():
            continue
        if BAR_SIGN.search(line):
            barred += is_chord_line(BAR_SIGN.sub(" ", line).replace(":", " "))
        elif is_chord_line(line) or read_inline(line) or split_part(line):
            without += 1
    return without > barred
