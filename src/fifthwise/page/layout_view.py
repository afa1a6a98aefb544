"""Whose page it is, and what it shows."""

from dataclasses import dataclass
from typing import Literal

from fifthwise.strings import Level
from fifthwise.theory import Interval

__all__ = [
    "Clef",
    "PagePart",
    "PageView",
    "Paper",
    "Show",
]

Show = Literal["numbers", "letters", "both", "roman"]
Paper = Literal["a4", "letter"]
# ``treble-8`` sounds an octave lower than it looks.
Clef = Literal["treble", "treble-8", "alto", "tenor", "bass"]


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
    fingerboard : str
        The string instrument whose anchors the page shows; empty for none.
    level : str
        Where on it the player is at home.
    clef : Clef
        That its staff is read in.
    """

    label: str = ""
    written: Interval = Interval(0, 0)  # noqa: RUF009 - frozen
    capo: int = 0
    names: tuple[str, ...] = ()
    bass_large: bool = False
    fingerboard: str = ""
    level: Level = "first"
    clef: Clef = "treble"


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
    staff : bool
        Whether the tune stands on a staff after the chart.
    """

    show: Show = "both"
    part: PagePart = PagePart()
    singer: str = ""
    paper: Paper = "a4"
    tune: bool = False
    words: bool = False
    staff: bool = False
