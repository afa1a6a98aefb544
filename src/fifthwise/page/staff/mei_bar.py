"""One bar of MEI: its notes with beams and tuplets, and what hangs on them."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.page.layout_view import Clef
from fifthwise.page.staff.accidentals import Accidentals
from fifthwise.page.staff.beams import beams
from fifthwise.page.staff.element import element
from fifthwise.page.staff.mei_hung import Hung, head_names, sign_name
from fifthwise.page.staff.model import StaffBar, StaffNote
from fifthwise.page.staff.pieces import Piece, written_pieces
from fifthwise.theory import SpelledPitch

__all__ = ["BarMaker"]

ALTERS = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "x"}
SOUNDS = {-2: "ff", -1: "f", 0: "n", 1: "s", 2: "ss"}
MIDDLE: dict[Clef, tuple[str, int]] = {
    "treble": ("b", 4), "treble-8": ("b", 3), "alto": ("c", 4), "tenor": ("a", 3), "bass": ("d", 3),
}  # fmt: skip
GRACE = 8
Attributes = dict[str, str | int]
# The first sign and the one after the last, what they stand in, and its attributes.
Stretch = tuple[int, int, str, Attributes]


@dataclass(slots=True)
class BarMaker:
    """Writes one bar after another.

    Attributes
    ----------
    hung : Hung
        Ties and slurs.
    """

    clef: Clef
    accidentals: Accidentals
    hung: Hung = field(default_factory=Hung)

    def layer(self, bar: StaffBar, number: int) -> str:
        """The notes of a bar; ``number`` is in their names."""
        self.accidentals.next_bar(bar.key)
        if bar.opens:
            self.hung.leave()
        if not bar.notes and not bar.pickup:
            self.hung.leave()
            return element("mRest", xml_id=f"r{number}")
        pieces = written_pieces(bar)
        late = bar.metre.length - bar.length if bar.pickup else Fraction(0)
        signs = [self._sign(piece, sign_name(number, place)) for place, piece in enumerate(pieces)]
        self.hung.add(pieces, number)
        return _nested(signs, pieces, beams(pieces, bar.metre, late))

    def _sign(self, piece: Piece, name: str) -> str:
        written: Attributes = {"xml_id": name, "dur": piece.duration or "breve"}
        if piece.dots:
            written["dots"] = piece.dots
        note = piece.note
        if note is None:
            return element("rest", **written)
        if not note.pitches:
            letter, octave = MIDDLE[self.clef]
            return element("note", **written, pname=letter, oct=octave, head_shape="x")
        tied = note.goes_on or not piece.first
        graces = "" if tied else "".join(self._grace(pitch) for pitch in note.grace)
        return graces + self._note(note, written, tied=tied)

    def _note(self, note: StaffNote, written: Attributes, *, tied: bool) -> str:
        heads = [self._head(pitch, tied=tied) for pitch in note.pitches]
        under = "" if tied else self._under(note)
        if len(heads) == 1:
            attributes, accidental = heads[0]
            return element("note", accidental + under, **written, **attributes)
        names = head_names(str(written["xml_id"]), note)
        inner = "".join(
            element("note", accidental, xml_id=name, **attributes)
            for name, (attributes, accidental) in zip(names, heads, strict=True)
        )
        return element("chord", inner + under, **written)

    def _head(self, pitch: SpelledPitch, *, tied: bool) -> tuple[Attributes, str]:
        name = pitch.name
        attributes: Attributes = {"pname": name.letter.lower(), "oct": pitch.octave}
        if self.accidentals.needed(pitch, tied=tied):
            return attributes, element("accid", accid=ALTERS[name.alter])
        return attributes, element("accid", accid_ges=SOUNDS[name.alter]) if name.alter else ""

    def _grace(self, pitch: SpelledPitch) -> str:
        attributes, accidental = self._head(pitch, tied=False)
        return element("note", accidental, dur=GRACE, grace="acc", stem_mod="1slash", **attributes)

    @staticmethod
    def _under(note: StaffNote) -> str:
        """Numbers, the highest note's next to the staff."""
        numbers = tuple(reversed(note.numbers))
        return "".join(
            element("verse", element("syl", text), n=line)
            for line, text in enumerate(numbers, start=1)
            if text
        )


def _nested(signs: Sequence[str], pieces: Sequence[Piece], under: Sequence[range]) -> str:
    """Signs put into their tuplets and beams, the wider outside."""
    stretches: list[Stretch] = [(run.start, run.stop, "beam", {}) for run in under]
    for tuplet in dict.fromkeys(piece.tuplet for piece in pieces if piece.tuplet):
        places = [at for at, piece in enumerate(pieces) if piece.tuplet == tuplet]
        ratio: Attributes = {"num": tuplet.number, "numbase": tuplet.base, "num_format": "count"}
        beamed = (places[0], places[-1] + 1) in [(run.start, run.stop) for run in under]
        ratio["bracket_visible"] = "false" if beamed else "true"
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
