"""A chart's words under its notes: one syllable a note as far as they go."""

from collections.abc import Iterator
from dataclasses import replace

from fifthwise.chart import Line
from fifthwise.exchange.lead_sheet import LeadNote

__all__ = ["line_words", "sung"]


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
    told = dict(zip(begun, syllables, strict=False))
    if len(syllables) > len(begun):
        told[begun[-1]] = " ".join(syllables[len(begun) - 1 :])
    return tuple(replace(note, syllable=told.get(at, "")) for at, note in enumerate(notes))
