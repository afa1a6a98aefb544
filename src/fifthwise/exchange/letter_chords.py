"""The chords of a bar in letters, and what stands for a chord: beats, repeats of a bar, a moving bass."""

from fifthwise.chart import MARKS
from fifthwise.exchange.letter_german import english_name
from fifthwise.exchange.letter_tokens import Token, is_chord, is_number, split_bars
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import ChordFault, read_letter_chord

__all__ = ["ChordWriter"]

NO_CHORD = "NC"


class ChordWriter:
    """Turns chords and beats into chart text, remembering the last chord."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.last = ""  # as it was typed, without marks

    def pieces(self, token: Token, line: int, *, opens: bool) -> list[Piece]:
        """What one token stands for; ``opens`` where it is the bar's first."""
        at = Piece(token.text, line, token.column, len(token.text))
        if token.kind == "nc":
            return [at.saying(NO_CHORD)]
        if token.kind == "beats":
            return self._beats(at, opens=opens)
        if token.kind == "bass":
            return [self._over_bass(at)]
        if token.kind == "group":
            return [self._group(at)]
        if token.kind == "word":
            return self._word(at)
        self.source.fault(at, f"'{token.text}' does not belong here", "Leave it out, or write '|' there")
        return [at.saying(NO_CHORD)]

    def _beats(self, at: Piece, *, opens: bool) -> list[Piece]:
        """Slashes, dots or dashes, a beat each; at the start of a bar the first strikes the last chord."""
        beats = [Piece("/", at.line, at.column + i, 1) for i in range(at.length)]
        if not opens:
            return beats
        if not self.last:
            what = f"the bar opens with '{at.text}', and no chord has been played"
            self.source.fault(at, what, "Write its chord, or 'N.C.'")
        return [beats[0].saying(self.last or NO_CHORD), *beats[1:]]

    def _over_bass(self, at: Piece) -> Piece:
        """``/F#`` puts the last chord over another bass."""
        if not self.last:
            self.source.fault(at, f"'{at.text}' follows no chord", "Write the chord too, as in 'D/F#'")
            return at.saying(NO_CHORD)
        return at.saying(self.last.split("/")[0] + at.text)

    def _group(self, at: Piece) -> Piece:
        """Chords in brackets share a beat."""
        inner: list[str] = []
        for token in split_bars(at.text[1:-1], at.column + 1):
            found = self.pieces(token, at.line, opens=not inner)
            inner += [piece.text for piece in found]
        if not inner:
            self.source.fault(at, "the brackets are empty", "Write chords that share a beat, as in '(C D)'")
        return at.saying(f"({' '.join(inner or [NO_CHORD])})")

    def _word(self, at: Piece) -> list[Piece]:
        """A chord, with slashes that may touch it (``G///``)."""
        name = at.text.rstrip("/")
        beats = [Piece("/", at.line, at.column + i, 1) for i in range(len(name), at.length)]
        chord = Piece(name, at.line, at.column, len(name))
        return [self._chord(chord), *beats]

    def _chord(self, at: Piece) -> Piece:
        name, *marks = at.text.split(".")
        if marks and set(marks) <= set(MARKS):
            return at.saying(".".join((self._checked(at, name), *marks)))
        return at.saying(self._checked(at, at.text))

    def _checked(self, at: Piece, name: str) -> str:
        try:
            read_letter_chord(name)
        except ChordFault as fault:
            self._refuse(at, name, fault)
            return NO_CHORD
        self.last = name
        return name

    def _refuse(self, at: Piece, name: str, fault: ChordFault) -> None:
        bare = name.strip(".")
        capital = name[:1].upper() + name[1:]
        if is_number(name):
            self.source.fault(at, f"'{name}' is a number among letters", "Write the chord's letter")
        elif bare != name and bare:
            what, mend = f"'{name}' is not clear", f"{bare} /"
            self.source.fault(at, what, f"Write dots apart, a beat each, as in '{mend}'", (mend,))
        elif (english := english_name(name)) is not None:
            what, fix = f"'{name}' is no chord in English letters", f"Did you mean '{english}'?"
            self.source.fault(at, what, fix, (english,))
        elif name[:1] in ("H", "h"):
            mend = f"B{name[1:]}"
            what, fix = f"'{name}' is no chord in English letters", f"Did you mean '{mend}'?"
            self.source.fault(at, what, fix, (mend,))
        elif capital != name and is_chord(capital):
            self.source.fault(at, f"'{name}' is no chord", f"Did you mean '{capital}'?", (capital,))
        else:
            self.source.fault(at, fault.what, fault.fix, fault.mends)
