"""Charts in letters, as people type them, read as charts in numbers.

The sheet is written as chart text, piece by piece, which the chart reader reads; its faults are told at the
place where the sheet has them. What a chart cannot hold is told in the notices.
"""

import re

from fifthwise.exchange.letter_reading import (
    LetterReading,
    chart_of_letters,
    nothing_read,
    source_of,
    too_long,
    without_remarks,
)
from fifthwise.exchange.letter_sheet import SheetReader
from fifthwise.exchange.over_words import is_words_sheet, read_words_sheet
from fifthwise.exchange.roman import is_roman_sheet, read_roman_sheet
from fifthwise.theory import Key, Numbering

__all__ = ["is_chart_text", "read_letter_chart"]

NUMBER_CHECK = "Check it with 'fifthwise check', which reads numbers"


def read_letter_chart(
    text: str,
    file: str,
    key: Key | None = None,
    *,
    title: str | None = None,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
    chords_a_bar: int = 1,
) -> LetterReading:
    """Read a chart in letters, its faults, and what a chart cannot hold.

    Parameters
    ----------
    text : str
        Headings, lines of bars with chords in letters, words; see ``docs/import.md``.
    file : str
        The name under which faults are told; without its suffix the title of a sheet that has none.
    key : Key, optional
        The key in which the letters stand; ``None`` takes it from a line ``Key: G`` of the sheet, or else
        finds it from the chords.
    title : str, optional
        The title, whatever the sheet says.
    numbering : Numbering
        How the numbers count.
    chords_a_bar : int
        How many chords a bar has in a sheet without bar lines, whose chords stand over its words.

    Returns
    -------
    LetterReading
        The chart, in numbers; it can be written where there are no faults. Notices tell what was left out or
        may have been meant otherwise.
    """
    source = source_of(text, file)
    if too_long(source, text):
        return nothing_read(source)
    if is_chart_text(text):
        source.fault(source.whole(1), "this is chart text already", NUMBER_CHECK)
        return nothing_read(source)
    if is_roman_sheet(text):
        return read_roman_sheet(text, file, key, title=title, numbering=numbering)
    if is_words_sheet(text):
        return read_words_sheet(text, file, key, title=title, numbering=numbering, chords_a_bar=chords_a_bar)
    sheet = SheetReader(source, key)
    sheet.read_all(without_remarks(source))
    if sheet.numbers and not sheet.letters:
        source.faults.clear()
        source.fault(sheet.numbers[0], "this is number text: its chords are numbers", NUMBER_CHECK)
        return nothing_read(source)
    return chart_of_letters(sheet, title, numbering)


def is_chart_text(text: str) -> bool:
    """Whether a text begins as our own charts do, so that it is none in letters."""
    filled = [line.strip() for line in text.removeprefix("\ufeff").splitlines() if line.strip()]
    return len(filled) > 1 and filled[0] == "---" and bool(re.match(r"[a-z]+:", filled[1]))
