"""What stands beside the chords of a bar in letters: endings, metres, keys, jumps and cues."""

import re

from fifthwise.exchange.holding import HELD, Holding
from fifthwise.exchange.letter_cells import Cell
from fifthwise.exchange.letter_tokens import Token
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import TheoryError, read_key, read_metre

__all__ = ["MarkWriter", "cue_piece"]

JUMPS = {"𝄋": "segno", "𝄌": "coda", "segno": "segno"}
RANGE = re.compile(r"(\d)(?:st|nd|rd|th)?\.?\s*-\s*(\d)")


class MarkWriter:
    """Puts marks into a cell; what holds from here on goes to ``holding``."""

    def __init__(self, source: Source, holding: Holding) -> None:
        self.source, self.holding = source, holding
        self.faulty_metre: int | None = None  # the first line that says a metre which cannot be read

    def write(self, token: Token, line: int, cell: Cell) -> None:
        """Put one mark into the cell that it stands in or before."""
        at = Piece(token.text, line, token.column, len(token.text))
        if token.kind == "ending":
            self._ending(at, cell)
        elif token.kind == "metre":
            cell.metre = at.saying(f"[{' '.join(at.text[1:-1].split())}]")
        elif token.kind == "metre on":
            self._metre_on(at)
        elif token.kind == "mark":
            self._bracket(at, cell)
        elif token.kind == "cue":
            (cell.after if cell.tokens else cell.before).append(cue_piece(at, at.text[1:-1]))
        elif token.kind == "jump":
            self._jump(at, cell)
        else:
            what = f"'{at.text}' does not say which bars it repeats"
            self.source.fault(at, what, "Put '|:' and ':|' round them, or write it at the end of the line")

    def _ending(self, at: Piece, cell: Cell) -> None:
        self.holding.open_ending()
        numbers = [int(n) for n in re.findall(r"\d", at.text)]
        for low, high in RANGE.findall(at.text):
            numbers += range(int(low), int(high) + 1)
        shown = " ".join(f"{n}." for n in sorted(set(numbers)))
        cell.before.insert(0, at.saying(f"[{shown}]"))

    def _metre_on(self, at: Piece) -> None:
        before = self.holding.value("meter") or "4/4"
        if self.say("meter", at) and self.holding.value("meter") != before:
            fix = f"Write '({at.text})' where it is for one bar only"
            self.source.tell(at, f"{at.text} holds from this bar on", fix)

    def say(self, name: str, at: Piece) -> bool:
        """Let a key, metre, tempo or feel hold from here on; a fault in it is noted."""
        try:
            self.holding.say(name, at.saying(_settled(name, at.text)))
        except TheoryError as fault:
            self.source.fault(at, fault.what, fault.fix)
            if name == "meter" and self.faulty_metre is None:
                self.faulty_metre = at.line
            return False
        return True

    def _bracket(self, at: Piece, cell: Cell) -> None:
        name, _, rest = at.text[1:-1].strip().partition(" ")
        name = {"metre": "meter", "time": "meter"}.get(name.lower(), name.lower())
        if name in HELD and rest and rest.strip()[0] not in "+-":
            self.say(name, at.saying(rest.strip()))
        else:
            (cell.after if cell.tokens else cell.before).append(at)

    def _jump(self, at: Piece, cell: Cell) -> None:
        plain = at.text.lower()
        if plain in JUMPS:
            cell.before.append(at.saying(f"[{JUMPS[plain]}]"))
            return
        words = plain.replace(".", "").split()
        text = " ".join(words).replace("d s ", "ds ").replace("d c ", "dc ")
        cell.after.append(at.saying(f"[{text}]"))


def cue_piece(at: Piece, text: str) -> Piece:
    """Words for the band as chart text writes them."""
    return at.saying('"' + " ".join(text.replace('"', "'").split()) + '"')


def _settled(name: str, text: str) -> str:
    """A key with its mode, or a metre, in the one form in which it is compared."""
    if name == "key":
        key = read_key(text)
        return f"{key.tonic} {key.mode}"
    return str(read_metre(text)) if name == "meter" else text
