"""A sheet with chords over its words, read line by line into sections, bars and the words under each bar."""

import re

from fifthwise.exchange.letter_cells import Row, SectionDraft
from fifthwise.exchange.letter_fields import Field
from fifthwise.exchange.letter_head import LEFT_OUT
from fifthwise.exchange.letter_headings import Heading, is_part, read_heading
from fifthwise.exchange.letter_sheet import ASIDE, NUMBERS, RULE, STROKES, TABLATURE, TIMES, SheetReader
from fifthwise.exchange.letter_tokens import Token
from fifthwise.exchange.over_words.bars import RowMaker
from fifthwise.exchange.over_words.lines import (
    BAR_SIGN,
    Inline,
    chord_items,
    is_chord_line,
    read_inline,
    split_part,
)
from fifthwise.exchange.over_words.places import cut, joined_cells, over, settled_words
from fifthwise.exchange.over_words.verses import VerseKeeper
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import Key

__all__ = ["WordsSheetReader"]

SHAPE = re.compile(r"\s*+[A-G]\S{0,12}\s*+[:=]?\s*+[xX0-9]{6}(?![\w])|.{0,40}\b(?:[xX0-9]-){5}[xX0-9]\b")
TUNING = re.compile(r"\s*+(?:standard\s+)?tuning\b|\s*+tuned?\s+(?:to|down)\b", re.IGNORECASE)
AGAIN = re.compile(
    r"\s*+[(\[]?\s*+(?:repeat\s++|play\s++)?(?P<name>[A-Za-z][\w -]{0,30}?)(?:\s++again)?\s*+[)\]]?"
    r"(?P<times>\s*+\(?(?:[xX×]\s?\d{1,2}|\d{1,2}\s?[xX×])\)?)?+\s*+\Z",
    re.IGNORECASE,
)
CAPO = re.compile(r"\bcapo\b.{0,40}", re.IGNORECASE)
NAMES = {1: "one chord", 2: "two chords", 3: "three chords", 4: "four chords"}


