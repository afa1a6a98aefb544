"""The song as played: every bar, chord and note of the unfolded form, in exact quarters from the start.

Before the first full bar stands at most a pickup, which is bar 0; full bars count from 1.
"""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart.model import Cue, Mark, SlotKind, TuneNote
from fifthwise.theory import Key, Metre, NumberChord

__all__ = ["Entry", "NoteEvent", "PlayedBar", "Timeline"]


@dataclass(frozen=True, slots=True)
class PlayedBar:
    """One bar of the playing order.

    Attributes
    ----------
    number : int
        From 1; 0 for a pickup before anything else was played.
    start, length : Fraction
        Quarters.
    section : int
        Index into the chart's sections.
    section_name : str or None
        Its heading.
    visit : int
        Counts the playings of sections from 0, so that two choruses differ.
    bar : int
        Index of the bar in its section.
    line : int
        Index of the line in its section.
    repeat_pass : int
        1 at the first pass through a repeat, then 2 …
    verse : int
        Index of the words line that is sung here, from 0.
    tempo_bpm : Fraction
        Quarters a minute.
    vamp : str or None
        The cue of an open vamp that this bar belongs to.
    cues : tuple of Cue
        The bar's cues, as written.
    overlays : bool
        Whether this is a pickup over the end of the bar before; it has that bar's number and adds no
        length.
    """

    number: int
    start: Fraction
    length: Fraction
    section: int
    section_name: str | None
    visit: int
    bar: int
    line: int
    repeat_pass: int
    verse: int
    key: Key
    metre: Metre
    tempo_bpm: Fraction
    feel: str
    vamp: str | None = None
    cues: tuple[Cue, ...] = ()
    overlays: bool = False


@dataclass(frozen=True, slots=True)
class Entry:
    """One chord, rest or NC of the timeline.

    Attributes
    ----------
    kind : {'chord', 'rest', 'nc'}
        What it is; holds have been added to what they lengthen.
    written_at, sounds_at : Fraction
        Quarters from the start of the timeline. They differ by a push or a late mark; a push on the
        very first chord sounds before 0, in the count-in.
    length : Fraction
        Quarters as written.
    bar : int
        Index into ``Timeline.bars``.
    """

    kind: SlotKind
    chord: NumberChord | None
    key: Key
    written_at: Fraction
    sounds_at: Fraction
    length: Fraction
    marks: tuple[Mark, ...]
    bar: int


@dataclass(frozen=True, slots=True)
class NoteEvent:
    """One note or chop of the tune, its holds added.

    Attributes
    ----------
    note : TuneNote
        As written, in degrees; its own length is the first part only.
    key : Key
        The key that holds.
    starts_at, length : Fraction
        Quarters.
    bar : int
        Index into ``Timeline.bars``.
    """

    note: TuneNote
    key: Key
    starts_at: Fraction
    length: Fraction
    bar: int


@dataclass(frozen=True, slots=True)
class Timeline:
    """A chart unfolded: bars, chords and tune in playing order."""

    bars: tuple[PlayedBar, ...]
    entries: tuple[Entry, ...]
    notes: tuple[NoteEvent, ...]

    @property
    def length(self) -> Fraction:
        """Quarters from the start to the end of the last bar."""
        return max((bar.start + bar.length for bar in self.bars), default=Fraction(0))

    @property
    def seconds(self) -> float:
        """Playing time, every vamp counted as written."""
        played = (bar.length * 60 / bar.tempo_bpm for bar in self.bars if not bar.overlays)
        return float(sum(played, Fraction(0)))
