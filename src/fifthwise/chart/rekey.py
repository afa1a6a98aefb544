"""Songs moved to another key, and counted in another way."""

from collections.abc import Callable
from dataclasses import replace

from fifthwise.chart.model import Bar, Chart, KeyShift, Line, ScopedMark, Section, TuneNote, TunePitch
from fifthwise.chart.scope import moved_key, opening_scope, section_scopes
from fifthwise.theory import (
    Degree,
    Interval,
    Key,
    MinorWay,
    NoteName,
    SpelledPitch,
    degree_interval,
    recount,
    transpose,
)
from fifthwise.theory.numbering import Numbering

__all__ = ["rekey", "renumber"]

HALF_OCTAVE = 6
MINOR_THIRD = Interval(-3, 2)


def rekey(chart: Chart, tonic: NoteName) -> Chart:
    """Move a song to another tonic; its mode and its numbers stay.

    Keys named inside the song move with it, respelled where they would have more than seven sharps
    or flats. A tune with an octave goes to the nearer side, half an octave at most.
    """
    by = tonic.fifths - chart.key.tonic.fifths
    moved = replace(
        chart,
        key=Key(tonic, chart.key.mode),
        form=tuple(replace(item, shift=_moved_shift(item.shift, by)) for item in chart.form),
        sections=tuple(_map_bars(section, lambda bar: _moved_bar(bar, by)) for section in chart.sections),
    )
    return replace(moved, octave=_nearest_octave(chart, moved))


def _moved_shift(shift: KeyShift | None, by: int) -> KeyShift | None:
    if shift is None or shift.key is None:
        return shift
    return KeyShift(key=moved_key(shift.key, by))


def _moved_bar(bar: Bar, by: int) -> Bar:
    if not any(mark.key for mark in bar.marks):
        return bar
    marks = tuple(ScopedMark(_moved_shift(m.key, by), m.metre, m.tempo, m.feel) for m in bar.marks)
    return replace(bar, marks=marks)


def _map_bars(section: Section, change: Callable[[Bar], Bar]) -> Section:
    lines = tuple(Line(tuple(map(change, line.bars)), line.words) for line in section.lines)
    return replace(section, lines=lines)


def _nearest_octave(old: Chart, new: Chart) -> int | None:
    if old.octave is None:
        return None
    start = SpelledPitch(old.numbering.one(old.key).fifths, old.octave)
    for octave in (old.octave, old.octave - 1, old.octave + 1):
        end = SpelledPitch(new.numbering.one(new.key).fifths, octave)
        if abs(end.midi - start.midi) <= HALF_OCTAVE:
            return octave
    return old.octave


def renumber(chart: Chart, minor: MinorWay) -> Chart:
    """Count a song's minor keys in another way; what sounds stays the same."""
    new = replace(chart, minor=minor)
    if not chart.key.is_minor and not _has_minor_mark(chart):
        return new
    head = opening_scope(chart)
    sections = []
    for section in chart.sections:
        keys = iter(scope.key for scope in section_scopes(section, head, chart.key))
        sections.append(_map_bars(section, lambda bar, keys=keys: _recounted(bar, next(keys), chart, new)))  # type: ignore[misc]  # the default binds the loop's own keys
    by = _count_from(chart.numbering, new.numbering, chart.key)
    return replace(
        new,
        sections=tuple(sections),
        octave=_octave_below(chart, by),
        lowest=chart.lowest and _moved_pitch(chart.lowest, by),
        highest=chart.highest and _moved_pitch(chart.highest, by),
    )


def _has_minor_mark(chart: Chart) -> bool:
    marks = (mark for section in chart.sections for bar in section.bars for mark in bar.marks)
    return any(mark.key and mark.key.key and mark.key.key.is_minor for mark in marks)


def _count_from(old: Numbering, new: Numbering, key: Key) -> Interval:
    """What to add to an interval above the old 1 to count it from the new."""
    fifths = old.one(key).fifths - new.one(key).fifths
    return MINOR_THIRD if fifths < 0 else -MINOR_THIRD if fifths > 0 else Interval(0, 0)


def _octave_below(chart: Chart, by: Interval) -> int | None:
    if chart.octave is None:
        return None
    return transpose(SpelledPitch(chart.numbering.one(chart.key).fifths, chart.octave), -by).octave


def _moved_pitch(pitch: TunePitch, by: Interval) -> TunePitch:
    moved = degree_interval(pitch.degree, pitch.octave) + by
    return TunePitch(Degree(moved.fifths), moved.steps // 7)


def _recounted(bar: Bar, key: Key, old: Chart, new: Chart) -> Bar:
    by = _count_from(old.numbering, new.numbering, key)
    if by == Interval(0, 0):
        return bar
    slots = tuple(replace(s, chord=recount(s.chord, by.fifths)) if s.chord else s for s in bar.slots)
    tune = None if bar.tune is None else tuple(_moved_note(note, by) for note in bar.tune)
    return replace(bar, slots=slots, tune=tune)


def _moved_note(note: TuneNote, by: Interval) -> TuneNote:
    pitches = tuple(_moved_pitch(pitch, by) for pitch in note.pitches)
    return replace(note, pitches=pitches, grace=tuple(_moved_pitch(pitch, by) for pitch in note.grace))
