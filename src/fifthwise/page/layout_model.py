"""The layout model: a song as it stands on a page, before any size or colour is chosen.

Song → sections → rows of bars → slots with their beats, marks, number and letters. Print, screen and plain
text all draw this one model; a narrow screen asks for it again with fewer columns. Text is ready to print
(♭ ♯ – △); places inside a bar are exact fractions of a quarter. Nothing here is measured in points.
"""

from dataclasses import dataclass

from fifthwise.page.layout_bar import Figure, SheetBar, SheetCue
from fifthwise.page.layout_view import PageView

__all__ = [
    "AnchorBox",
    "AnchorMark",
    "Bracket",
    "LegendItem",
    "Respelling",
    "RoadStop",
    "Sheet",
    "SheetRow",
    "SheetSection",
    "StripEntry",
    "StripLine",
]


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
    turn : int
        In which of the keys that it is played in it stands here, in order, 0 being the first.
    """

    name: str
    rows: tuple[SheetRow, ...]
    times: int = 1
    cues: tuple[SheetCue, ...] = ()
    notes: tuple[str, ...] = ()
    turn: int = 0


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
class AnchorMark:
    """One of the four chords' roots on the fingerboard.

    Attributes
    ----------
    string : int
        From the lowest, which is 0.
    along : float
        Its distance from the nut, in parts of the string's length.
    joined : bool
        Whether it lies under the finger of the start.
    words, place : str
        The way there as one player tells another, and the place alone: ``A, low first finger``.
    """

    number: Figure
    string: int
    along: float
    joined: bool
    words: str
    place: str


@dataclass(frozen=True, slots=True)
class AnchorBox:
    """The fastest way to tonight's 1, 5, 4 and 6– on the player's instrument.

    Attributes
    ----------
    strings : tuple of str
        Names, the lowest first.
    marks : tuple of AnchorMark
        The start first.
    ends : float
        How much of the string is shown, in parts of its length.
    position : str
        Where the hand lies at the start.
    """

    strings: tuple[str, ...]
    marks: tuple[AnchorMark, ...]
    ends: float
    position: str


@dataclass(frozen=True, slots=True)
class StripLine:
    """Tonight's 1, 4, 5 and 6– in one key.

    Attributes
    ----------
    key : str
        The key as this page reads it: ``E♭``, ``C minor``.
    starts : str
        Where it begins: ``3rd chorus``; empty for the first key.
    anchors : AnchorBox or None
        Where they lie on the player's instrument.
    """

    key: str
    entries: tuple[StripEntry, ...]
    starts: str = ""
    anchors: AnchorBox | None = None


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
