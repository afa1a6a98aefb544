"""One part of a score as it is read, bar by bar, before a tune is chosen from it."""

from dataclasses import dataclass, field
from fractions import Fraction

from fifthwise.chart import Mark
from fifthwise.exchange.lead_sheet import LeadChord
from fifthwise.theory import Key, Metre, SpelledPitch

__all__ = ["LeftOut", "RawBar", "RawNote", "RawPart", "Road"]

NAMED_BARS = 3  # that a sentence names before it counts


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
class Road:
    """What a bar says about the way through the song; as in ``LeadBar``.

    Attributes
    ----------
    jump : str
        ``dc`` or ``ds``, with ``al coda`` or ``al fine`` behind it where the file says so.
    coda_signs : int
        Signs that may stand at the coda, or at the way to it.
    """

    repeat_start: bool = False
    repeat_end: int = 0
    endings: tuple[int, ...] = ()
    ends_ending: bool = False
    segno: bool = False
    coda: bool = False
    to_coda: bool = False
    coda_signs: int = 0
    fine: bool = False
    jump: str = ""
    section: str = ""
    tempo_bpm: Fraction | None = None


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


class LeftOut:
    """What a song cannot hold, each kind once with the bars in which it stands."""

    def __init__(self) -> None:
        self.found: dict[str, list[str]] = {}

    def add(self, what: str, bar: str) -> None:
        """Note something at a bar; said as in ``'figured bass is left out'``."""
        bars = self.found.setdefault(what, [])
        if not bars or bars[-1] != bar:
            bars.append(bar)

    def sentences(self) -> tuple[str, ...]:
        """One sentence a kind, without a full stop."""
        return tuple(f"{what} ({_bars(bars)})" for what, bars in self.found.items())


def _bars(bars: list[str]) -> str:
    named = ", ".join(bars[:NAMED_BARS])
    more = f" and {len(bars) - NAMED_BARS} more" if len(bars) > NAMED_BARS else ""
    return f"{'bar' if len(bars) == 1 else 'bars'} {named}{more}"
