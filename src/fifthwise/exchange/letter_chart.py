"""Charts in letters, as people type them, read as charts in numbers.

The sheet is written as chart text, piece by piece, which the chart reader reads; its faults are told at the
place where the sheet has them. What a chart cannot hold is told in the notices.
"""

import re

from fifthwise.chart import Chart, Fault, Reading, read_chart
from fifthwise.exchange.letter_head import LEFT_OUT
from fifthwise.exchange.letter_sheet import SheetReader
from fifthwise.exchange.letter_text import chart_text
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import Key, Numbering, read_key

__all__ = ["is_chart_text", "read_letter_chart"]

NOT_BREAK = re.compile(r"[^\n]")
NUMBER_CHECK = "Check it with 'fifthwise check', which reads numbers"
C_MAJOR = read_key("C")


def read_letter_chart(
    text: str,
    file: str,
    key: Key | None = None,
    *,
    title: str | None = None,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
) -> Reading:
    """Read a chart in letters, its faults, and what a chart cannot hold.

    Parameters
    ----------
    text : str
        Headings, lines of bars with chords in letters, words; see ``docs/import.md``.
    file : str
        The name under which faults are told; without its suffix the title of a sheet that has none.
    key : Key, optional
        The key in which the letters stand; ``None`` takes it from a line ``Key: G`` of the sheet.
    title : str, optional
        The title, whatever the sheet says.
    numbering : Numbering
        How the numbers count.

    Returns
    -------
    Reading
        The chart, in numbers; it can be written where there are no faults. Notices tell what was left out or
        may have been meant otherwise.
    """
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    source = Source(file, lines)
    if is_chart_text(text):
        source.fault(source.whole(1), "this is chart text already", NUMBER_CHECK)
        return _nothing(source)
    sheet = SheetReader(source, key)
    for number, line in enumerate(_without_remarks("\n".join(lines), source), start=1):
        sheet.read(line, number)
    sheet.finish()
    if sheet.numbers and not sheet.letters:
        source.faults.clear()
        source.fault(sheet.numbers[0], "this is number text: its chords are numbers", NUMBER_CHECK)
        return _nothing(source)
    return _read(sheet, source, title, numbering)


def is_chart_text(text: str) -> bool:
    """Whether a text begins as our own charts do, so that it is none in letters."""
    filled = [line.strip() for line in text.removeprefix("\ufeff").splitlines() if line.strip()]
    return len(filled) > 1 and filled[0] == "---" and bool(re.match(r"[a-z]+:", filled[1]))


def _without_remarks(text: str, source: Source) -> list[str]:
    """The lines with blanks for ``<!-- remarks -->``, which are told."""
    kept, at = [], 0
    while (start := text.find("<!--", at)) >= 0 and (end := text.find("-->", start)) >= 0:
        line, column = text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start)
        length = len(text[start : end + 3].split("\n")[0])
        source.tell(Piece("", line, column, length), "this remark is left out", LEFT_OUT)
        kept += [text[at:start], NOT_BREAK.sub(" ", text[start : end + 3])]
        at = end + 3
    return "".join((*kept, text[at:])).split("\n")


def _nothing(source: Source) -> Reading:
    return Reading(Chart("", C_MAJOR, ()), tuple(source.faults), tuple(source.notices))


def _read(sheet: SheetReader, source: Source, title: str | None, numbering: Numbering) -> Reading:
    """Write the sheet as chart text and read that."""
    if sheet.head.key is None:
        fix = "Ask for it, as in '--key G', or add a line 'Key: G' at the top"
        source.fault(Piece("", 1, 1, 1), "the chart does not say its key", fix)
        sheet.head.set_key(C_MAJOR)
    if not sheet.begun:
        what, fix = "there are no bars of chords", "Write bars, as in '| G | C D | Em7 |'"
        source.fault(Piece("", len(source.lines), 1, 1), what, fix)
        return _nothing(source)
    placed = chart_text(sheet, source, title, numbering)
    reading = read_chart(str(placed), source.file)
    faults = [placed.taken_back(fault, source) for fault in reading.faults]
    notices = [placed.taken_back(notice, source) for notice in reading.notices]
    faults = [fault for fault in faults if not any(_holds(fault, own) for own in source.faults)]
    return Reading(
        reading.chart, _in_order([*source.faults, *faults]), _in_order([*source.notices, *notices])
    )


def _holds(fault: Fault, own: Fault) -> bool:
    """Whether a fault of the chart text lies round one of the sheet's own, from which it follows."""
    return fault.line == own.line and fault.column <= own.column < fault.column + fault.length


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    return tuple(sorted(faults, key=lambda f: (f.line, f.column)))
