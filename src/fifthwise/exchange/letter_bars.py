"""Lines of bars in letters, read into cells of chart text."""

from collections.abc import Iterator
from typing import NamedTuple

from fifthwise.exchange.holding import Holding
from fifthwise.exchange.letter_cells import Cell, Row, SectionDraft
from fifthwise.exchange.letter_hand import Hand, LetterHand
from fifthwise.exchange.letter_marks import MarkWriter, cue_piece
from fifthwise.exchange.letter_tokens import BODY, SIGNS, Token, is_chord
from fifthwise.exchange.placed import Piece, Source

__all__ = ["BarsReader"]

ALONE = ("/", "//", ".")  # a bar of only this is the bar before again


class Part(NamedTuple):
    """What stands between two bar lines, and those; ``None`` at an end of the line."""

    opening: Token | None
    tokens: list[Token]
    closing: Token | None


class BarsReader:
    """Reads lines of bars, keeping what goes from one to the next; in letters unless ``hand`` says more."""

    def __init__(self, source: Source, holding: Holding, hand: Hand | None = None) -> None:
        self.source, self.holding = source, holding
        self.hand, self.marks = hand or LetterHand(source), MarkWriter(source, holding)
        self.section = SectionDraft()
        self.cell = Cell()  # the next bar, with what already stands before it
        self.played: Cell | None = None  # the last bar whose chords were written

    def open_section(self, section: SectionDraft) -> None:
        """Go on with another section."""
        self.section = section
        self.holding.open_section()

    def close_section(self) -> None:
        """What still stands before a bar that does not come belongs to none."""
        cell, self.cell = self.cell, Cell()
        for piece in (
            *([cell.opens] if cell.opens else []),
            *cell.before,
            *([cell.metre] if cell.metre else []),
        ):
            self.source.fault(
                piece, f"'{piece.text}' belongs to no bar", "Put it before the bar where it begins"
            )

    def read(self, text: str, line: int, column: int = 1) -> None:
        """Read one line; ``column`` is that of the text's first character."""
        row = Row([])
        for part in _parts(self.hand.split(text, column)):
            body = [token for token in part.tokens if token.kind in BODY]
            at_edge = part.opening is None or part.closing is None
            if body and not (at_edge and self._is_remark(body)):
                self._bar(part, line, row)
            else:
                self._aside(part, line, row)
            if part.closing is not None:
                self._close(part.closing, line, row, first=part.opening is None)
                self._open(part.closing, line)
        if row.cells:
            self.section.rows.append(row)

    def _bar(self, part: Part, line: int, row: Row) -> None:
        tokens, times = part.tokens, None
        if part.closing is None and tokens[-1].kind == "times":
            tokens, times = tokens[:-1], tokens[-1]
        if tokens[0].kind == "times" and row.cells and row.cells[-1].closes:
            self.play_again(_piece(tokens[0], line), row)
            tokens = tokens[1:]
        first = next(i for i, token in enumerate(tokens) if token.kind in BODY)
        cell, self.cell = self.cell, Cell()
        for token in tokens[:first]:
            self.marks.write(token, line, cell)
        cell.before += self.holding.marks(line, tokens[first].column)
        if _is_same(tokens[first:]):
            self._same(_piece(tokens[first], line), cell, opens=not (row.cells or self.section.rows))
        else:
            self._fill(tokens[first:], line, cell)
            self.played = cell
        row.cells.append(cell)
        if times is not None:
            self.play_again(_piece(times, line), row)

    def _fill(self, tokens: list[Token], line: int, cell: Cell) -> None:
        for token in tokens:
            if token.kind == "same":
                what, fix = "'%' stands beside chords", "Let it fill its bar alone, or write the chords"
                self.source.fault(_piece(token, line), what, fix)
                cell.tokens.append(Piece("NC", line, token.column, len(token.text)))
            elif token.kind in BODY:
                cell.tokens += self.hand.pieces(token, line, opens=not cell.tokens)
            else:
                self.marks.write(token, line, cell)

    def _same(self, at: Piece, cell: Cell, *, opens: bool) -> None:
        """The bar before again; where chart text has no '%', its chords are written out."""
        if self.played is None:
            self.source.fault(at, f"'{at.text}' has no bar before it", "Write the chords")
            cell.tokens = [Piece("NC", at.line, at.column, at.length)]
        elif opens or cell.before or cell.metre:
            cell.tokens = [Piece(p.text, at.line, at.column, at.length) for p in self.played.tokens]
            cell.metre = cell.metre or self.played.metre
        else:
            cell.tokens = [Piece("%", at.line, at.column, at.length)]

    def _aside(self, part: Part, line: int, row: Row) -> None:
        """What stands between bar lines without being a bar."""
        last = row.cells[-1] if row.cells else None
        words = [token for token in part.tokens if token.kind in BODY]
        for token in part.tokens:
            if token.kind == "times":
                self.play_again(_piece(token, line), row)
            elif token.kind in ("jump", "cue") and last is not None and part.closing is None:
                self.marks.write(token, line, last)
            elif token.kind not in BODY:
                self.marks.write(token, line, self.cell)
        if words:
            at = Piece(" ".join(w.text for w in words), line, words[0].column, 1)
            at = Piece(at.text, line, at.column, words[-1].column + len(words[-1].text) - at.column)
            target = last.after if last is not None and part.closing is None else self.cell.before
            target.append(cue_piece(at, at.text.strip("()")))
            self.source.tell(at, f"'{at.text}' is kept as a cue", "Put it in quotes, or leave it out")
        elif not part.tokens and part.opening is not None and part.closing is not None:
            self._empty(part.opening, part.closing, line)

    def _empty(self, opening: Token, closing: Token, line: int) -> None:
        if SIGNS.get(opening.text, opening.text) == "|" == SIGNS.get(closing.text, closing.text):
            at = Piece("", line, opening.column, closing.column + 1 - opening.column)
            self.source.fault(at, "this bar is empty", "Write '%' to play the bar before again, or 'N.C.'")

    def _open(self, sign: Token, line: int) -> None:
        text = SIGNS.get(sign.text, sign.text)
        if len(text) > 1 and text.endswith(":"):
            self.cell.opens = Piece("|:", line, sign.column, len(sign.text))

    def _close(self, sign: Token, line: int, row: Row, *, first: bool) -> None:
        text = SIGNS.get(sign.text, sign.text)
        cells = row.cells or (self.section.rows[-1].cells if self.section.rows else [])
        if text in ("|", "|:") or (text.startswith("|") and first and not row.cells):
            return
        closes = text if text in (":||", "||") else ":|" if text.startswith(":") else "||"
        at = Piece(closes, line, sign.column, len(sign.text))
        if cells and cells[-1].closes is None:
            cells[-1].closes = at
            self.holding.close_ending()
        elif closes != "||":
            fix = "Write it after the last bar that is repeated"
            self.source.fault(at, f"'{sign.text}' closes no bars", fix)

    def play_again(self, at: Piece, row: Row | None = None) -> None:
        """Repeat what an ``x2`` stands behind: the repeat that just closed, or else its line of bars."""
        times = int("".join(c for c in at.text if c.isdigit()))
        row = row or (self.section.rows[-1] if self.section.rows else Row([]))
        if times < 2 or not row.cells:
            self.source.fault(at, f"'{at.text}' repeats nothing", "Write 'x2' or more behind the bars")
            return
        last = row.cells[-1]
        if last.closes is None or last.closes.text == "||":
            if any(cell.closes and cell.closes.text != "||" for cell in row.cells):
                what = f"'{at.text}' does not say which bars it repeats"
                self.source.fault(at, what, "Put '|:' and ':|' round them")
                return
            if not self._is_open(row):
                row.cells[0].opens = Piece("|:", at.line, at.column, at.length)
            last.closes = Piece(":||" if last.closes else ":|", at.line, at.column, at.length)
        if times > 2:
            last.times = Piece(f"x{times}", at.line, at.column, at.length)

    def _is_open(self, row: Row) -> bool:
        """Whether a ``|:`` before or in the row is still to be closed."""
        for cells in (row.cells, *(before.cells for before in reversed(self.section.rows))):
            for cell in reversed(cells):
                if cell.opens:
                    return True
                if cell.closes and cell.closes.text != "||":
                    return False
        return False

    def _is_remark(self, body: list[Token]) -> bool:
        """Whether what stands at the end of a line is words, not a bar."""
        if self.hand.is_music(body[0]) or all(self.hand.could_be_music(token) for token in body):
            return False
        return sum(self.hand.is_music(token) for token in body) * 2 < len(body)


def _parts(tokens: list[Token]) -> Iterator[Part]:
    """Split a line at its bar lines; a chord in square brackets is a chord."""
    opening: Token | None = None
    inside: list[Token] = []
    for token in tokens:
        if token.kind == "bar":
            yield Part(opening, inside, token)
            opening, inside = token, []
        elif token.kind == "mark" and is_chord(token.text[1:-1].strip()):
            inside.append(Token("word", token.text[1:-1].strip(), token.column + 1))
        else:
            inside.append(token)
    yield Part(opening, inside, None)


def _is_same(tokens: list[Token]) -> bool:
    alone = len(tokens) == 1
    return alone and (tokens[0].kind == "same" or (tokens[0].kind == "beats" and tokens[0].text in ALONE))


def _piece(token: Token, line: int) -> Piece:
    return Piece(token.text, line, token.column, len(token.text))
