"""A sheet in letters that has been read, made into a chart; its key found where it is not said."""

import re
from dataclasses import dataclass

from fifthwise.chart import LARGEST_TEXT, Chart, Fault, Reading, read_chart
from fifthwise.exchange.letter_braces import tell_braced
from fifthwise.exchange.letter_head import LEFT_OUT
from fifthwise.exchange.letter_key import key_of_sections, tell_key
from fifthwise.exchange.letter_sheet import SheetReader
from fifthwise.exchange.letter_text import chart_text
from fifthwise.exchange.letter_unread import tell_no_bars, without_unread
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import FoundKey, Numbering, read_key

__all__ = ["LetterReading", "chart_of_letters", "nothing_read", "source_of", "too_long", "without_remarks"]

C_MAJOR = read_key("C")
MOST_LINES = 20_000  # of a song with ten verses there are some hundred
BEATS = re.compile(r"\bbeats? of \d+/\d")  # a bar that does not fit its metre
NOT_BREAK = re.compile(r"[^\n]")


@dataclass(frozen=True, slots=True)
class LetterReading(Reading):
    """What reading a sheet in letters gave.

    Attributes
    ----------
    found : FoundKey or None
        How the key was found; ``None`` where it was asked for or the sheet says it, or has no chords.
    chords_a_bar : int or None
        How many chords a bar were taken where the sheet has no bar lines; ``None`` where it has them.
    """

    found: FoundKey | None = None
    chords_a_bar: int | None = None


def source_of(text: str, file: str) -> Source:
    """The text in lines, whatever ends them."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    return Source(file, lines)


def too_long(source: Source, text: str) -> bool:
    """Whether a text is longer than is read, which is then told."""
    if len(text) > LARGEST_TEXT:
        what = f"the text has {len(text) / 1e6:.1f} million characters"
        fix = f"Bring in one song alone, of {LARGEST_TEXT / 1e6:.0f} million or less"
    elif len(source.lines) > MOST_LINES:
        what = f"the text has {len(source.lines):,} lines"
        fix = f"Bring in one song alone, of {MOST_LINES:,} lines or less"
    else:
        return False
    source.fault(Piece("", 1, 1, 1), what, fix)
    return True


def without_remarks(source: Source) -> list[str]:
    """The lines with blanks for ``<!-- remarks -->`` and for ``{what stands in braces}``, which are told."""
    text = "\n".join(source.lines)
    kept, at = [], 0
    while (start := text.find("<!--", at)) >= 0 and (end := text.find("-->", start)) >= 0:
        line, column = text.count("\n", 0, start) + 1, start - text.rfind("\n", 0, start)
        length = len(text[start : end + 3].split("\n")[0])
        source.tell(Piece("", line, column, length), "this remark is left out", LEFT_OUT)
        kept += [text[at:start], NOT_BREAK.sub(" ", text[start : end + 3])]
        at = end + 3
    source.kept = tell_braced(source, "".join((*kept, text[at:])).split("\n"))
    return source.kept


def nothing_read(source: Source) -> LetterReading:
    """What is read of a text that is none of ours: its faults."""
    return LetterReading(Chart("", C_MAJOR, ()), tuple(source.faults), tuple(source.notices))


def chart_of_letters(
    sheet: SheetReader, title: str | None, numbering: Numbering, chords_a_bar: int | None = None
) -> LetterReading:
    """Write the sheet as chart text and read that."""
    source = sheet.source
    if not sheet.begun:
        tell_no_bars(source)
        return nothing_read(source)
    sheet.sections = without_unread(sheet.sections, source)
    found = None if sheet.head.key is not None else _found_key(sheet)
    placed = chart_text(sheet, source, title, numbering)
    reading = read_chart(str(placed), source.file)
    faults = [placed.taken_back(fault, source) for fault in reading.faults]
    notices = [placed.taken_back(notice, source) for notice in reading.notices]
    faults = [fault for fault in faults if not any(_holds(fault, own) for own in source.faults)]
    metre_at = sheet.bars.marks.faulty_metre
    if metre_at is not None:  # how many beats a bar has is not known from there on
        faults = [fault for fault in faults if fault.line <= metre_at or not BEATS.search(fault.what)]
    return LetterReading(
        reading.chart,
        _in_order([*source.faults, *faults]),
        _in_order([*source.notices, *notices]),
        found,
        chords_a_bar,
    )


def _found_key(sheet: SheetReader) -> FoundKey | None:
    """Find the key in which the letters are counted, and tell it."""
    found = key_of_sections(sheet.sections)
    if found is None:
        fix = "Ask for it, as in '--key G', or add a line 'Key: G' at the top"
        sheet.source.fault(Piece("", 1, 1, 1), "the chart does not say its key", fix)
    sheet.head.set_key(C_MAJOR if found is None else found.first)
    if found is not None:
        tell_key(found, sheet.sections, sheet.source)
    for section in sheet.sections:
        section.key = section.key or sheet.holding.head["key"]
    return found


def _holds(fault: Fault, own: Fault) -> bool:
    """Whether a fault of the chart text lies round one of the sheet's own, from which it follows."""
    return fault.line == own.line and fault.column <= own.column < fault.column + fault.length


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    return tuple(sorted(faults, key=lambda f: (f.line, f.column)))
