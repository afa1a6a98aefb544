"""A lead sheet's notes as a chart's tune: degrees, rests between, holds for ties over a bar line."""

from collections.abc import Iterator
from fractions import Fraction
from functools import lru_cache
from math import lcm

from fifthwise.chart import TuneNote, TunePitch
from fifthwise.exchange.lead_sheet import LeadBar, LeadNote
from fifthwise.theory import Degree, Key, Numbering, SpelledPitch, between, nearest_interval

__all__ = ["TuneMaker", "best_octave", "one_in"]

SEMITONES = 12
LOWEST_OCTAVE, HIGHEST_OCTAVE = 0, 8  # that a chart may name
# The finest common parts of a quarter that a tune is read in, and those that finer ones are rounded to.
FINEST, COUNTED = 48, 24
LOWEST, HIGHEST = -15, 19  # bb4 and ##7, the outermost degrees with two accidentals
ENHARMONIC = 12
MOST_MARKS = 4  # octaves above or below the unmarked one that a chart can write


def best_octave(bars: tuple[LeadBar, ...], numbering: Numbering) -> int:
    """The octave of the unmarked 1 that needs the fewest octave marks; 4 where there is no tune."""
    begun = [note for bar in bars for note in bar.notes if not note.goes_on]
    midis = [pitch.midi for note in begun for pitch in note.pitches]
    if not midis:
        return 4
    one = SpelledPitch(numbering.one(bars[0].key).fifths, 0)
    middle = (sorted(midis)[len(midis) // 2] - one.midi) // SEMITONES
    return min(max(middle, LOWEST_OCTAVE), HIGHEST_OCTAVE)


class TuneMaker:
    """Makes the tune of one bar after another.

    Parameters
    ----------
    head : Key
        The chart's.
    octave : int
        Of the unmarked 1 in that key.
    """

    def __init__(self, numbering: Numbering, head: Key, octave: int) -> None:
        self.numbering, self.head, self.octave = numbering, head, octave
        self.known: dict[tuple[SpelledPitch, Key], tuple[TunePitch, bool, bool]] = {}
        self.respelled = 0
        self.folded = 0  # notes further off than a chart can write
        self.sounds = False  # whether a note has sounded up to here

    def bar(self, bar: LeadBar) -> tuple[TuneNote, ...]:
        """The tune of one bar, as long as the bar."""
        found: list[TuneNote] = []
        grid = _grid(bar.notes, bar.length)
        end, last = 0, _parts(bar.length, grid)
        for note, at, stop in _placed(bar.notes, last, grid):
            if at > end:
                found.append(TuneNote("rest", _quarters(at - end, grid)))
            self._add(found, note, _quarters(stop - at, grid), bar.key)
            end = stop
        if end < last:
            found.append(TuneNote("rest", _quarters(last - end, grid)))
        self.sounds = found[-1].kind != "rest"
        return tuple(found)

    def _add(self, found: list[TuneNote], note: LeadNote, length: Fraction, key: Key) -> None:
        last = found[-1] if found else None
        if note.goes_on and last is not None and last.kind != "rest":
            slurred = note.slurred and last.kind == "note"
            found[-1] = TuneNote(
                last.kind, last.length + length, last.pitches, slurred, last.grace, last.slide,
                last.fingers,
            )  # fmt: skip
        elif note.goes_on and last is None and self.sounds:
            found.append(TuneNote("hold", length))
        else:
            pitches = tuple([self._pitch(pitch, key) for pitch in note.pitches])
            grace = tuple([self._pitch(pitch, key) for pitch in note.grace])
            found.append(TuneNote("note", length, pitches, note.slurred, grace, "", note.fingers))

    def _pitch(self, pitch: SpelledPitch, key: Key) -> TunePitch:
        counted = self.known.get((pitch, key))
        if counted is None:
            counted = self.known[pitch, key] = self._counted(pitch, key)
        found, respelled, folded = counted
        self.respelled += respelled
        self.folded += folded
        return found

    def _counted(self, pitch: SpelledPitch, key: Key) -> tuple[TunePitch, bool, bool]:
        """A pitch, and whether it had to be respelled or folded."""
        one = one_in(self.numbering, self.head, key, self.octave)
        degree = pitch.fifths - one.fifths
        turn = ENHARMONIC if degree < LOWEST else -ENHARMONIC if degree > HIGHEST else 0
        spelled = SpelledPitch(pitch.fifths + turn, pitch.octave)
        octaves = (pitch.midi - spelled.midi) // SEMITONES
        spelled = SpelledPitch(spelled.fifths, spelled.octave + octaves)
        marks = between(one, spelled).steps // 7
        near = min(max(marks, -MOST_MARKS), MOST_MARKS)
        return TunePitch(Degree(degree + turn), near), bool(turn), near != marks


def one_in(numbering: Numbering, head: Key, key: Key, octave: int) -> SpelledPitch:
    """The unmarked 1 of a key: the one nearest to the head key's in ``octave``, up at a tritone."""
    home = SpelledPitch(numbering.one(head).fifths, octave)
    one = SpelledPitch(numbering.one(key).fifths, octave)
    lift = nearest_interval(one.fifths - home.fifths).semitones
    return SpelledPitch(one.fifths, octave + (home.midi + lift - one.midi) // SEMITONES)


def _placed(notes: tuple[LeadNote, ...], last: int, grid: int) -> Iterator[tuple[LeadNote, int, int]]:
    """Notes in order, where they begin and where they end: none over another, all before ``last``."""
    end = 0
    for note, at, stop in _rounded(notes, grid):
        at, stop = max(at, end), min(stop, last)
        if stop > at:
            yield note, at, stop
            end = stop


def _rounded(notes: tuple[LeadNote, ...], grid: int) -> list[tuple[LeadNote, int, int]]:
    """Notes in order with their nearest places on the grid."""
    found: list[tuple[LeadNote, int, int]] = []
    for note in notes:
        (at, at_parts), (long, long_parts) = note.at.as_integer_ratio(), note.length.as_integer_ratio()
        if grid % at_parts or grid % long_parts:
            found = [(each, _parts(each.at, grid), _parts(each.at + each.length, grid)) for each in notes]
            return sorted(found, key=_begin)
        begin = at * (grid // at_parts)
        found.append((note, begin, begin + long * (grid // long_parts)))
    return sorted(found, key=_place)


def _begin(placed: tuple[LeadNote, int, int]) -> Fraction:
    return placed[0].at


def _place(placed: tuple[LeadNote, int, int]) -> int:
    return placed[1]


def _grid(notes: tuple[LeadNote, ...], length: Fraction) -> int:
    """The parts of a quarter that a bar and its notes need, or where these are too many, as are counted."""
    ends = length.denominator
    needed = lcm(ends, *(time.denominator for note in notes for time in (note.at, note.length)))
    return needed if needed <= FINEST else ends * max(1, COUNTED // ends)


def _parts(time: Fraction, grid: int) -> int:
    """The place on the grid that is nearest; whole numbers count much faster than fractions."""
    count, parts = time.as_integer_ratio()
    return round(time * grid) if grid % parts else count * (grid // parts)


@lru_cache(maxsize=4096)
def _quarters(parts: int, grid: int) -> Fraction:
    return Fraction(parts, grid)
