"""Chart text made from another text, each piece of it remembering where it came from.

What is read from another text is written as chart text and read by ``chart``. A fault that turns up there is
taken back to the place in the text that the player typed.
"""

from bisect import bisect_right
from dataclasses import dataclass, field, replace

from fifthwise.chart import Fault

__all__ = ["Piece", "PlacedText", "Source"]


@dataclass(frozen=True, slots=True)
class Piece:
    """A piece of chart text, and the place it stands for: line and column from 1, and a length."""

    text: str
    line: int
    column: int
    length: int

    def saying(self, text: str) -> "Piece":
        """Another text at the same place."""
        return Piece(text, self.line, self.column, self.length)


@dataclass(slots=True)
class Source:
    """The text that is read, and what is wrong with it or cannot be held.

    Attributes
    ----------
    lines : list of str
        As they were typed.
    kept : list of str
        With blanks for what is left out of them.
    """

    file: str
    lines: list[str]
    faults: list[Fault] = field(default_factory=list)
    notices: list[Fault] = field(default_factory=list)
    kept: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.kept = self.kept or self.lines

    def fault(self, at: Piece, what: str, fix: str, mends: tuple[str, ...] = ()) -> None:
        """Note a fault at the place of a piece."""
        self.faults.append(self._at(at, what, fix, mends))

    def tell(self, at: Piece, what: str, fix: str) -> None:
        """Note what was read but may be meant otherwise, or is left out."""
        self.notices.append(self._at(at, what, fix, ()))

    def whole(self, number: int) -> Piece:
        """What is kept of a line as a piece, without the blanks round it."""
        text = self.kept[number - 1]
        return Piece(text.strip(), number, len(text) - len(text.lstrip()) + 1, max(1, len(text.strip())))

    def _at(self, at: Piece, what: str, fix: str, mends: tuple[str, ...]) -> Fault:
        text = self.lines[at.line - 1] if 0 < at.line <= len(self.lines) else ""
        return Fault(what, fix, at.line, at.column, max(1, at.length), text, self.file, mends)


class PlacedText:
    """Lines of pieces."""

    def __init__(self) -> None:
        self.lines: list[list[Piece]] = []

    def add(self, *pieces: Piece) -> None:
        """Add a line; its pieces are set a blank apart."""
        self.lines.append(list(pieces))

    def plain(self, text: str) -> None:
        """Add a line that stands for no place."""
        self.add(Piece(text, 1, 1, 1))

    def __str__(self) -> str:
        return "".join(" ".join(piece.text for piece in line) + "\n" for line in self.lines)

    def taken_back(self, fault: Fault, source: Source) -> Fault:
        """A fault of the chart text at the place where its pieces came from."""
        pieces = self._at(fault)
        if not pieces:
            return replace(fault, file=source.file, line=1, column=1, length=1, text=source.lines[0])
        first, last = pieces[0], pieces[-1]
        here = last if last.line == first.line and last.column >= first.column else first
        length = here.column + here.length - first.column
        text = source.lines[first.line - 1]
        return replace(
            fault, file=source.file, line=first.line, column=first.column, length=length, text=text
        )

    def _at(self, fault: Fault) -> list[Piece]:
        """The pieces that a fault touches; where it touches none, the one before it."""
        line = self.lines[fault.line - 1] if fault.line <= len(self.lines) else []
        if not line:
            return []
        starts, at = [], 1
        for piece in line:
            starts.append(at)
            at += len(piece.text) + 1
        first = max(0, bisect_right(starts, fault.column) - 1)
        last = max(first, bisect_right(starts, fault.column + fault.length - 1) - 1)
        return line[first : last + 1]
