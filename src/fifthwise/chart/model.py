"""The song as written: a chart of sections, lines of bars, and what stands in each bar.

Chords are kept as numbers counted from the note that the song's numbering calls 1. Lengths are exact
fractions of a quarter note. Nothing here knows how the text looked; reading and writing do.
"""

from dataclasses import dataclass, field
from fractions import Fraction
from itertools import chain
from typing import Literal

from fifthwise.theory import Degree, Key, Metre, MinorWay, NumberChord, Numbering, PlainWay

__all__ = [
    "MARKS",
    "Bar",
    "Chart",
    "Cue",
    "FormItem",
    "JumpKind",
    "KeyShift",
    "Line",
    "Mark",
    "RepeatEnd",
    "ScopedMark",
    "Section",
    "Slot",
    "SlotKind",
    "TuneNote",
    "TunePitch",
]

SlotKind = Literal["chord", "rest", "nc", "hold"]
Mark = Literal["hold", "stop", "push", "push16", "late", "accent"]
MARKS: tuple[Mark, ...] = ("hold", "stop", "push", "push16", "late", "accent")
JumpKind = Literal["ds al coda", "ds al fine", "dc al coda", "dc al fine"]


@dataclass(frozen=True, slots=True)
class Slot:
    """One chord, rest, NC or hold in a bar.

    Attributes
    ----------
    kind : {'chord', 'rest', 'nc', 'hold'}
        A hold stands only at the start of a bar: what came before goes on.
    length : Fraction
        Quarters.
    chord : NumberChord or None
        What sounds; ``None`` unless ``kind`` is ``chord``.
    marks : tuple of Mark
        In the order of ``MARKS``.
    """

    kind: SlotKind
    length: Fraction
    chord: NumberChord | None = None
    marks: tuple[Mark, ...] = ()


@dataclass(frozen=True, slots=True)
class Cue:
    """Words for the band at a place in a bar or after a heading.

    Attributes
    ----------
    text : str
        The words.
    player : str or None
        Whose page they stand on, in small letters; ``None`` or ``all`` is everyone's.
    at : Fraction
        Quarters from the start of the bar; the bar's length is its end.
    """

    text: str
    player: str | None = None
    at: Fraction = Fraction(0)


@dataclass(frozen=True, slots=True)
class TunePitch:
    """A degree of the tune and its octave, 0 being the octave that begins at the unmarked 1."""

    degree: Degree
    octave: int = 0


@dataclass(frozen=True, slots=True)
class TuneNote:
    r"""One note, chop, rest or hold of a tune.

    Attributes
    ----------
    kind : {'note', 'chop', 'rest', 'hold'}
        A hold stands only at the start of a bar.
    length : Fraction
        Quarters.
    pitches : tuple of TunePitch
        One, or several sounded together; empty unless ``kind`` is ``note``.
    slur : bool
        Whether the bow goes on to the next note.
    grace : tuple of TunePitch
        Grace notes before it.
    slide : {'', '/', '\\'}
        Slid up to, or down to.
    fingers : tuple of str
        Pins such as ``A2`` or ``D0``, one a pitch; empty where free.
    """

    kind: Literal["note", "chop", "rest", "hold"]
    length: Fraction
    pitches: tuple[TunePitch, ...] = ()
    slur: bool = False
    grace: tuple[TunePitch, ...] = ()
    slide: str = ""
    fingers: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class KeyShift:
    """A change of key: by ``semitones`` (``[key +2]``), or to ``key`` (``[key A]``)."""

    semitones: int = 0
    key: Key | None = None


@dataclass(frozen=True, slots=True)
class ScopedMark:
    """A mark that holds from its bar to the section's or the ending's end; one field is set."""

    key: KeyShift | None = None
    metre: Metre | None = None
    tempo: Fraction | None = None
    feel: str | None = None


@dataclass(frozen=True, slots=True)
class RepeatEnd:
    """A ``:|``: how often its bars are played in all, or a vamp with its cue.

    ``times`` is 2 for a plain repeat, 4 for a vamp, and the highest ending where there are endings.
    """

    times: int = 2
    vamp: str | None = None


@dataclass(frozen=True, slots=True)
class Bar:
    """One bar as written.

    Attributes
    ----------
    slots : tuple of Slot
        What is played; their lengths fill the bar. Empty where the text could not be read.
    metre : Metre
        The metre that holds here.
    metre_once : bool
        Whether it is written for this bar only.
    pickup : Fraction or None
        Felt beats of a pickup bar.
    copied : bool
        Whether it is written ``%``.
    tune : tuple of TuneNote or None
        The tune over this bar, where one is written.
    endings : tuple of int
        The endings that begin here, such as (1, 2).
    """

    slots: tuple[Slot, ...]
    metre: Metre
    metre_once: bool = False
    pickup: Fraction | None = None
    copied: bool = False
    tune: tuple[TuneNote, ...] | None = None
    marks: tuple[ScopedMark, ...] = ()
    cues: tuple[Cue, ...] = ()
    repeat_start: bool = False
    repeat_end: RepeatEnd | None = None
    endings: tuple[int, ...] = ()
    double_bar: bool = False
    segno: bool = False
    coda: bool = False
    to_coda: bool = False
    fine: bool = False
    jump: JumpKind | None = None
    line_number: int = field(default=0, compare=False)

    @property
    def length(self) -> Fraction:
        """Quarters that the bar lasts, shorter than its metre in a pickup."""
        return self.metre.length if self.pickup is None else self.pickup * self.metre.beat


@dataclass(frozen=True, slots=True)
class Line:
    """A line of bars, as it is kept on the page, with its verses (one ``words:`` line each)."""

    bars: tuple[Bar, ...]
    words: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Section:
    """A section: its heading (``None`` for bars before any), how often it plays, its lines."""

    name: str | None
    lines: tuple[Line, ...]
    times: int = 1
    cues: tuple[Cue, ...] = ()
    line_number: int = field(default=0, compare=False)

    @property
    def bars(self) -> tuple[Bar, ...]:
        """All bars in text order."""
        return tuple(chain.from_iterable(line.bars for line in self.lines))


@dataclass(frozen=True, slots=True)
class FormItem:
    """One entry of ``form:``: a section (and its verse) played ``times`` times, or a change of key.

    Attributes
    ----------
    section : int or None
        Index into the chart's sections; ``None`` for a change of key.
    verse : int or None
        Which ``words:`` line, from 1; ``None`` takes the next.
    """

    section: int | None = None
    verse: int | None = None
    times: int = 1
    shift: KeyShift | None = None


@dataclass(frozen=True, slots=True)
class Chart:
    """A song.

    Attributes
    ----------
    tempo : Fraction or None
        Felt beats a minute; ``None`` where the head is silent (100 is played, "about" is said).
    octave : int or None
        Octave of an unmarked 1 of the tune; ``None`` lets the tune float.
    lowest, highest : TunePitch or None
        Ends of the sung tune where none is written.
    """

    title: str
    key: Key
    sections: tuple[Section, ...]
    by: str | None = None
    metre: Metre = Metre(4, 4)  # noqa: RUF009 - frozen
    tempo: Fraction | None = None
    feel: str | None = None
    form: tuple[FormItem, ...] = ()
    tags: str | None = None
    octave: int | None = None
    lowest: TunePitch | None = None
    highest: TunePitch | None = None
    minor: MinorWay = "from-six"
    plain: PlainWay = "explicit"

    @property
    def numbering(self) -> Numbering:
        """How the song's numbers count."""
        return Numbering(self.minor, self.plain)
