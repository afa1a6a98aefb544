"""How a song counts its numbers: which note is 1, and what a plain number means.

Minor keys alone may be counted in three ways: ``from-six`` (in the relative major, home is 6-),
``from-one`` (home is 1-, with b3 b6 b7), ``natural`` (home is 1-, where 3 6 7 mean b3 b6 b7).
Modes count from their tonic with real alterations.
"""

from dataclasses import dataclass
from typing import Literal

from fifthwise.theory.degree import Degree
from fifthwise.theory.key import Key
from fifthwise.theory.note import NoteName

__all__ = ["MINOR_WAYS", "PLAIN_WAYS", "MinorWay", "Numbering", "PlainWay"]

MinorWay = Literal["from-six", "from-one", "natural"]
PlainWay = Literal["explicit", "diatonic"]
MINOR_WAYS: tuple[MinorWay, ...] = ("from-six", "from-one", "natural")
PLAIN_WAYS: tuple[PlainWay, ...] = ("explicit", "diatonic")
# Places on the line of fifths by which 3, 6 and 7 are lowered where they mean b3, b6 and b7.
FLAT = -7
LOWERED_STEPS = (3, 6, 7)


@dataclass(frozen=True, slots=True)
class Numbering:
    """The two settings of a song that decide what a number means."""

    minor: MinorWay = "from-six"
    plain: PlainWay = "explicit"

    def one(self, key: Key) -> NoteName:
        """The note that is called 1 in a key."""
        return key.relative_major if key.is_minor and self.minor == "from-six" else key.tonic

    def scale(self, key: Key) -> tuple[Degree, ...]:
        """The key's seven degrees counted from ``one``, in order of step."""
        shift = key.tonic.fifths - self.one(key).fifths
        return tuple(sorted((Degree(d.fifths + shift) for d in key.scale), key=lambda d: d.step))

    def lowers(self, key: Key) -> bool:
        """Whether written 3 6 7 mean b3 b6 b7."""
        return key.is_minor and self.minor == "natural"

    def home(self, key: Key) -> Degree:
        """The tonic's degree: 6 in a minor key counted from six, otherwise 1."""
        return Degree(key.tonic.fifths - self.one(key).fifths)


def lowered(degree: Degree) -> Degree:
    """What a written 3, 6 or 7 means in natural minor numbering."""
    return Degree(degree.fifths + FLAT) if degree.step in LOWERED_STEPS else degree


def raised(degree: Degree) -> Degree:
    """How a degree is written in natural minor numbering: the reverse of ``lowered``."""
    return Degree(degree.fifths - FLAT) if degree.step in LOWERED_STEPS else degree
