"""Words cut where the chords over them stand.

A chord over the middle of a word parts it with a hyphen where a syllable may begin, as chart text joins words
over a bar line; in a word of one syllable it goes to its beginning.
"""

import re
import unicodedata
from collections.abc import Sequence
from itertools import pairwise

__all__ = ["cut", "joined_cells", "offset_at", "settled_words"]

TAB = 8  # columns from one tabulator stop to the next
TOGETHER = frozenset({"th", "ch", "sh", "ph"})  # two letters of one sound
VOWELS = re.compile(r"[aeiouyàáâäæãåèéêëìíîïòóôöøõœùúûü]+", re.IGNORECASE)


def offset_at(text: str, column: int) -> int:
    """The place in a line of what stands at a column, from 0, as a terminal sets it."""
    width = 0
    for offset, sign in enumerate(text):
        if width >= column:
            return offset
        width += _width(sign, width)
    return len(text) + max(0, column - width)


def column_at(text: str, offset: int) -> int:
    """The column, from 0, at which a place of a line stands."""
    width = 0
    for sign in text[:offset]:
        width += _width(sign, width)
    return width


def _width(sign: str, at: int) -> int:
    if sign == "\t":
        return TAB - at % TAB
    if unicodedata.combining(sign):
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def over(chords: str, offset: int, words: str) -> int:
    """The place in the words that stands under a place of the line of chords."""
    return offset_at(words, column_at(chords, offset))


def cut(words: str, places: Sequence[int], *, exact: bool = False) -> list[str]:
    """Cut words at the places where bars begin; what stands before the first goes with it.

    Parameters
    ----------
    places : sequence of int
        One a bar, in order.
    exact : bool
        Whether the places were typed into the words, so that they part words wherever they are.
    """
    cells, at = [], 0
    for place in places[1:]:
        end = max(at, min(place, len(words)))
        end = end if exact else _syllable(words, at, end)
        left = words[at:end]
        parted = left[-1:].isalpha() and words[end : end + 1].isalpha()
        cells.append(settled_words(left) + ("-" if parted else ""))
        at = end
    return [*cells, settled_words(words[at:])]


def _syllable(words: str, after: int, place: int) -> int:
    """Where a syllable begins at or near a place.

    Where it has no other, at the word's beginning; or behind it, where the chord before has no other word.
    """
    start, end = _word(words, place)
    if start == place or place >= len(words):
        return place
    vowels = list(VOWELS.finditer(words, start, end))
    if len(vowels) > 1 and vowels[-1][0].lower() == "e" and vowels[-1].end() == end:
        vowels.pop()  # mostly silent
    fits = any(one.end() <= place <= other.start() for one, other in pairwise(vowels))
    if fits and words[place - 1].isalpha() and words[place].isalpha():
        return max(_onset(words, place), next(vowel.end() for vowel in vowels))
    return start if words[after:start].strip() else end


def _onset(words: str, place: int) -> int:
    """The consonant that a syllable begins with belongs to it: ``on-ly``, ``mo-ther``."""
    if words[place - 1 : place + 1].lower() in TOGETHER:
        return place - 1
    if not VOWELS.match(words, place) or VOWELS.match(words, place - 1):
        return place
    return place - (2 if words[place - 2 : place].lower() in TOGETHER else 1)


def _word(words: str, place: int) -> tuple[int, int]:
    """Where the word that a place stands in begins and ends; both are the place where none is."""
    start = end = place
    while end < len(words) and not words[end].isspace():
        end += 1
    while end > place and start and not words[start - 1].isspace():
        start -= 1
    return start, end


def settled_words(text: str) -> str:
    """Words as a chart holds them: one blank between, no bar lines, no signs that are not printed."""
    text = text.replace("<!--", " ")  # would open a remark
    return " ".join("".join(sign if sign.isprintable() and sign != "|" else " " for sign in text).split())


def joined_cells(cells: Sequence[str]) -> str:
    """The words of a line with bar lines between its bars; empty where nothing is sung."""
    if not any(cells):
        return ""
    text = " | ".join(cells)
    return (text if cells[0] else f"| {text}").strip() if cells[-1] else f"{text} |".strip()
