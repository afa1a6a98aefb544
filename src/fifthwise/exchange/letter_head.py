"""The head of a chart in letters: what its fields say, kept or told."""

import re
from dataclasses import dataclass, field

from fifthwise.exchange.letter_fields import Field
from fifthwise.exchange.letter_marks import MarkWriter
from fifthwise.exchange.placed import Piece, Source
from fifthwise.theory import Key, TheoryError, move_key, read_key

__all__ = ["HeadReader"]

METRES = {"c": "4/4", "common": "4/4", "common time": "4/4", "¢": "2/2", "cut": "2/2", "cut time": "2/2"}
TEMPO = re.compile(
    r"(?:[♩♪]\.?\s*+=)?\s*+(?:about|around|approx\.?|ca\.?|c\.|~)?\s*+(\d{1,3}(?:\.\d+)?)\s*+(?:bpm)?(.*)\Z"
)
LEFT_OUT = "Put it into the chart yourself, or let it go"


@dataclass(slots=True)
class HeadReader:
    """Keeps the fields; a key, metre, tempo or feel after the first bars holds from there on.

    Attributes
    ----------
    key : Key or None
        In which the letters are counted.
    given : bool
        Whether the key was asked for, whatever the sheet says.
    texts : dict
        The head's fields, by the names that chart text gives them.
    """

    source: Source
    marks: MarkWriter
    key: Key | None
    given: bool
    texts: dict[str, Piece] = field(default_factory=dict)

    def read(self, found: Field, line: int, *, begun: bool) -> None:
        """Keep one field; ``begun`` tells that bars have been read."""
        at = Piece(found.text, line, found.column, max(1, len(found.text)))
        if not found.text:
            self.source.tell(at, "this field is empty", "Write its text, or leave it out")
        elif found.name == "capo":
            self._capo(at)
        elif found.name == "form":
            fix = "Write it in the chart's head, as in 'form: intro, verse, chorus'"
            self.source.tell(at, "the order of the sections is left out", fix)
        elif found.name in ("key", "meter", "tempo", "feel"):
            self._holds(found.name, at, begun=begun)
        elif begun or found.name in self.texts:
            self.source.tell(at, f"'{at.text}' is left out", LEFT_OUT)
        else:
            self.texts[found.name] = at.saying(" ".join(at.text.split()))

    def _holds(self, name: str, at: Piece, *, begun: bool) -> None:
        settled = self._settled(name, at)
        if settled is None:
            return
        if name == "key" and not begun:
            self._key(settled)
        elif self.marks.say(name, settled) and not begun:
            said = self.marks.holding.said.pop(name)
            self.texts[name], self.marks.holding.head[name] = said, said.text

    def _settled(self, name: str, at: Piece) -> Piece | None:
        """What a field says, in the words of chart text."""
        if name == "meter":
            return at.saying(METRES.get(at.text.lower(), at.text))
        if name == "feel":
            return at.saying(" ".join(at.text.replace("[", "(").replace("]", ")").split()))
        return self._tempo(at) if name == "tempo" else at

    def _tempo(self, at: Piece) -> Piece | None:
        match = TEMPO.match(at.text)
        if not match:
            what = f"'{at.text}' is no number of beats a minute"
            self.source.tell(at, what, "Write it as in 'Tempo: 96'")
            return None
        if match[2].strip():
            self.source.tell(at, f"'{match[2].strip()}' is left out", LEFT_OUT)
        return at.saying(match[1])

    def _key(self, at: Piece) -> None:
        try:
            key = read_key(at.text)
        except TheoryError as fault:
            self.source.fault(at, fault.what, fault.fix)
            return
        if self.key is None:
            self.set_key(key)
        elif key != self.key:
            where = "as was asked" if self.given else "as was said first"
            fix = f"Ask for {key.short} if that is the key of the letters"
            self.source.tell(
                at, f"the letters are counted in {self.key.short}, {where}, not in {key.short}", fix
            )

    def set_key(self, key: Key) -> None:
        """Count the letters in a key."""
        self.key = key
        self.marks.holding.head["key"] = f"{key.tonic} {key.mode}"

    def _capo(self, at: Piece) -> None:
        match = re.search(r"\d{1,2}", at.text)
        fret = int(match[0]) if match else 0
        if not 1 <= fret <= 12:
            return
        written, what = self.key, f"the letters are read as written, without the capo at {fret}"
        if written is None:
            self.source.tell(at, what, f"The song sounds {fret} semitones higher")
        else:
            sounding = move_key(written, fret).short
            fix = (
                f"The song sounds in {sounding}: write 'key: {sounding}' in the chart's head to play it there"
            )
            self.source.tell(at, what, fix)
