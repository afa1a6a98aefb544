"""One bar of MEI: its notes with beams and tuplets, and what hangs on them."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.page.staff.accidentals import Accidentals
from fifthwise.page.staff.beams import beams
from fifthwise.page.staff.element import element
from fifthwise.page.staff.model import StaffBar, StaffNote
from fifthwise.page.staff.pieces import Piece, written_pieces
from fifthwise.theory import SpelledPitch

__all__ = ["BarMaker", "Slurs"]

ALTERS = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "x"}
SOUNDS = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "ss"}
MIDDLE = {
    "treble": ("b", 4), "treble-8": ("b", 3), "alto": ("c", 4), "tenor": ("a", 3), "bass": ("d", 3),
}  # fmt: skip
GRACE = 8
# The first sign and the one after the last, what they stand in, and its attributes.
Stretch = tuple[int, int, str, dict[str, str | int]]


@dataclass(slots=True)
class Slurs:
    """Slurs of a tune, which may reach over bar lines.

    Attributes
    ----------
    open : str
        Where the one that is open began; empty for none.
    last : str
        The note before.
    """

    open: str = ""
    last: str = ""


@dataclass(slots=True)
class BarMaker:
    """Writes one bar after another.

    Parameters
    ----------
    verses : int
        Lines of numbers under the staff.
    words : bool
        Whether syllables stand under them.
    """

    clef: str
    accidentals: Accidentals
    verses: int
    words: bool = False
    slurs: Slurs = field(default_factory=Slurs)

    def layer(self, bar: StaffBar, number: int, then: StaffBar | None) -> tuple[str, str]:
        """The notes of a bar, and the slurs and ties that end in it.

        Parameters
        ----------
        number : int
            Of the bar, for the names of its notes.
        then : StaffBar or None
            The next bar.
        """
        self.accidentals.next_bar(bar.key)
        if not bar.notes and not bar.pickup:
            return element("mRest", xml_id=f"r{number}"), ""
        pieces = written_pieces(bar)
        late = bar.metre.length - bar.length if bar.pickup else Fraction(0)
        over = then is not None and bool(then.notes) and then.notes[0].goes_on and then.notes[0].at == 0
        last = len(pieces) - 1
        signs = [
            self._sign(piece, f"n{number}-{at}", over=over and at == last) for at, piece in enumerate(pieces)
        ]
        hung = "".join(self._hung(pieces, number))
        return _nested(signs, pieces, beams(pieces, bar.metre, late)), hung

    def _sign(self, piece: Piece, name: str, *, over: bool) -> str:
        written: dict[str, str | int] = {"dur": piece.duration or "breve"}
        if piece.dots:
            written["dots"] = piece.dots
        note = piece.note
        if note is None:
            return element("rest", xml_id=name, **written)
        if not note.pitches:
            letter, octave = MIDDLE[self.clef]
            return element("note", xml_id=name, **written, pname=letter, oct=octave, head_shape="x")
        tied = note.goes_on or not piece.first
        tie = _tie(before=tied, after=not piece.last or over)
        under = self._under(note) if not tied else ""
        heads = [self._head(pitch, tied=tied) for pitch in note.pitches]
        graces = "".join(self._grace(pitch) for pitch in note.grace) if not tied else ""
        if len(heads) == 1:
            attributes, accidental = heads[0]
            return graces + element("note", accidental + under, xml_id=name, **written, **attributes, **tie)
        inner = "".join(
            element("note", accidental, xml_id=f"{name}-{at}", **attributes, **tie)
            for at, (attributes, accidental) in enumerate(heads)
        )
        return graces + element("chord", inner + under, xml_id=name, **written)

    def _head(self, pitch: SpelledPitch, *, tied: bool) -> tuple[dict[str, str | int], str]:
        name = pitch.name
        attributes: dict[str, str | int] = {"pname": name.letter.lower(), "oct": pitch.octave}
        if self.accidentals.needed(pitch, tied=tied):
            return attributes, element("accid", accid=ALTERS[name.alter])
        return attributes, element("accid", accid_ges=SOUNDS[name.alter]) if name.alter else ""

    def _grace(self, pitch: SpelledPitch) -> str:
        attributes, accidental = self._head(pitch, tied=False)
        return element("note", accidental, dur=GRACE, grace="acc", stem_mod="1slash", **attributes)

    def _under(self, note: StaffNote) -> str:
        """Numbers, the highest note's next to the staff, and a syllable under all of them."""
        numbers = tuple(reversed(note.numbers))
        found = [
            element("verse", element("syl", text), n=line)
            for line, text in enumerate(numbers, start=1)
            if text
        ]
        if self.words and note.syllable:
            goes_on = note.syllable.endswith("-") and note.syllable != "-"
            text = note.syllable.rstrip("-") if goes_on else note.syllable
            parts = {"con": "d"} if goes_on else {}
            found.append(element("verse", element("syl", text, **parts), n=self.verses + 1))
        return "".join(found)

    def _hung(self, pieces: Sequence[Piece], number: int) -> Iterator[str]:
        """Slurs that end here; a tie from a bar that is not shown."""
        for at, piece in enumerate(pieces):
            name, note = f"n{number}-{at}", piece.note
            if note is None:
                self.slurs.open = ""
                continue
            if note.goes_on and at == 0 and not self.slurs.last:
                yield element("tie", tstamp="0", endid=f"#{name}", staff=1)
            if piece.first and not note.goes_on and self.slurs.open and not note.slurred:
                yield element("slur", startid=f"#{self.slurs.open}", endid=f"#{name}", staff=1)
                self.slurs.open = ""
            if note.slurred and piece.first and not self.slurs.open:
                self.slurs.open = name
            self.slurs.last = name


def _tie(*, before: bool, after: bool) -> dict[str, str]:
    place = {(True, True): "m", (True, False): "t", (False, True): "i"}.get((before, after), "")
    return {"tie": place} if place else {}


def _nested(signs: Sequence[str], pieces: Sequence[Piece], under: Sequence[range]) -> str:
    """Signs put into their tuplets and beams, the wider outside."""
    stretches: list[Stretch] = [(run.start, run.stop, "beam", {}) for run in under]
    for tuplet in dict.fromkeys(piece.tuplet for piece in pieces if piece.tuplet):
        places = [at for at, piece in enumerate(pieces) if piece.tuplet == tuplet]
        ratio: dict[str, str | int] = {"num": tuplet.number, "numbase": tuplet.base, "num_format": "count"}
        if (places[0], places[-1] + 1) in [(run.start, run.stop) for run in under]:
            ratio["bracket_visible"] = "false"
        stretches.append((places[0], places[-1] + 1, "tuplet", ratio))
    stretches.sort(key=lambda each: (each[0], -each[1], each[2] == "beam"))
    return _tree(signs, stretches, 0, len(signs))


def _tree(signs: Sequence[str], stretches: Sequence[Stretch], at: int, end: int) -> str:
    found = ""
    while at < end:
        here = next((place for place, each in enumerate(stretches) if each[0] == at and each[1] <= end), None)
        if here is None:
            found, at = found + signs[at], at + 1
            continue
        start, stop, tag, attributes = stretches[here]
        found += element(tag, _tree(signs, stretches[here + 1 :], start, stop), **attributes)
        at = stop
    return found
