"""Pitches and lengths as ABC writes them."""

from fractions import Fraction
from functools import lru_cache

from fifthwise.exchange.abc.rhythm import TWO_FOR
from fifthwise.theory import Interval, Key, NoteName, SpelledPitch, transpose

__all__ = ["PitchWriter", "length_text", "simple_name", "tuplet_text"]

SIGNS = {-2: "__", -1: "_", 0: "=", 1: "^", 2: "^^"}
ENHARMONIC = 12  # places on the line of fifths
MOST_SIGNS = 2
SEMITONES = 12
MIDDLE = 4  # the octave of capitals
UNIT = Fraction(1, 2)  # quarters: an eighth


class PitchWriter:
    """Writes the pitches of one bar.

    A letter that has been altered in the bar gets a sign each time, in every octave: other programs hold it
    in one octave alone, or lose it.
    """

    def __init__(self, key: Key, by: Interval) -> None:
        self.by = by
        self.place = key.signature
        self.altered: set[str] = set()

    def text(self, pitch: SpelledPitch) -> str:
        """A pitch that sounds, as it is written."""
        written = _simple(transpose(pitch, self.by) if self.by.fifths or self.by.octaves else pitch)
        name = written.name
        plain = -1 <= name.fifths - self.place <= 5
        if not plain:
            self.altered.add(name.letter)
        sign = SIGNS[name.alter] if name.letter in self.altered else ""
        above = written.octave - MIDDLE
        if above > 0:
            return sign + name.letter.lower() + "'" * (above - 1)
        return sign + name.letter + "," * -above


def simple_name(fifths: int) -> NoteName:
    """A note of at most two sharps or flats."""
    name = NoteName(fifths)
    while abs(name.alter) > MOST_SIGNS:
        name = NoteName(name.fifths - ENHARMONIC if name.fifths > 0 else name.fifths + ENHARMONIC)
    return name


def _simple(pitch: SpelledPitch) -> SpelledPitch:
    turned = SpelledPitch(simple_name(pitch.fifths).fifths, pitch.octave)
    return SpelledPitch(turned.fifths, turned.octave + (pitch.midi - turned.midi) // SEMITONES)


@lru_cache(maxsize=1024)
def length_text(length: Fraction) -> str:
    """A length in quarters, counted in units."""
    units = length / UNIT
    count = "" if units.numerator == 1 else str(units.numerator)
    if units.denominator == 1:
        return count
    return f"{count}/" if units.denominator == 2 else f"{count}/{units.denominator}"


def tuplet_text(count: int, of: int, notes: int) -> str:
    """How a tuplet of some notes begins: so many in the time of so many."""
    if notes == count and TWO_FOR.get(count) == of:
        return f"({count}"
    return f"({count}:{of}:{notes}"
