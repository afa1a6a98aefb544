"""Chords without bar lines made into bars: so many a bar, or as many beats as strokes say."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from fifthwise.exchange.letter_bars import BarsReader
from fifthwise.exchange.letter_cells import Cell, Row
from fifthwise.exchange.letter_marks import cue_piece
from fifthwise.exchange.letter_tokens import BODY, Token, is_chord
from fifthwise.exchange.over_words.lines import is_slip
from fifthwise.exchange.placed import Piece
from fifthwise.theory import MetreFault, read_metre

__all__ = ["RowMaker"]

SOUNDING = ("nc", "word", "group", "same", "bass")


@dataclass(slots=True)
class RowMaker:
    """Makes rows of bars of lines of chords.

    Attributes
    ----------
    bars : BarsReader
        Which keeps what holds and what was played last.
    a_bar : int
        How many chords a bar has where nothing else is said.
    last : str
        The last chord, for the signs that repeat it.
    """

    bars: BarsReader
    a_bar: int
    last: str = ""

    def row(self, tokens: Sequence[Token], line: int) -> tuple[Row, list[int]]:
        """A row of bars, and for each of them the column at which it begins."""
        row, starts = Row([]), []
        kept = [token for token in tokens if token.kind not in ("bar", "times")]
        for group in self._grouped(kept):
            starts.append(next(token.column for token in group if self._sounds(token)))
            row.cells.append(self._cell(group, line))
        if row.cells:
            self.bars.section.rows.append(row)
        for times in (token for token in tokens if token.kind == "times"):
            self.bars.play_again(_piece(times, line), row)
        return row, starts

    def _sounds(self, token: Token) -> bool:
        return token.kind in SOUNDING and not _is_remark(token)

    def _grouped(self, tokens: Sequence[Token]) -> Iterator[list[Token]]:
        """The tokens of each bar; what stands beside chords goes with the chord before, or the first."""
        beats = self._beats()
        strokes = any(token.kind == "beats" or token.text.endswith("/") for token in tokens)
        counted = strokes and sum(map(_lasts, tokens)) % beats == 0
        if not counted:  # then strokes only part the chords
            tokens = [token for token in tokens if token.kind != "beats"]
        full = beats if counted else self.a_bar
        group: list[Token] = []
        filled = 0
        for token in tokens:
            worth = _lasts(token) if counted else int(self._sounds(token))
            if worth and filled >= full:
                yield group
                group, filled = [], 0
            group.append(token)
            filled += worth
        if filled:
            yield group

    def _beats(self) -> int:
        try:
            return read_metre(self.bars.holding.value("meter") or "4/4").beats
        except MetreFault:
            return 4

    def _cell(self, tokens: Sequence[Token], line: int) -> Cell:
        bars = self.bars
        cell, bars.cell = bars.cell, Cell()
        cell.before += bars.holding.marks(line, tokens[0].column)
        for token in tokens:
            if _is_remark(token):
                at = _piece(token, line)
                (cell.after if cell.tokens else cell.before).append(cue_piece(at, token.text.strip("()")))
                bars.source.tell(at, f"'{token.text}' is kept as a cue", "Put it in quotes, or leave it out")
            elif token.kind in BODY:
                cell.tokens += self._pieces(token, line)
            else:
                bars.marks.write(token, line, cell)
        cell.tokens += self._rest(cell.tokens)
        bars.played = cell
        return cell

    def _rest(self, tokens: Sequence[Piece]) -> list[Piece]:
        """The beats that the last of some chords has more where they cannot share a bar evenly."""
        beats, count = self._beats(), len(tokens)
        if count < 2 or beats % count == 0 or count > beats or any(p.text in ("/", "-") for p in tokens):
            return []
        return [replace(tokens[-1], text="/")] * (beats - count)

    def _pieces(self, token: Token, line: int) -> list[Piece]:
        if token.kind == "same":
            return [Piece(self.last or "NC", line, token.column, len(token.text))]
        found = self.bars.hand.pieces(token, line, opens=False)
        if token.kind == "word":
            self.last = found[0].text
        return found


def _is_remark(token: Token) -> bool:
    """Whether something on a line of chords is words for the band."""
    if token.kind == "group":
        return not all(is_chord(word) for word in token.text[1:-1].split())
    bare = token.text.rstrip("/")
    return token.kind == "stray" or (token.kind == "word" and not is_chord(bare) and not is_slip(token))


def _lasts(token: Token) -> int:
    """How many beats a token is worth where strokes count them."""
    if _is_remark(token):
        return 0
    if token.kind == "beats":
        return len(token.text)
    if token.kind == "word":
        return 1 + len(token.text) - len(token.text.rstrip("/"))
    return int(token.kind in SOUNDING)


def _piece(token: Token, line: int) -> Piece:
    return Piece(token.text, line, token.column, len(token.text))
