"""The layout model: a song as it stands on a page, before any size or colour is chosen.

Song → sections → rows of bars → slots with their beats, marks, number and letters. Print, screen and plain
text all draw this one model; a narrow screen asks for it again with fewer columns. Text is ready to print
(♭ ♯ – △); places inside a bar are exact fractions of a quarter. Nothing here is measured in points.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from fifthwise.page.layout_tune import SheetNote
from fifthwise.theory import Interval

__all__ = [
    "BarLine",
    "Bracket",
    "Figure",
    "LegendItem",
    "PagePart",
    "PageView",
    "Paper",
    "Respelling",
    "RoadStop",
    "Sheet",
    "SheetBar",
    "SheetCue",
    "SheetRow",
    "SheetSection",
    "SheetSlot",
    "Show",
    "SlotShape",
    "StripEntry",
    "StripLine",
]

Show = Literal["numbers", "letters", "both", "roman"]
Paper = Literal["a4", "letter"]
BarLine = Literal["bar", "double", "repeat", "final"]
SlotShape = Literal["chord", "rest", "nc", "hold", "same", "unread"]


@dataclass(frozen=True, slots=True)
class PagePart:
    """Whose page it is.

    Attributes
    ----------
    label : str
        As the head names it: ``Violin``, ``Trumpet in B♭``; empty on a page for everyone.
    written : Interval
        From the sounding note up to the written one.
    capo : int
        Fret; letters are then shapes, a semitone lower for every fret.
    names : tuple of str
        Player and instrument, any case: a cue for one of these stands on this page.
    bass_large : bool
        Whether the bass note of a letter chord is as large as its root.
    """

    label: str = ""
    written: Interval = Interval(0, 0)  # noqa: RUF009 - frozen
    capo: int = 0
    names: tuple[str, ...] = ()
    bass_large: bool = False


@dataclass(frozen=True, slots=True)
class PageView:
    """What a page shows, and to whom.

    Attributes
    ----------
    show : {'numbers', 'letters', 'both', 'roman'}
        ``both`` is numbers with small letters beneath.
    singer : str
        Who sings, as the head names them; may be empty.
    tune, words : bool
        Whether the tune's degrees and the words stand under the bars.
    """

    show: Show = "both"
    part: PagePart = PagePart()
    singer: str = ""
    paper: Paper = "a4"
    tune: bool = False
    words: bool = False


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


@dataclass(frozen=True, slots=True)
class Bracket:
    """An ending's bracket over a row.

    Attributes
    ----------
    first, last : int
        Columns.
    label : str
        ``1.``, ``1. 2.``; empty where it goes on from the row above.
    closes : bool
        Whether it comes down at its end (the song goes back from there).
    """

    first: int
    last: int
    label: str
    closes: bool


@dataclass(frozen=True, slots=True)
class SheetRow:
    """One row of bars; a second ending's row begins in the column of the first ending.

    Attributes
    ----------
    pickup : SheetBar or None
        A short bar that hangs before the first column.
    words : tuple of str
        One a verse, for the whole row.
    """

    bars: tuple[SheetBar, ...]
    pickup: SheetBar | None = None
    brackets: tuple[Bracket, ...] = ()
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetSection:
    """A section: its heading and its rows.

    Attributes
    ----------
    name : str
        As printed, with a capital; empty for bars before any heading.
    times : int
        How often it plays.
    cues : tuple of SheetCue
        Words after its heading.
    notes : tuple of str
        Ours: ``last time, in F``.
    """

    name: str
    rows: tuple[SheetRow, ...]
    times: int = 1
    cues: tuple[SheetCue, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class RoadStop:
    """One stop of the form's road map: a section, how often in a row, and the key where it changes."""

    name: str
    times: int = 1
    key: str = ""


@dataclass(frozen=True, slots=True)
class StripEntry:
    """One chord of the strip.

    Attributes
    ----------
    letters : Figure
        As this page reads it: sounding, written, or a shape.
    sounds : Figure or None
        What sounds, where a capo makes it another.
    home : bool
        Whether the song comes home to it.
    """

    number: Figure
    letters: Figure
    sounds: Figure | None = None
    home: bool = False


@dataclass(frozen=True, slots=True)
class StripLine:
    """Tonight's 1, 4, 5 and 6– in one key.

    Attributes
    ----------
    key : str
        The key as this page reads it: ``E♭``, ``C minor``.
    starts : str
        Where it begins: ``3rd chorus``; empty for the first key.
    """

    key: str
    entries: tuple[StripEntry, ...]
    starts: str = ""


@dataclass(frozen=True, slots=True)
class LegendItem:
    """One sign of the page's key: a name from ``signs.SIGNS`` and what it means in plain words."""

    sign: str
    words: str


@dataclass(frozen=True, slots=True)
class Respelling:
    """A chord that the page spells otherwise than the theory: ``shown`` for ``strict``."""

    shown: str
    strict: str


@dataclass(frozen=True, slots=True)
class Sheet:
    """A song on its page.

    Attributes
    ----------
    key : str
        As this page reads it, like its letters: ``E♭``, ``C minor``.
    metre, tempo, feel : str
        ``4/4``, ``96`` or ``about 100``, ``straight, light sixteenths``; a feel may be empty.
    reads : tuple of str
        How this page's letters differ from what sounds: ``written in F``, ``Capo 3 · shapes in G``.
    notes : tuple of str
        What a stranger could misread: ``Home is 6–``.
    legend : tuple of LegendItem
        The signs that this page uses, and no others.
    sounds : str
        The key that sounds, where this page reads another; otherwise empty.
    tempo_note : str
        The note that the tempo counts: ``quarter``, ``dotted quarter``, ``half``.
    """

    title: str
    by: str
    key: str
    metre: str
    tempo: str
    feel: str
    view: PageView
    columns: int
    sections: tuple[SheetSection, ...]
    road: tuple[RoadStop, ...] = ()
    strip: tuple[StripLine, ...] = ()
    reads: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    legend: tuple[LegendItem, ...] = ()
    respelled: tuple[Respelling, ...] = ()
    sounds: str = ""
    tempo_note: str = "quarter"
