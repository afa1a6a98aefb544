"""A chart in letters, read, written as chart text that remembers its places."""

from pathlib import PurePath

from fifthwise.exchange.letter_cells import SectionDraft, row_pieces
from fifthwise.exchange.letter_form import form_pieces, recalled
from fifthwise.exchange.letter_headings import stem
from fifthwise.exchange.letter_sheet import SheetReader
from fifthwise.exchange.placed import Piece, PlacedText, Source
from fifthwise.theory import Numbering

__all__ = ["chart_text"]


def chart_text(sheet: SheetReader, source: Source, title: str | None, numbering: Numbering) -> PlacedText:
    """Write the sheet as chart text; its chords stay letters, which the chart reader counts."""
    placed = PlacedText()
    meant = recalled(sheet.sections)
    form = form_pieces(sheet.sections, meant, sheet.holding.head["key"], source) if meant else []
    _mark_coda(sheet)
    placed.plain("---")
    for name, piece in _head(sheet, source, title, numbering).items():
        placed.add(Piece(f"{name}: {piece.text}", piece.line, piece.column, piece.length))
    if form:
        placed.add(Piece("form:", form[0].line, form[0].column, form[0].length), *form)
    placed.plain("---")
    for place, section in enumerate(sheet.sections):
        if place not in meant:
            _add_section(section, placed, source)
    return placed


def _add_section(section: SectionDraft, placed: PlacedText, source: Source) -> None:
    for words in section.words:
        source.tell(words, f"'{words.text}' is left out", "Write words under their bars")
    if section.name is not None:
        name, times = section.name, [section.times] if section.times else []
        placed.add(Piece(f"# {name.text}", name.line, name.column, name.length), *times, *section.cues)
    for row in section.rows:
        placed.add(*row_pieces(row))
        for words in row.words:
            placed.add(Piece(f"words: {words.text}", words.line, words.column, words.length))


def _head(sheet: SheetReader, source: Source, title: str | None, numbering: Numbering) -> dict[str, Piece]:
    start, key = Piece("", 1, 1, 1), sheet.head.key
    texts = dict(sheet.head.texts)
    if title is not None:
        texts["title"] = Piece(" ".join(title.split()), 1, 1, 1)
    elif "title" not in texts:
        name = PurePath(source.file).name.split(".")[0] or "untitled"
        texts["title"] = Piece(name, 1, 1, 1)
        source.tell(start, f"the chart has no title; it is called '{name}'", "Write it in the first line")
    texts["key"] = Piece(str(key), 1, 1, 1)
    texts["minor"], texts["plain"] = Piece(numbering.minor, 1, 1, 1), Piece(numbering.plain, 1, 1, 1)
    return texts


def _mark_coda(sheet: SheetReader) -> None:
    """A section called coda is where a jump to the coda leads, if no sign says so."""
    cells = [cell for section in sheet.sections for cell in section.cells]
    leads = any("al coda" in piece.text for cell in cells for piece in cell.after)
    if not leads or any(piece.text == "[coda]" for cell in cells for piece in cell.before):
        return
    for section in sheet.sections:
        if section.rows and section.name is not None and stem(section.name.text) == "coda":
            name = section.name
            section.cells[0].before.insert(0, Piece("[coda]", name.line, name.column, name.length))
            return
