"""A chart's tune as notes at their pitches, ties over bar lines included."""

from collections.abc import Iterator
from fractions import Fraction

from fifthwise.chart import Bar, Chart, TunePitch
from fifthwise.exchange.lead_sheet import LeadNote
from fifthwise.exchange.lead_tune import one_in
from fifthwise.theory import Key, SpelledPitch, degree_interval, transpose

__all__ = ["FLOATING_OCTAVE", "NoteMaker"]

FLOATING_OCTAVE = 4  # of the unmarked 1 of a tune that says none
CHOPS = "chops are left out: they have no pitch"
SLIDES = "slides into notes are left out"


class NoteMaker:
    """Makes the notes of one bar after another.

    Attributes
    ----------
    left_out : list of str
        What no note stands for.
    """

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.octave = FLOATING_OCTAVE if chart.octave is None else chart.octave
        self.left_out: list[str] = []
        self.sounding: tuple[SpelledPitch, ...] = ()
        self.key: Key | None = None
        self.one = SpelledPitch(0, self.octave)
        self.known: dict[TunePitch, SpelledPitch] = {}  # in the key that holds

    def bar(self, bar: Bar, key: Key) -> Iterator[LeadNote]:
        """The notes of a bar; one that goes on from the bar before is tied to itself by ``goes_on``."""
        if key != self.key:
            self.key, self.known = key, {}
            self.one = one_in(self.chart.numbering, self.chart.key, key, self.octave)
        at = Fraction(0)
        for note in bar.tune or ():
            if note.kind == "hold" and self.sounding:
                yield LeadNote(at, note.length, self.sounding, goes_on=True)
            elif note.kind == "note":
                if note.slide:
                    self._leave(SLIDES)
                self.sounding = self._together(note.pitches)
                grace = tuple(self._pitch(each) for each in note.grace)
                yield LeadNote(
                    at, note.length, self.sounding, slurred=note.slur, grace=grace, fingers=note.fingers
                )
            elif note.kind != "hold":
                self._silence(note.kind)
            at += note.length

    def _together(self, pitches: tuple[TunePitch, ...]) -> tuple[SpelledPitch, ...]:
        found = tuple(self._pitch(each) for each in pitches)
        return found if len(found) == 1 else tuple(sorted(found, key=_height))

    def _pitch(self, pitch: TunePitch) -> SpelledPitch:
        if pitch not in self.known:
            self.known[pitch] = transpose(self.one, degree_interval(pitch.degree, pitch.octave))
        return self.known[pitch]

    def _silence(self, kind: str) -> None:
        self.sounding = ()
        if kind == "chop":
            self._leave(CHOPS)

    def _leave(self, what: str) -> None:
        if what not in self.left_out:
            self.left_out.append(what)


def _height(pitch: SpelledPitch) -> int:
    return pitch.midi
