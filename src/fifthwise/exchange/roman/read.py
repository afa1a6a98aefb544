"""Sheets whose bars hold Roman numerals, read as charts in numbers."""

from fifthwise.exchange.letter_reading import (
    LetterReading,
    chart_of_letters,
    nothing_read,
    source_of,
    too_long,
    without_remarks,
)
from fifthwise.exchange.letter_sheet import BAR_SIGN, JUMP_FIX, JUMP_LINE, SheetReader
from fifthwise.exchange.letter_tokens import BODY, split_bars
from fifthwise.exchange.placed import Piece, Source
from fifthwise.exchange.roman.hand import FIGURED, RomanHand, is_numeral, numerals
from fifthwise.theory import Key, Numbering, Sevenths, read_key

__all__ = ["is_roman_sheet", "read_roman_sheet"]

MOST = 0.6  # of the chords at least, that are numerals in a sheet of them


class RomanReader(SheetReader):
    """Reads the lines of a sheet in Roman numerals into sections."""

    def __init__(self, source: Source, key: Key | None, hand: RomanHand, home: Key) -> None:
        self.roman, self.home = hand, home
        super().__init__(source, key)
        hand.holding = self.holding

    def _hand(self) -> RomanHand:
        return self.roman

    def _is_bars(self, text: str) -> bool:
        return bool(BAR_SIGN.search(text))

    def _bars_or_words(self, text: str, line: int, at: Piece, column: int) -> None:
        tokens = [token for token in split_bars(text, column) if token.kind in BODY]
        music = [token for token in tokens if self.roman.is_music(token)]
        if BAR_SIGN.search(text) and (len(music) * 2 >= len(tokens) or (music and text.lstrip()[0] == "|")):
            if self.head.key is None:
                self._take_home()
            self._bars(text, line, column)
        elif JUMP_LINE.fullmatch(text.strip()):
            self.source.fault(at, f"'{text.strip()}' stands on a line of its own", JUMP_FIX)
        else:
            self._words(at)

    def _take_home(self) -> None:
        """A key for numbers that are the same in all of them."""
        self.head.set_key(self.home)
        what = f"the key is not said; {self.home.short} is taken, and the numbers are the same in every key"
        self.source.tell(Piece("", 1, 1, 1), what, "Write 'Key: G' at the top if it is G")


def read_roman_sheet(
    text: str,
    file: str,
    key: Key | None = None,
    *,
    title: str | None = None,
    numbering: Numbering = Numbering(),  # noqa: B008 - frozen
    sevenths: Sevenths | None = None,
) -> LetterReading:
    """Read a sheet whose bars hold Roman numerals: ``| I | vi | ii V7 |``.

    Parameters
    ----------
    text, file, title, numbering
        As ``read_letter_chart`` has them.
    key : Key, optional
        The key of the song; ``None`` takes it from a line ``Key: G``, or else C, or A minor where home is
        ``i``.
    sevenths : {'scale', 'minor'}, optional
        What ``I7`` is; ``None`` takes the scale's seventh where the sheet has figures that analyses write
        (``V65``), and a minor one otherwise.
    """
    source = source_of(text, file)
    if too_long(source, text):
        return nothing_read(source)
    words = [word for line in source.lines if BAR_SIGN.search(line) for word in numerals(line)]
    taken = sevenths or ("scale" if any(FIGURED.search(word) for word in words) else "minor")
    home = read_key("Am" if _is_minor(words) else "C")
    hand = RomanHand(source, numbering, taken)
    sheet = RomanReader(source, key, hand, home)
    sheet.read_all(without_remarks(source))
    if sevenths is None and hand.open:
        _tell_sevenths(hand.open[0], source, taken)
    return chart_of_letters(sheet, title, numbering)


def _tell_sevenths(at: Piece, source: Source, taken: Sevenths) -> None:
    if taken == "minor":
        what = f"'{at.text}' has a minor seventh, as on stage, where an analysis means the scale's"
        source.tell(at, what, f"Write '{at.text.replace('7', 'maj7')}' where that is meant")
    else:
        what = f"'{at.text}' has the scale's seventh, as in analyses, a major one"
        source.tell(at, what, f"Write '{at.text.replace('7', 'd7')}' where a minor one is meant")


def _is_minor(words: list[str]) -> bool:
    """Whether the numerals have their home on a small i."""
    small = sum(word.rstrip("/") in ("i", "i7", "i6", "i64") for word in words)
    return small > sum(word.rstrip("/") in ("I", "I7", "I6", "I64") for word in words)


def is_roman_sheet(text: str) -> bool:
    """Whether the bars of a text hold Roman numerals."""
    found = of_all = 0
    for line in text.splitlines():
        if BAR_SIGN.search(line):
            words = [token.text for token in split_bars(line) if token.kind == "word"]
            of_all += len(words)
            found += sum(is_numeral(word) for word in words)
    return found > 1 and found >= MOST * of_all
