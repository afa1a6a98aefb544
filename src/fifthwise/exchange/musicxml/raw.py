"""One part of a score as it is read, bar by bar, before a tune is chosen from it."""

from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.chart import Mark
from fifthwise.exchange.lead_sheet import LeadChord
from fifthwise.exchange.road import Road
from fifthwise.theory import Key, Metre, SpelledPitch

__all__ = ["RawBar", "RawNote", "RawPart"]


@dataclass(slots=True)
class RawNote:
    """One sounding note, at concert pitch; ``lyrics`` are syllables by the number of their verse."""

    voice: str
    at: Fraction
    length: Fraction
    pitch: SpelledPitch
    goes_on: bool = False
    slurred: bool = False
    grace: tuple[SpelledPitch, ...] = ()
    lyrics: tuple[tuple[str, str], ...] = ()
    string: str = ""
    finger: str = ""


@dataclass(slots=True)
class RawBar:
    """One bar of a part.

    Attributes
    ----------
    length : Fraction
        Quarters up to the last note, rest or gap that is written in it; 0 where there is none.
    is_rest : bool
        Whether a rest fills it, however long the file says that it is.
    marks : list of (Fraction, Mark)
        What is said about the chord that begins there.
    words : list of (Fraction, str)
        Other words for the players.
    """

    number: str
    metre: Metre
    key: Key
    implicit: bool = False
    length: Fraction = Fraction(0)
    is_rest: bool = False
    notes: list[RawNote] = field(default_factory=list)
    chords: list[LeadChord] = field(default_factory=list)
    marks: list[tuple[Fraction, Mark]] = field(default_factory=list)
    words: list[tuple[Fraction, str]] = field(default_factory=list)
    feel: str = ""
    road: Road = field(default_factory=Road)


@dataclass(slots=True)
class RawPart:
    """One part, its name and its bars."""

    id: str
    name: str
    bars: list[RawBar] = field(default_factory=list)
