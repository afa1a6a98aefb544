"""Bars in letters on their way to chart text: cells of pieces, rows of cells, sections of rows."""

from dataclasses import dataclass, field

from fifthwise.exchange.placed import Piece

__all__ = ["Cell", "Row", "SectionDraft", "row_pieces"]


@dataclass(slots=True)
class Cell:
    """One bar: what stands before its chords, the chords, what stands after them, and its bar lines.

    ``opens`` is ``|:``; ``closes`` is ``:|`` with ``times`` after it, or ``||``. ``metre`` holds for this
    bar only.
    """

    before: list[Piece] = field(default_factory=list)
    metre: Piece | None = None
    tokens: list[Piece] = field(default_factory=list)
    after: list[Piece] = field(default_factory=list)
    opens: Piece | None = None
    closes: Piece | None = None
    times: Piece | None = None


@dataclass(slots=True)
class Row:
    """A line of bars and the lines of words under it."""

    cells: list[Cell]
    words: list[Piece] = field(default_factory=list)


@dataclass(slots=True)
class SectionDraft:
    """A section: its heading, and its rows or, without any, what is only named.

    Attributes
    ----------
    name : Piece or None
        ``None`` for bars before any heading.
    times : Piece or None
        How often it is played, as in ``x2``.
    words : list of Piece
        Lines of words before any bars.
    key : str
        The key that holds at its first bar or, without bars, at its end.
    """

    name: Piece | None = None
    times: Piece | None = None
    cues: list[Piece] = field(default_factory=list)
    rows: list[Row] = field(default_factory=list)
    words: list[Piece] = field(default_factory=list)
    key: str = ""

    @property
    def cells(self) -> list[Cell]:
        """All bars in text order."""
        return [cell for row in self.rows for cell in row.cells]


def row_pieces(row: Row) -> list[Piece]:
    """A row as chart text; a lone bar opens with a bar line, so that it is never taken for prose."""
    first = [*row.cells[0].before, *row.cells[0].tokens][0]
    pieces = [Piece("|", first.line, first.column, first.length)] if len(row.cells) == 1 else []
    for place, cell in enumerate(row.cells):
        pieces += [cell.opens] if cell.opens else []
        pieces += [*cell.before, *([cell.metre] if cell.metre else []), *cell.tokens, *cell.after]
        if cell.closes:
            pieces += [cell.closes, *([cell.times] if cell.times else [])]
        elif place < len(row.cells) - 1 and not row.cells[place + 1].opens:
            last = pieces[-1]
            pieces.append(Piece("|", last.line, last.column + last.length, 1))
    return pieces
