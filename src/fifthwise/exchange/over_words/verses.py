"""Words without chords over them: more of the words above, or another verse to the same chords."""

from fifthwise.exchange.letter_cells import Row, SectionDraft
from fifthwise.exchange.placed import Piece, Source

__all__ = ["VerseKeeper"]


class VerseKeeper:
    """Keeps lines of words until it is known where they go."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.stanza: list[Row] = []  # the last rows that no blank line parts
        self.lines: list[Piece] = []
        self.apart = True  # whether a blank line came since the last line
        self.lines_apart = False  # whether one came before the first of the lines
        self.told = False

    def open_section(self, section: SectionDraft) -> None:
        """Begin with a section, which has no rows yet."""
        self.stanza, self.apart = [], True

    def blank(self) -> None:
        """A blank line."""
        self.apart = True

    def row(self, row: Row) -> None:
        """A line of chords."""
        if self.apart:
            self.stanza = []
        self.apart = False
        self.stanza.append(row)

    def loose(self, words: Piece) -> None:
        """A line of words under no chords."""
        if self.apart:
            self.settle()
            self.lines_apart = True
        self.apart = False
        self.lines.append(words)

    def settle(self) -> None:
        """Put the lines where they belong."""
        lines, self.lines = self.lines, []
        apart, self.lines_apart = self.lines_apart, False
        sung = [row for row in self.stanza if row.words] if lines else []
        if lines and apart and len(lines) == len(sung):
            for row, words in zip(sung, lines, strict=True):
                row.words.append(words)
        elif lines and self.stanza:
            self._go_on(self.stanza[-1], lines)

    def _go_on(self, row: Row, lines: list[Piece]) -> None:
        """The last chord goes on under these words."""
        text = " ".join(line.text for line in lines)
        if row.words:
            last = row.words[-1]
            row.words[-1] = Piece(
                f"{last.text.removesuffix('|').rstrip()} {text}", last.line, last.column, last.length
            )
        else:
            empty = "| " * (len(row.cells) - 1)
            row.words.append(
                Piece(f"| {empty}{text}" if empty else text, lines[0].line, lines[0].column, lines[0].length)
            )
        if not self.told:
            self.told = True
            what = "words without chords over them stand under the chord before"
            self.source.tell(lines[0], what, "Write chords over them if it is otherwise")
