"""Notes put on a grid: where the file writes notes exactly they stay, where somebody played they are moved.

A file is written when nine notes of ten begin on an even part of a quarter, to a tick. There each quarter is
parted as its notes need. A played quarter is parted in sixteenths or triplets, whichever its notes lie
nearer to, counted in the distance of two grid lines; the sixteenths win when in doubt.
"""

from bisect import bisect_left, bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.midi.bars import Span
from fifthwise.exchange.midi.raw import RawNote

__all__ = ["GridNote", "Moved", "on_grid"]

# Parts of a quarter, in the order in which they are tried.
WRITTEN = (1, 2, 3, 4, 6, 8, 12, 5, 7, 16, 24)
COARSE = (8, 12)  # parts that show whether a file is written
PLAYED = (4, 3)
WRITTEN_SHARE = 0.9
TRIPLETS_MUST_BEAT = 0.6  # of the sixteenths' error, both in grid distances
CLOSED_GAP = Fraction(1, 4)  # quarters of silence after a played note that are no rest
# Notes that lie so far off on average, in halves of the grid's distance, follow no beat: random ones have
# 0.42, ones played 20 ms off at 120 about 0.2 (simulated, see tests/exchange/midi/test_grid.py).
DOUBTFUL = 0.35
FEW = 16  # played notes that say nothing yet
FEW_TICKS = 96  # a quarter; below, a tick is too long to be rounding


@dataclass(frozen=True, slots=True)
class GridNote:
    """One note on the grid, in quarters."""

    start: Fraction
    end: Fraction
    midi: int


@dataclass(frozen=True, slots=True)
class Moved:
    """How much was moved.

    Attributes
    ----------
    notes, moved : int
        How many there are, and how many do not begin where they did.
    mean, most : float
        Quarters by which those were moved.
    is_doubtful : bool
        Whether the notes seem to follow no beat.
    """

    notes: int
    moved: int = 0
    mean: float = 0.0
    most: float = 0.0
    is_doubtful: bool = False


def on_grid(notes: Sequence[RawNote], ppq: int, spans: Sequence[Span]) -> tuple[list[GridNote], Moved]:
    """Put notes, in order of their beginning, on the grid of their quarters."""
    grid = _Grid(ppq, notes)
    found: list[GridNote] = []
    starts = [Fraction(note.start, ppq) for note in notes]
    for span in spans:
        beat = span.start
        while beat < span.end:
            stop = min(beat + 1, span.end)
            low, high = bisect_left(starts, beat), bisect_left(starts, stop)
            found += grid.beat(notes[low:high], beat, stop)
            beat = stop
    return found, grid.moved(len(notes))


class _Grid:
    """Keeps what was moved from quarter to quarter."""

    def __init__(self, ppq: int, notes: Sequence[RawNote]) -> None:
        self.ppq = ppq
        self.near = 1.01 if ppq >= FEW_TICKS else 0.51
        self.starts = sorted({note.start for note in notes})
        fits = sum(any(self._fits(at, parts) for parts in COARSE) for at in self.starts)
        self.is_written = fits >= WRITTEN_SHARE * len(self.starts)
        self.errors: list[float] = []
        self.steps: list[float] = []

    def _fits(self, ticks: float, parts: int) -> bool:
        step = self.ppq / parts
        return abs(ticks - round(ticks / step) * step) <= self.near

    def beat(self, notes: Sequence[RawNote], beat: Fraction, stop: Fraction) -> list[GridNote]:
        """The notes that begin in one quarter."""
        if not notes:
            return []
        base = float(beat * self.ppq)
        offsets = [note.start - base for note in notes]
        parts = self._written(offsets) if self.is_written else 0
        played = not parts
        parts = parts or self._played(offsets)
        found = []
        for note, offset in zip(notes, offsets, strict=True):
            start = min(beat + Fraction(round(offset * parts / self.ppq), parts), stop)
            self._note_error(float(start) * self.ppq - note.start, parts, played=played)
            end = self._end(note, start, parts, played=played)
            found.append(GridNote(start, end, note.midi))
        return found

    def _written(self, offsets: Sequence[float]) -> int:
        """The fewest parts of a quarter on which all notes lie; 0 where there are none."""
        return next((p for p in WRITTEN if all(self._fits(offset, p) for offset in offsets)), 0)

    def _played(self, offsets: Sequence[float]) -> int:
        errors = {}
        for parts in PLAYED:
            places = [offset * parts / self.ppq for offset in offsets]
            errors[parts] = sum(abs(place - round(place)) for place in places)
        sixteenths, triplets = PLAYED
        return triplets if errors[triplets] < TRIPLETS_MUST_BEAT * errors[sixteenths] else sixteenths

    def _end(self, note: RawNote, start: Fraction, parts: int, *, played: bool) -> Fraction:
        """Where a note ends: as written, or held to the next one when only breath is between."""
        end = Fraction(note.end, self.ppq)
        after = bisect_right(self.starts, note.start)
        following = self.starts[after] if after < len(self.starts) else None
        if not played:
            for fine in (parts, *WRITTEN):
                if self._fits(note.end, fine) and (place := Fraction(round(end * fine), fine)) > start:
                    return place
        step = Fraction(1, parts)
        if following is not None and 0 <= Fraction(following, self.ppq) - end <= CLOSED_GAP:
            end = Fraction(following, self.ppq)
        return max(Fraction(round(end * parts), parts), start + step)

    def _note_error(self, ticks: float, parts: int, *, played: bool) -> None:
        self.errors.append(abs(ticks) / self.ppq)
        if played:
            self.steps.append(abs(ticks) / self.ppq * parts * 2)

    def moved(self, notes: int) -> Moved:
        """What was moved in all."""
        moved = [error for error in self.errors if error * self.ppq > self.near]
        if not moved:
            return Moved(notes)
        is_doubtful = len(self.steps) >= FEW and sum(self.steps) / len(self.steps) > DOUBTFUL
        return Moved(notes, len(moved), sum(moved) / len(moved), max(moved), is_doubtful)
