"""The hand of a number sheet: its lines parted by a convention, its chords turned into chart text."""

from fifthwise.chart import MARKS
from fifthwise.exchange.holding import Holding
from fifthwise.exchange.letter_tokens import Token, is_chord
from fifthwise.exchange.numbers.chords import counting_of, read_typed, settled_text
from fifthwise.exchange.numbers.convention import Convention
from fifthwise.exchange.numbers.items import RESTS, line_items
from fifthwise.exchange.numbers.lines import part_line
from fifthwise.exchange.numbers.words import is_musical, read_unit, split_word
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import (
    ChordFault,
    Key,
    NumberChord,
    Numbering,
    TheoryError,
    read_key,
    read_letter_chord,
    read_metre,
    to_number,
    write_number,
)

__all__ = ["NumberHand"]

NO_CHORD = "NC"
C_MAJOR = read_key("C")


class NumberHand:
    """Reads bars of numbers typed in one convention, remembering the last chord."""

    def __init__(self, source: Source, holding: Holding, convention: Convention) -> None:
        self.source, self.holding, self.convention = source, holding, convention
        self.spans: tuple[tuple[int, int], ...] = ()  # what is underlined in the next line
        self.last = ""

    @property
    def key(self) -> Key:
        """The key that holds."""
        text = self.holding.value("key")
        return read_key(text) if text else C_MAJOR

    def split(self, text: str, column: int) -> list[Token]:
        """Part a line into bars."""
        try:
            metre = read_metre(self.holding.value("meter"))
        except TheoryError:  # told where it stands
            metre = read_metre("4/4")
        return part_line(text, column, self.convention, metre, self.spans)

    def is_music(self, token: Token) -> bool:
        """Whether a token is a number or stands for one."""
        if token.kind == "word":
            return token.text in RESTS or is_musical(token.text)
        return token.kind != "stray"

    def could_be_music(self, token: Token) -> bool:
        """Whether a token is music, or a letter among numbers."""
        return self.is_music(token) or (token.kind == "word" and is_chord(token.text))

    def pieces(self, token: Token, line: int, *, opens: bool) -> list[Piece]:
        """What one token stands for; ``opens`` where it is the bar's first."""
        at = Piece(token.text, line, token.column, len(token.text))
        if token.kind == "nc":
            return [at.saying(NO_CHORD)]
        if token.kind == "beats":
            return self._beats(at, opens=opens)
        if token.kind == "group":
            return [self._group(at)]
        if token.kind == "word":
            return self._word(at)
        self.source.fault(at, f"'{token.text}' does not belong here", "Leave it out, or write '|' there")
        return [at.saying(NO_CHORD)]

    def _beats(self, at: Piece, *, opens: bool) -> list[Piece]:
        beats = [Piece("/", at.line, at.column + i, 1) for i in range(at.length)]
        if not opens:
            return beats
        if not self.last:
            what = f"the bar opens with '{at.text}', and no chord has been played"
            self.source.fault(at, what, "Write its chord, or 'N.C.'")
        return [beats[0].saying(self.last or NO_CHORD), *beats[1:]]

    def _group(self, at: Piece) -> Piece:
        """Chords in brackets that share a beat."""
        inner: list[str] = []
        for item in line_items(at.text[1:-1]):
            start = at.column + 1 + item.start
            if item.kind in ("word", "rest", "nc", "sign"):
                kind = {"rest": "word", "sign": "beats"}.get(item.kind, item.kind)
                for token in self._joined(Token(kind, item.text, start)):
                    found = self.pieces(token, at.line, opens=not inner)
                    inner += [piece.text for piece in found]
        return at.saying(f"({' '.join(inner or [NO_CHORD])})")

    def _joined(self, token: Token) -> list[Token]:
        if token.kind != "word":
            return [token]
        parts = split_word(token.text, self.convention)
        return [Token("word", part.text, token.column + part.offset) for part in parts]

    def _word(self, at: Piece) -> list[Piece]:
        """A chord with its signs, and the beats that its dots give it."""
        if at.text in RESTS:
            return [at.saying("0")]
        unit = read_unit(at.text, self.convention)
        text = self._checked(at, unit.text)
        marks = [mark for mark in MARKS if mark in unit.marks]
        beats = unit.dots + (self.convention.dots == "more") if unit.dots else 1
        return [at.saying(".".join((text, *marks))), *[at.saying("/")] * (beats - 1)]

    def _checked(self, at: Piece, text: str) -> str:
        counting = counting_of(self.convention, self.key)
        try:
            chord = read_typed(text, counting)
        except ChordFault as fault:
            self._refuse(at, text, fault)
            return NO_CHORD
        self.last = settled_text(chord, counting)
        return self.last

    def _refuse(self, at: Piece, text: str, fault: ChordFault) -> None:
        if is_chord(text):
            number = write_number(self._counted(text))
            what = f"'{text}' is a letter among numbers"
            self.source.fault(at, what, f"In {self.key.short} it is '{number}'", (number,))
        else:
            self.source.fault(at, fault.what, fault.fix, fault.mends)

    def _counted(self, text: str) -> NumberChord:
        return to_number(read_letter_chord(text), Numbering(self.convention.minor).one(self.key))
