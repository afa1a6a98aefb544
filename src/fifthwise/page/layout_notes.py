"""A bar's tune as degrees at their beats; a beat that is divided is told in equal parts."""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import lcm
from typing import Literal

from fifthwise.chart import Bar, TuneNote, TunePitch
from fifthwise.page.layout_tune import SheetNote, TuneFigure
from fifthwise.page.text_signs import printed
from fifthwise.theory import NumberChord, write_number

__all__ = ["SLIDES", "bar_notes", "tune_figure"]

SLIDES: dict[str, Literal["", "up", "down"]] = {"": "", "/": "up", "\\": "down"}
DIGITS = "1234567"
MOST_PARTS = 8  # of a beat; what is finer is told by a second line instead of dashes


@lru_cache(maxsize=1024)  # bars come again, and the narrow screen asks for all of them once more
def bar_notes(bar: Bar, *, lowers: bool = False) -> tuple[SheetNote, ...]:
    """The tune over a bar; nothing where none is written.

    ``lowers`` counts as the chords of a song with natural minor numbering do: b3 b6 b7 are 3 6 7.
    """
    return tuple(_Beats.of(bar).notes(lowers=lowers)) if bar.tune else ()


@dataclass(slots=True)
class _Beats:
    """A bar's notes against its beats.

    Attributes
    ----------
    late : Fraction
        By how much a pickup enters after its first beat.
    parts : dict of int to int
        The equal parts of each beat that is divided.
    """

    tune: tuple[TuneNote, ...]
    beat: Fraction
    late: Fraction
    parts: dict[int, int]

    @classmethod
    def of(cls, bar: Bar) -> "_Beats":
        beat = bar.metre.beat
        late = -bar.length % beat if bar.pickup is not None else Fraction(0)
        parts: dict[int, int] = {}
        at = Fraction(0)
        for place, note in enumerate(bar.tune or ()):
            index, within = divmod((at + late) / beat, 1)
            if within and place:  # a note that begins inside a beat divides it
                parts[index] = lcm(parts.get(index, 1), within.denominator, (late / beat).denominator)
            at += note.length
        return cls(tuple(bar.tune or ()), beat, late, parts)

    def notes(self, *, lowers: bool) -> Iterator[SheetNote]:
        at = Fraction(0)
        for note in self.tune:
            (start, length), *further = self._pieces(at, note.length)
            yield self._piece(note, start, length, lowers=lowers)
            yield from (self._more(note, start, length) for start, length in further)
            at += note.length

    def _pieces(self, at: Fraction, length: Fraction) -> list[tuple[Fraction, Fraction]]:
        """A note's own part, and the further parts of divided beats that it fills."""
        end, starts, place = at + length, [at], at
        while place < end:
            step = self._step(place)
            if place > at and step < self.beat:
                starts.append(place)
            place += step
        return [(a, b - a) for a, b in zip(starts, [*starts[1:], end], strict=True)]

    def _step(self, at: Fraction) -> Fraction:
        """From a place to the next at which a part, or an undivided beat, begins."""
        index, within = divmod((at + self.late) / self.beat, 1)
        parts = self.parts.get(index, 1)
        return self.beat / parts if 1 < parts <= MOST_PARTS else self.beat * (1 - within)

    def _lines(self, at: Fraction, length: Fraction) -> int:
        parts = self.parts.get((at + self.late) // self.beat, 1)
        if parts > MOST_PARTS and length / self.beat <= Fraction(1, 4):
            return 2
        return 1 if parts > 1 else 0

    def _piece(self, note: TuneNote, at: Fraction, length: Fraction, *, lowers: bool) -> SheetNote:
        lines = self._lines(at, length)
        return SheetNote(
            "dash" if note.kind == "hold" and lines else note.kind,
            at,
            length,
            tuple(tune_figure(pitch, lowers=lowers) for pitch in note.pitches),
            tuple(tune_figure(pitch, lowers=lowers) for pitch in note.grace),
            SLIDES[note.slide],
            note.slur,
            int((at + self.late) / self.beat),
            lines,
            length >= self.beat if lines else length > self.beat,
        )

    def _more(self, note: TuneNote, at: Fraction, length: Fraction) -> SheetNote:
        lines = self._lines(at, length)
        return SheetNote(
            "rest" if note.kind == "rest" else "dash", at, length,
            beat=int((at + self.late) / self.beat), divided=lines, lasts=length >= self.beat,
        )  # fmt: skip


@lru_cache(maxsize=256)
def tune_figure(pitch: TunePitch, *, lowers: bool) -> TuneFigure:
    """A degree of a tune as it is drawn."""
    written = printed(write_number(NumberChord(pitch.degree), lowers=lowers))
    return TuneFigure(written.rstrip(DIGITS), written[-1], pitch.octave)