class WordsSheetReader(SheetReader):
    """Reads a sheet without bars: a line of chords stands over the words that come next.

    Parameters
    ----------
    a_bar : int
        How many chords a bar has.
    alone : bool
        Whether one chord in brackets alone on its line is a chord, and no heading.
    """

    def __init__(self, source: Source, key: Key | None, a_bar: int, *, alone: bool) -> None:
        super().__init__(source, key)
        self.rows = RowMaker(self.bars, a_bar)
        self.alone = alone
        self.over: tuple[Row, list[int], int] | None = None  # chords that wait for their words
        self.verses = VerseKeeper(source)
        self.told_bars = False

    def read(self, text: str, line: int) -> None:
        """Read one line."""
        at = self.source.whole(line)
        if not text.strip() or RULE.match(text):
            self.verses.blank()
        elif ASIDE.match(text) or TABLATURE.match(text) or TIMES.match(text) or self._is_strokes(text):
            self._settle()
            super().read(text, line)
        elif SHAPE.match(text) or TUNING.match(text):
            self._left_out(text, line, at)
        elif not (self._chords(text, line) or self._fields(text, line)):
            self._heading_or_words(text, line, at)

    def _left_out(self, text: str, line: int, at: Piece) -> None:
        """A tuning or the shape of a chord; a capo on the same line is told by itself."""
        self.source.tell(at, f"'{at.text}' is left out", LEFT_OUT)
        capo = CAPO.search(text)
        if capo:
            column = capo.start() + 1
            self.head.read(Field("capo", capo[0], column, column), line, begun=self.begun)

    def _is_strokes(self, text: str) -> bool:
        return self.over is None and bool(STROKES.match(text))

    def _chords(self, text: str, line: int) -> bool:
        """Read a line of chords, or of words with chords in them; say whether it was one."""
        inline, part = read_inline(text, alone=self.alone), split_part(text)
        if inline is not None:
            self._inline(inline, line)
        elif part is not None:
            name, end = part
            start = len(text) - len(text.lstrip()) + 1
            self._open_section(Heading(name, start, len(name), 1, start, text[end:], end + 1, True), line)
        elif ":" not in text and not BAR_SIGN.search(text) and is_chord_line(text):
            self._over(chord_items(text), line)
        else:
            return False
        return True

    def _heading_or_words(self, text: str, line: int, at: Piece) -> None:
        heading = self._heading(text)
        if heading is None:
            self._bars_or_words(text, line, at, 1)
        elif self._is_title(heading, text):
            self.head.texts["title"] = Piece(heading.name, line, heading.column, heading.length)
        else:
            self._open_section(heading, line)

    def _heading(self, text: str) -> Heading | None:
        again = AGAIN.match(text)
        if again and is_part(again["name"]):
            return read_heading(again["name"] + (again["times"] or ""))
        heading = read_heading(text)
        if heading is None or heading.sure or BAR_SIGN.search(heading.rest):
            return heading
        return None if heading.rest or self.over is not None else heading

    def _open_section(self, heading: Heading, line: int) -> None:
        self._settle()
        super()._open_section(heading, line)
        self.verses.open_section(self.sections[-1])

    def _is_bars(self, text: str) -> bool:
        return bool(BAR_SIGN.search(text)) or is_chord_line(text) or read_inline(text, alone=True) is not None

    def _bars_or_words(self, text: str, line: int, at: Piece, column: int) -> None:
        inline = read_inline(text, column, alone=True) if column > 1 else None
        if inline is not None:
            self._inline(inline, line)
        elif BAR_SIGN.search(text) and is_chord_line(BAR_SIGN.sub(" ", text).replace(":", " ")):
            self._barred(text, line, column)
        elif column > 1 and is_chord_line(text):
            self._over(chord_items(text, column), line)
        else:
            self._sung(at, line)

    def _section(self) -> SectionDraft:
        self._settle()
        if not self.sections:
            self.sections.append(SectionDraft())
            self.bars.open_section(self.sections[0])
            self.verses.open_section(self.sections[0])
        return self.sections[-1]

    def _over(self, tokens: list[Token], line: int) -> None:
        """A line of chords; the words under it come next."""
        section = self._section()
        self.letters += 1
        row, starts = self.rows.row(tokens, line)
        section.key = section.key or self.holding.value("key")
        if row.cells:
            self.over = (row, starts, line)
            self.verses.row(row)
            self._tell_bars(row)

    def _barred(self, text: str, line: int, column: int) -> None:
        """A line of chords whose bars are told."""
        self._section()
        before = len(self.sections[-1].rows)
        self.letters += 1
        self._bars(text, line, column)
        for row in self.sections[-1].rows[before:]:
            self.over = (row, [cell.tokens[0].column for cell in row.cells], line)
            self.verses.row(row)

    def _inline(self, inline: Inline, line: int) -> None:
        self._over([token for token, _ in inline.chords], line)
        if self.over is None:
            return
        row, starts, _ = self.over
        if TIMES.match(inline.words) and inline.words.strip():
            self.bars.play_again(Piece(inline.words.strip(), line, 1, 1), row)
            return
        places = {token.column: place for token, place in inline.chords}
        cells = cut(inline.words, [places[start] for start in starts], exact=True)
        self._give(row, cells, self.source.whole(line))

    def _sung(self, at: Piece, line: int) -> None:
        """Words: under the chords above them, or without any."""
        if NUMBERS.match(at.text):
            self._words(at)
            return
        words = self.source.kept[line - 1]
        if self.over is not None:
            row, starts, above = self.over
            chords = self.source.kept[above - 1]
            if "|" in words:
                cells = [settled_words(cell) for cell in words.strip().strip("|").split("|")]
                cells = [*cells[: len(row.cells) - 1], " ".join(cells[len(row.cells) - 1 :])]
            else:
                cells = cut(words, [over(chords, start - 1, words) for start in starts])
            self._give(row, cells, at)
        elif self.sections and self.sections[-1].rows:
            self.verses.loose(Piece(settled_words(at.text), at.line, at.column, at.length))
        else:
            self._words(at)

    def _give(self, row: Row, cells: list[str], at: Piece) -> None:
        """Put words under the bars of a row."""
        section = self.sections[-1]
        if section.words:  # sung before the section's first chord
            cells[0] = " ".join([*(settled_words(words.text) for words in section.words), cells[0]]).strip()
            section.words = []
        text = joined_cells(cells)
        if text:
            row.words.append(Piece(text, at.line, at.column, at.length))
        self.over = None

    def _settle(self) -> None:
        """Chords that no words followed, and words over which no chords stood."""
        self.over = None
        self.verses.settle()

    def _tell_bars(self, row: Row) -> None:
        if not self.told_bars:
            self.told_bars = True
            taken = NAMES.get(self.rows.a_bar, f"{self.rows.a_bar} chords")
            what = f"nothing says how long the chords last: {taken} a bar"
            self.source.tell(row.cells[0].tokens[0], what, "Put '|' between the bars where it is otherwise")

    def finish(self) -> None:
        """Close the last section."""
        self._settle()
        super().finish()


def stands_alone(lines: list[str]) -> bool:
    """Whether the sheet has chords in brackets among words, so that ``[A]`` alone is one too."""
    found = (read_inline(line) for line in lines)
    return any(inline is not None and inline.words.strip() for inline in found)
