"""The hand in which bars are typed: how a line is taken apart, and what each word of it stands for."""

from typing import Protocol

from fifthwise.exchange.letter_chords import ChordWriter
from fifthwise.exchange.letter_tokens import Token, could_be_music, is_music, split_bars
from fifthwise.exchange.placed import Piece, Source

__all__ = ["Hand", "LetterHand"]


class Hand(Protocol):
    """What a reader of bars asks of a way of typing."""

    def split(self, text: str, column: int) -> list[Token]:
        """Split a line of bars; ``column`` is that of its first character."""

    def is_music(self, token: Token) -> bool:
        """Whether a token is a chord, even one with a slip in it, or stands for one, rather than a word."""

    def could_be_music(self, token: Token) -> bool:
        """Whether a token is music, or may have been meant so."""

    def pieces(self, token: Token, line: int, *, opens: bool) -> list[Piece]:
        """What one token stands for in chart text; ``opens`` where it is the bar's first."""


class LetterHand:
    """Chords in letters."""

    def __init__(self, source: Source) -> None:
        self._chords = ChordWriter(source)

    def split(self, text: str, column: int) -> list[Token]:
        """Split a line of bars at its bar lines and blanks."""
        return split_bars(text, column)

    def is_music(self, token: Token) -> bool:
        """Whether a token is a chord or stands for one."""
        return is_music(token)

    def could_be_music(self, token: Token) -> bool:
        """Whether a token is music, or a chord typed with a small letter."""
        return could_be_music(token)

    def pieces(self, token: Token, line: int, *, opens: bool) -> list[Piece]:
        """A chord or beats as chart text."""
        return self._chords.pieces(token, line, opens=opens)
