"""The first verse under a lead sheet's bars as a ``words:`` line, bar by bar."""

from collections.abc import Sequence

from fifthwise.exchange.lead_sheet import LeadBar
from fifthwise.exchange.lead_texts import line_text

__all__ = ["words_line"]


def words_line(bars: Sequence[LeadBar]) -> str:
    """The words of a line of bars with bar lines between; empty where nothing is sung.

    A word that goes on over a bar line keeps its hyphen there. A bar line stands before the first words where
    these belong to a later bar; a chart takes one alone for the border of the line.
    """
    cells = [_joined([note.syllable for note in bar.notes if note.syllable]) for bar in bars]
    border = [] if cells and cells[0] else ["|"]
    return " ".join([*border, *" | ".join(cells).split()]) if any(cells) else ""


def _joined(syllables: list[str]) -> str:
    words: list[str] = []
    going_on = False
    for syllable in syllables:
        text = line_text(syllable.replace("|", " "))
        if going_on:
            words[-1] = words[-1].removesuffix("-") + text
        elif text:
            words.append(text)
        going_on = text.endswith("-") and bool(words)
    return " ".join(words)
