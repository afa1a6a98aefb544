"""A lead sheet as other people's files have one: bars with chords, a tune and words, before it is a chart.

Every reader of a notation file makes this value, and one function makes a chart of it. Times are exact
quarters from the start of a bar; pitches and chords are spelled as in the file, at concert pitch.
"""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart import JumpKind, Mark
from fifthwise.theory import Key, LetterChord, Metre, NumberChord, SpelledPitch

__all__ = ["LeadBar", "LeadChord", "LeadNote", "LeadSheet"]


@dataclass(frozen=True, slots=True)
class LeadChord:
    """A chord where it begins; it holds until the next, over bar lines too.

    Attributes
    ----------
    chord : LetterChord, NumberChord or None
        A number counts from the 1 of the key that holds; ``None`` is no chord.
    marks : tuple of Mark
        As a chart has them: ``hold``, ``stop``, ``push`` …
    """

    at: Fraction
    chord: LetterChord | NumberChord | None
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class LeadNote:
    """One note of the tune, or several sounded together; what lies between two is a rest.

    Attributes
    ----------
    pitches : tuple of SpelledPitch
        Low to high.
    goes_on : bool
        Whether it is tied from the note before, and so is no new note.
    slurred : bool
        Whether the bow goes on to the next note.
    grace : tuple of SpelledPitch
        Quick notes before it.
    syllable : str
        Of the first verse; a ``-`` at its end says that the word goes on.
    fingers : tuple of str
        Pins as a chart has them, one a pitch; or none.
    """

    at: Fraction
    length: Fraction
    pitches: tuple[SpelledPitch, ...]
    goes_on: bool = False
    slurred: bool = False
    grace: tuple[SpelledPitch, ...] = ()
    syllable: str = ""
    fingers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeadBar:
    """One bar as written.

    Attributes
    ----------
    metre : Metre
        That holds here.
    length : Fraction
        Quarters that the bar lasts; another length than the metre's in a pickup or a bar parted by a repeat.
    key : Key
        That holds here.
    tempo_bpm : Fraction or None
        Quarters a minute from here on; ``None`` goes on as before.
    section : str
        The label that begins here; may be empty.
    repeat_end : int
        How often the bars up to here are played in all; 0 where none ends here.
    endings : tuple of int
        Those that begin here.
    ends_ending : bool
        Whether an ending's bracket closes here.
    words : tuple of str
        What is said to the players here.
    """

    metre: Metre
    length: Fraction
    key: Key
    chords: tuple[LeadChord, ...] = ()
    notes: tuple[LeadNote, ...] = ()
    tempo_bpm: Fraction | None = None
    section: str = ""
    repeat_start: bool = False
    repeat_end: int = 0
    endings: tuple[int, ...] = ()
    ends_ending: bool = False
    segno: bool = False
    coda: bool = False
    to_coda: bool = False
    fine: bool = False
    jump: JumpKind | None = None
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LeadSheet:
    """A song as a notation file holds it.

    Attributes
    ----------
    title, by, feel : str
        May be empty.
    left_out : tuple of str
        What the file has that is not in this value, each in a short sentence without a full stop.
    """

    title: str
    bars: tuple[LeadBar, ...]
    by: str = ""
    feel: str = ""
    left_out: tuple[str, ...] = ()
