"""Letters as pitches: the signature, accidentals that hold to the end of the bar, octaves.

An accidental holds for its letter in every octave, unless the file says ``propagate-accidentals`` otherwise.
A note that is tied over a bar line keeps its accidental; the standard does not say so, common practice does.

References
----------
The abc music standard 2.1, 4.1 "Pitch", 4.2 "Accidentals", 11.3 "Accidental directives"; from memory.
"""

from functools import lru_cache
from typing import Literal

from fifthwise.exchange.abc.keys import ALTER, LETTERS, Moved, Signature
from fifthwise.theory import Interval, SpelledPitch, transpose

__all__ = ["PROPAGATION", "PitchReader", "Propagation"]

Propagation = Literal["not", "octave", "pitch"]
PROPAGATION: tuple[Propagation, ...] = ("not", "octave", "pitch")
MIDDLE = 4  # the octave of capitals
SHARP = 7
ALTER_SIGNS = "^_="
CONCERT = Interval(0, 0)
EVERY_OCTAVE = 0
LOWEST, HIGHEST = 0, 9  # octaves that are believed


class PitchReader:
    """Reads the pitches of one voice, bar by bar."""

    def __init__(self, signature: Signature, moved: Moved, propagation: Propagation) -> None:
        self.signature, self.moved, self.propagation = signature, moved, propagation
        self.held: dict[tuple[int, int], int] = {}
        self.plain: dict[str, tuple[SpelledPitch]] = {}  # letters without signs, while no accidental holds

    def change(self, signature: Signature, moved: Moved) -> None:
        """A signature, and how far notes are moved, from here on."""
        self.signature, self.moved = signature, moved
        self.plain = {}

    def end_bar(self) -> None:
        """Accidentals end at the bar line."""
        if self.held:
            self.held = {}

    def alone(self, text: str, tied: tuple[SpelledPitch, ...]) -> tuple[SpelledPitch]:
        """As ``pitch``, of a note that sounds alone."""
        if self.held or tied:
            return (self.pitch(text, tied),)
        found = self.plain.get(text)
        if found is None:
            found = (self.pitch(text),)
            if not self.held and text[0] not in ALTER_SIGNS:
                self.plain[text] = found
        return found

    def pitch(self, text: str, tied: tuple[SpelledPitch, ...] = ()) -> SpelledPitch:
        """The pitch of a letter with its signs; ``tied`` are those of the note that it may go on from."""
        sign, place, octave = _parsed(text)
        octave += self.moved.octaves
        holds = (place, EVERY_OCTAVE if self.propagation == "pitch" else octave)
        if sign:
            alter = ALTER[sign]
            if self.propagation != "not":
                self.held[holds] = alter
        else:
            alter = self.held.get(holds, self.signature[place]) if self.held else self.signature[place]
        pitch = _made(place - 1 + SHARP * alter, octave, self.moved.by)
        if tied and not sign:
            same = (each for each in tied if _is_letter_of(each, pitch))
            return next(same, pitch)
        return pitch


@lru_cache(maxsize=4096)
def _parsed(text: str) -> tuple[str, int, int]:
    letter = text.lstrip(ALTER_SIGNS)
    sign = text[: len(text) - len(letter)]
    octave = MIDDLE + letter[0].islower() + letter.count("'") - letter.count(",")
    return sign, LETTERS.index(letter[0].upper()), min(max(octave, LOWEST), HIGHEST)


@lru_cache(maxsize=4096)
def _made(fifths: int, octave: int, by: Interval) -> SpelledPitch:
    pitch = SpelledPitch(fifths, octave)
    return pitch if by == CONCERT else transpose(pitch, by)


def _is_letter_of(one: SpelledPitch, other: SpelledPitch) -> bool:
    return one.octave == other.octave and (one.fifths - other.fifths) % SHARP == 0
