"""What is engraved on a staff: bars of notes with their numbers, chords over them, repeats around them.

Pitches and keys are as the reader reads them. Times are exact quarters from the start of a bar.
"""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_view import Clef
from fifthwise.theory import Key, Metre, SpelledPitch

__all__ = ["Staff", "StaffBar", "StaffChord", "StaffNote"]


@dataclass(frozen=True, slots=True)
class StaffChord:
    """What stands over the staff where a chord begins."""

    at: Fraction
    figure: Figure


@dataclass(frozen=True, slots=True)
class StaffNote:
    """One note, several sounded together, or a chop; what lies between two is a rest.

    Attributes
    ----------
    pitches : tuple of SpelledPitch
        Low to high; empty for a chop.
    numbers : tuple of str
        What stands under the staff, one a pitch, low to high; empty for none.
    goes_on : bool
        Whether it is tied from the note before, and so is no new note.
    slurred : bool
        Whether the bow goes on to the next note.
    grace : tuple of SpelledPitch
        Quick notes before it.
    slide : {'', 'up', 'down'}
        How the note is slid to.
    """

    at: Fraction
    length: Fraction
    pitches: tuple[SpelledPitch, ...]
    numbers: tuple[str, ...] = ()
    goes_on: bool = False
    slurred: bool = False
    grace: tuple[SpelledPitch, ...] = ()
    slide: Literal["", "up", "down"] = ""


@dataclass(frozen=True, slots=True)
class StaffBar:
    """One bar.

    Attributes
    ----------
    length : Fraction
        Quarters that it lasts; less than the metre's in a pickup.
    section : str
        The name that begins here; may be empty.
    opens : bool
        Whether a section begins here, named or not.
    new_line : bool
        Whether it begins a line of the song as written.
    silent : bool
        Whether no tune is written for it, so that it may be counted with its neighbours.
    repeat_end : int
        How often the bars up to here are played in all; 0 where none ends here.
    endings : tuple of int
        Those that begin here.
    ends_ending : bool
        Whether an ending's bracket closes here.
    sign : {'', 'segno', 'coda'}
        Over its start.
    told : str
        What is said at its end: a jump, how often a repeat is played.
    """

    metre: Metre
    length: Fraction
    key: Key
    chords: tuple[StaffChord, ...] = ()
    notes: tuple[StaffNote, ...] = ()
    section: str = ""
    opens: bool = False
    new_line: bool = False
    silent: bool = False
    pickup: bool = False
    repeat_start: bool = False
    repeat_end: int = 0
    endings: tuple[int, ...] = ()
    ends_ending: bool = False
    double_bar: bool = False
    sign: Literal["", "segno", "coda"] = ""
    told: str = ""


@dataclass(frozen=True, slots=True)
class Staff:
    """A tune to engrave.

    Attributes
    ----------
    title : str
        What it is, for those who hear the page.
    told : tuple of str
        What the reader has to know: an octave that was moved, sections without a tune.
    """

    title: str
    clef: Clef
    bars: tuple[StaffBar, ...]
    told: tuple[str, ...] = ()
