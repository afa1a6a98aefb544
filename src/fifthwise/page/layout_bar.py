"""A bar of the layout model: its slots with their figures, and what stands over and under it.

Places inside a bar are exact fractions of a quarter.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from fifthwise.page.layout_tune import SheetNote

__all__ = [
    "BarLine",
    "Figure",
    "SheetBar",
    "SheetCue",
    "SheetSlot",
    "SlotShape",
]

BarLine = Literal["bar", "double", "repeat", "final"]
SlotShape = Literal["chord", "rest", "nc", "hold", "same", "unread"]


@dataclass(frozen=True, slots=True)
class Figure:
    """A chord taken apart for drawing, in the order in which it is read.

    Attributes
    ----------
    sign : str
        Accidental before a number or numeral (``♭7``); empty for a letter, whose accidental is in ``after``.
    root : str
        ``6``, ``vi`` or ``E``.
    after : str
        At the root's own height: a letter's accidental, then ``–`` or ``m`` for a minor third.
    raised : str
        Small and high: ``7``, ``△7``, ``°``, ``ø7``, ``+``, ``sus``, ``7(♭9 ♯11)``.
    bass : str
        After a stroke, smaller: ``3``, ``♭7``, ``G``.
    """

    sign: str
    root: str
    after: str = ""
    raised: str = ""
    bass: str = ""

    @property
    def text(self) -> str:
        """The chord in one plain piece: ``6–7/5``."""
        bass = f"/{self.bass}" if self.bass else ""
        return f"{self.sign}{self.root}{self.after}{self.raised}{bass}"


@dataclass(frozen=True, slots=True)
class SheetSlot:
    """One chord, rest, NC, hold, repeat sign or unread place in a bar.

    Attributes
    ----------
    shape : {'chord', 'rest', 'nc', 'hold', 'same', 'unread'}
        ``hold`` goes on from the bar before, ``same`` is the one-bar repeat sign, ``unread`` a ``?``.
    at, length : Fraction
        Quarters from the start of the bar.
    beats : Fraction
        The length in felt beats (in eighths where a metre names its groups); whole beats are drawn as
        full ticks in an uneven bar, the rest as a short one.
    main : Figure or None
        What is drawn large.
    small : Figure or None
        The letters beneath; only where both are shown.
    push, late, stop, accent, held : bool
        Marks. ``held`` is a diamond.
    sixteenth : bool
        Whether the push is a sixteenth early instead of an eighth.
    tied : bool
        Whether the diamond's tie line goes on into the next bar.
    tie_from : bool
        On a ``hold``: whether what goes on is a diamond, so that its tie line is drawn here.
    """

    shape: SlotShape
    at: Fraction
    length: Fraction
    beats: Fraction
    main: Figure | None = None
    small: Figure | None = None
    push: bool = False
    sixteenth: bool = False
    late: bool = False
    stop: bool = False
    accent: bool = False
    held: bool = False
    tied: bool = False
    tie_from: bool = False


@dataclass(frozen=True, slots=True)
class SheetCue:
    """Words over a bar at their place.

    Attributes
    ----------
    at : Fraction
        Quarters from the start of the bar; the bar's length is its end.
    player : str
        Whom they are for, where they are for this page alone; otherwise empty.
    """

    text: str
    at: Fraction
    player: str = ""


@dataclass(frozen=True, slots=True)
class SheetBar:
    """One bar in its column.

    Attributes
    ----------
    column : int
        From 0; -1 for a pickup, which hangs before the first column.
    section, bar : int
        Where it stands in the chart: index of the section, and of the bar in it.
    length : Fraction
        Quarters.
    beats : Fraction
        Felt beats (eighths where a metre names its groups).
    left, right : {'bar', 'double', 'repeat', 'final'}
        Its bar lines; where two meet, the one that is no plain ``bar`` is drawn.
    uneven : bool
        Whether its slots differ in length, or last a beat and a half, and so carry beat ticks.
    metre : str
        ``3/4`` where the metre changes, ``(2/4)`` for this bar only; otherwise empty.
    changes : tuple of str
        Key, tempo and feel from here on, in words: ``key F``, ``tempo 120``, ``shuffle``.
    signs : tuple of str
        ``segno``, ``coda``: over its start.
    goes : tuple of str
        Words over its end: ``To Coda``, ``Fine``, ``D.S. al Coda``.
    times : str
        At a repeat's end: ``×3``, ``vamp till cue``; otherwise empty.
    tune : tuple of SheetNote
        Empty where none is shown.
    words : tuple of str
        One a verse, where words are aligned bar by bar; otherwise empty.
    """

    column: int
    section: int
    bar: int
    length: Fraction
    beats: Fraction
    slots: tuple[SheetSlot, ...]
    left: BarLine = "bar"
    right: BarLine = "bar"
    uneven: bool = False
    metre: str = ""
    changes: tuple[str, ...] = ()
    signs: tuple[str, ...] = ()
    goes: tuple[str, ...] = ()
    times: str = ""
    cues: tuple[SheetCue, ...] = ()
    tune: tuple[SheetNote, ...] = ()
    words: tuple[str, ...] = ()
