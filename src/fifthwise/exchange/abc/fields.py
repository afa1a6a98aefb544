"""Fields in a tune's music: keys, metres, units, tempos and parts, from where they stand on."""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.abc.bars import BarMaker
from fifthwise.exchange.abc.keys import KeyField, Moved, is_no_key, read_key_field, read_moved
from fifthwise.exchange.abc.metres import is_free, read_metre_field, read_tempo, read_unit
from fifthwise.exchange.abc.pitches import PitchReader, Propagation
from fifthwise.exchange.abc.rhythm import Lengths
from fifthwise.exchange.abc.texts import words_of
from fifthwise.exchange.left_out import LeftOut
from fifthwise.theory import Metre

__all__ = ["Holds", "VoiceFields"]

# What is no music and no loss either: remarks, notes, orders to a program that draws pages.
SILENT = "rNI"
LOST = {
    "m": "macros are left out", "s": "lines of signs under the music are left out",
    "W": "verses under the tune are left out",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Holds:
    """What holds where a voice begins; ``metre`` is ``None`` where there is none."""

    key: KeyField
    metre: Metre | None
    unit: Fraction
    moved: Moved
    propagation: Propagation


class VoiceFields:
    """Reads the fields of one voice."""

    def __init__(self, holds: Holds, maker: BarMaker, left: LeftOut) -> None:
        self.lengths, self.maker, self.left = Lengths(holds.unit), maker, left
        self.pitches = PitchReader(holds.key.signature, holds.moved, holds.propagation)

    def read(self, letter: str, text: str) -> None:
        """Read a field; what cannot be read is told."""
        if letter in SILENT:
            return
        reads = {
            "K": self._key,
            "M": self._metre,
            "L": self._unit,
            "Q": self._tempo,
            "P": self._part,
            "T": self._part,
        }
        if letter in reads:
            if not reads[letter](text):
                self._lose(f"'{letter}:{words_of(text)[:20]}' cannot be read and is left out")
        else:
            self._lose(LOST.get(letter, f"what stands in '{letter}:' is left out"))

    def move(self, text: str) -> None:
        """Read a clef or a transposition."""
        moved = read_moved(text)
        if moved:
            self.pitches.change(self.pitches.signature, moved)

    def _lose(self, what: str) -> None:
        self.left.add(what, str(len(self.maker.bars) + 1))

    def _key(self, text: str) -> bool:
        self.move(text)
        found = read_key_field(text)
        if found is None:
            return bool(text.strip()) and not is_no_key(text)  # else a clef alone
        if found.told:
            self._lose(found.told)
        self.pitches.change(found.signature, self.pitches.moved)
        self.maker.hold(found.key, self.maker.metre)
        return True

    def _metre(self, text: str) -> bool:
        metre = read_metre_field(text)
        if metre is None and not is_free(text):
            return False
        self.maker.hold(self.maker.key, metre)
        return True

    def _unit(self, text: str) -> bool:
        unit = read_unit(text)
        if unit is None:
            return False
        self.lengths = Lengths(unit)
        return True

    def _tempo(self, text: str) -> bool:
        tempo = read_tempo(text, self.lengths.unit)
        if tempo.quarters_bpm is not None:
            self.maker.road.tempo_bpm = tempo.quarters_bpm
        if tempo.words:
            self.maker.bar.words.append(tempo.words)
        return tempo.quarters_bpm is not None or bool(tempo.words)

    def _part(self, text: str) -> bool:
        """A part, or a title in the middle of a tune, begins a section."""
        name = words_of(text)
        self.maker.road.section = self.maker.road.section or name
        return bool(name)
