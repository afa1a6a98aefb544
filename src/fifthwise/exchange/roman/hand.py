"""Bars typed in Roman numerals: each numeral becomes a number of the key that holds."""

import re

from fifthwise.exchange.holding import Holding
from fifthwise.exchange.letter_tokens import Token, split_bars
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import (
    SEVENTHS,
    ChordFault,
    Numbering,
    Sevenths,
    plain_signs,
    read_key,
    read_roman,
    write_number,
)

__all__ = ["FIGURED", "RomanHand", "is_numeral"]

# Figures that only analyses write: an inversion with its seventh, a half-diminished chord with a stroke.
FIGURED = re.compile(r"6/?5|4/?3|4/?2|/o")
LOOKS = re.compile(r"[b#♭♯]{0,2}(?:VII|VI|V|IV|III|II|I|vii|vi|v|iv|iii|ii|i)(?![A-Za-z]{2})")
C_MAJOR = read_key("C")
NO_CHORD = "NC"


def is_numeral(text: str) -> bool:
    """Whether a word is a Roman numeral, perhaps with strokes that touch it."""
    try:
        read_roman(text.rstrip("/"), C_MAJOR)
    except ChordFault:
        return False
    return True


class RomanHand:
    """Chords in Roman numerals.

    Attributes
    ----------
    open : list of Piece
        Numerals whose 7 is a minor seventh on stage and a major one in analyses.
    """

    def __init__(self, source: Source, numbering: Numbering, sevenths: Sevenths) -> None:
        self.source, self.numbering, self.sevenths = source, numbering, sevenths
        self.holding: Holding | None = None  # the reader's, which knows the key
        self.last = ""
        self.open: list[Piece] = []

    def split(self, text: str, column: int) -> list[Token]:
        """Split a line of bars at its bar lines and blanks."""
        return split_bars(text, column)

    def is_music(self, token: Token) -> bool:
        """Whether a token is a numeral, even one with a slip in it, or stands for one."""
        if token.kind == "group":
            return any(is_numeral(word) for word in token.text.strip("()").split())
        if token.kind == "word":
            return bool(LOOKS.match(token.text)) or is_numeral(token.text)
        return token.kind != "stray"

    def could_be_music(self, token: Token) -> bool:
        """Whether a token is music."""
        return self.is_music(token)

    def pieces(self, token: Token, line: int, *, opens: bool) -> list[Piece]:
        """What one token stands for in chart text."""
        at = Piece(token.text, line, token.column, len(token.text))
        if token.kind == "nc":
            return [at.saying(NO_CHORD)]
        if token.kind == "beats":
            return self._beats(at, opens=opens)
        if token.kind == "group":
            inner = [self._numeral(at.saying(word)) for word in token.text[1:-1].split()]
            return [at.saying(f"({' '.join(piece.text for piece in inner) or NO_CHORD})")]
        if token.kind == "word":
            name = token.text.rstrip("/")
            beats = [Piece("/", line, token.column + i, 1) for i in range(len(name), at.length)]
            return [self._numeral(Piece(name, line, token.column, len(name))), *beats]
        self.source.fault(at, f"'{token.text}' does not belong here", "Leave it out, or write '|' there")
        return [at.saying(NO_CHORD)]

    def _beats(self, at: Piece, *, opens: bool) -> list[Piece]:
        beats = [Piece("/", at.line, at.column + i, 1) for i in range(at.length)]
        return [beats[0].saying(self.last or NO_CHORD), *beats[1:]] if opens else beats

    def _numeral(self, at: Piece) -> Piece:
        key = read_key((self.holding.value("key") if self.holding else "") or "C")
        try:
            chord = read_roman(at.text, key, self.numbering, sevenths=self.sevenths)
        except ChordFault as fault:
            self.source.fault(at, fault.what, fault.fix)
            return at.saying(NO_CHORD)
        if len({read_roman(at.text, key, self.numbering, sevenths=each) for each in SEVENTHS}) > 1:
            self.open.append(at)
        scale = self.numbering.scale(key) if self.numbering.plain == "diatonic" else ()
        self.last = write_number(chord, scale=scale, lowers=self.numbering.lowers(key))
        return at.saying(self.last)


def numerals(text: str) -> list[str]:
    """The words of a line of bars that are numerals."""
    words = (token.text for token in split_bars(text) if token.kind in ("word", "group"))
    return [word for group in words for word in plain_signs(group).strip("()").split() if is_numeral(word)]
