"""Sheets with chords over their words, read as charts in numbers."""

from fifthwise.exchange.letter_reading import (
    LetterReading,
    chart_of_letters,
    nothing_read,
    source_of,
    too_long,
    without_remarks,
)
from fifthwise.exchange.over_words.reader import WordsSheetReader, stands_alone
from fifthwise.theory import Key, Numbering

__all__ = ["read_words_sheet"]


def read_words_sheet(
    text: str,
    file: str,
    key: Key | None = None,
    *,
    title: str | None = None,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
    chords_a_bar: int = 1,
) -> LetterReading:
    """Read a sheet whose chords stand over or among the words, without bar lines.

    Parameters
    ----------
    text : str
        Headings, lines of chords with words under them, or words with chords in square brackets.
    file : str
        The name under which faults are told; without its suffix the title of a sheet that has none.
    key : Key, optional
        The key in which the letters stand; ``None`` takes it from a line ``Key: G`` of the sheet, or else
        finds it.
    title : str, optional
        The title, whatever the sheet says.
    numbering : Numbering
        How the numbers count.
    chords_a_bar : int
        How many chords a bar has, where strokes or bar lines do not say it.

    Returns
    -------
    LetterReading
        The chart; its words have bar lines where the bars begin. ``found`` tells how the key was found.
    """
    source = source_of(text, file)
    if too_long(source, text):
        return nothing_read(source)
    lines = without_remarks(source)
    sheet = WordsSheetReader(source, key, max(1, chords_a_bar), alone=stands_alone(lines))
    sheet.read_all(lines)
    return chart_of_letters(sheet, title, numbering, chords_a_bar if sheet.told_bars else None)
