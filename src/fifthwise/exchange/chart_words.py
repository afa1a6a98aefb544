"""A chart's words under its notes.

Charts have words as they are spoken, seldom parted into syllables. A word stands under its first note, and
takes as many as it seems to have syllables; where these are more than the notes, each word takes one.
"""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from itertools import accumulate

from fifthwise.chart import Line
from fifthwise.exchange.lead_sheet import LeadNote

__all__ = ["line_words", "sung"]

# Letters that sound as one syllable, and an e that is silent in English: rules of thumb, no source.
VOWELS = re.compile(r"[aeiouyàáâäèéêëìíîïòóôöùúûü]+?(?=ing\b)|[aeiouyàáâäèéêëìíîïòóôöùúûü]+", re.IGNORECASE)
SILENT = re.compile(
    r"(?:[^aeiouyl]|[aeiouy]l)e\b|(?:[^aeiouylcsgzxh]|th|[aeiouy]l)es\b|[^aeiouytd]ed\b|(?<=som)e(?=\w)|(?<=ev)e(?=ry)",
    re.IGNORECASE,
)


def line_words(line: Line, verse: int) -> list[tuple[str, ...]]:
    """The syllables of each bar of a line; words that no bar lines part stand under its first bar."""
    if not line.words:
        return [()] * len(line.bars)
    text = line.words[min(verse, len(line.words) - 1)].strip().removeprefix("|").removesuffix("|")
    cells = [tuple(_syllables(cell)) for cell in text.split("|")]
    return (cells + [()] * len(line.bars))[: len(line.bars)]


def _syllables(text: str) -> Iterator[str]:
    for word in text.split():
        *parts, last = word.strip("-").split("-") if word.strip("-") else [word]
        yield from (f"{part}-" for part in parts)
        yield f"{last}-" if word.endswith("-") and word.strip("-") else last


def sung(notes: tuple[LeadNote, ...], syllables: tuple[str, ...]) -> tuple[LeadNote, ...]:
    """Notes with their syllables; what is left over goes with the last note."""
    begun = [at for at, note in enumerate(notes) if not note.goes_on]
    if not begun or not syllables:
        return notes
    told = dict(zip((begun[place] for place in _places(syllables, len(begun))), syllables, strict=False))
    if len(syllables) > len(begun):
        told[begun[-1]] = " ".join(syllables[len(begun) - 1 :])
    return tuple(replace(note, syllable=told[at]) if at in told else note for at, note in enumerate(notes))


def _places(syllables: tuple[str, ...], notes: int) -> range | list[int]:
    """Which of so many notes each word stands under."""
    ends = list(accumulate(map(_count, syllables)))
    return [0, *ends[:-1]] if ends[-1] <= notes else range(min(notes, len(syllables)))


@lru_cache(maxsize=4096)
def _count(word: str) -> int:
    """How many syllables a word seems to have."""
    return max(1, len(VOWELS.findall(word)) - len(SILENT.findall(word)))
