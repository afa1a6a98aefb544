"""A voice of a tune as it is read, before one is chosen."""

from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.exchange.lead_lengths import LONGEST
from fifthwise.exchange.lead_sheet import LeadChord
from fifthwise.exchange.road import Road
from fifthwise.theory import Key, Metre, SpelledPitch

__all__ = ["RawBar", "RawNote"]

MOST_QUARTERS = int(LONGEST)  # whole numbers compare much faster than fractions


@dataclass(slots=True)
class RawNote:
    """A note, several together, or a rest, which has no pitches; as in ``LeadNote``."""

    at: Fraction
    length: Fraction
    pitches: tuple[SpelledPitch, ...] = ()
    goes_on: bool = False
    slurred: bool = False
    grace: tuple[SpelledPitch, ...] = ()
    syllable: str = ""


@dataclass(slots=True)
class RawBar:
    """One bar; without a metre where the tune has none."""

    key: Key
    metre: Metre | None
    length: Fraction = Fraction(0)
    notes: list[RawNote] = field(default_factory=list)
    chords: list[LeadChord] = field(default_factory=list)
    words: list[str] = field(default_factory=list)
    road: Road = field(default_factory=Road)

    @property
    def is_long(self) -> bool:
        """Whether it is longer than a song can hold."""
        return self.length.numerator > MOST_QUARTERS * self.length.denominator
