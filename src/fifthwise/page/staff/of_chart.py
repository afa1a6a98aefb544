"""A chart's tune for a staff: every section that has one, as written, in the key that its reader reads."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Literal

from fifthwise.chart import (
    Bar,
    Chart,
    Scope,
    Section,
    TuneNote,
    TunePitch,
    one_pitch,
    opening_scope,
    repeat_groups,
    section_scopes,
)
from fifthwise.page.layout_bar import Figure
from fifthwise.page.layout_bars import bar_told
from fifthwise.page.layout_notes import SLIDES, tune_figure
from fifthwise.page.layout_order import WrittenSection, played, written_sections
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_road import section_name
from fifthwise.page.layout_view import PageView
from fifthwise.page.staff.model import Staff, StaffBar, StaffChord, StaffNote
from fifthwise.page.staff.octaves import best_shift, shift_told
from fifthwise.page.text_signs import printed_key
from fifthwise.theory import Interval, Key, SpelledPitch, degree_interval, transpose

__all__ = ["staff_of_chart"]

FLOATING_OCTAVE = 4
SEMITONES = 12
ENHARMONIC = 12  # places on the line of fifths
MOST_ALTER = 2
Sign = Literal["", "segno", "coda"]


def staff_of_chart(chart: Chart, view: PageView) -> Staff | None:
    """Take the tune of a chart; ``None`` where it has none.

    A section that is played in several keys stands in each of them, since notes do not move as numbers do.
    """
    maker = _StaffMaker(chart, Reader(view, chart.numbering))
    sections = [
        (place, chart.sections[place.index])
        for place in written_sections(chart, played(chart), every_key=True)
    ]
    bars = tuple(
        bar for place, section in sections if _has_tune(section) for bar in maker.section(place, section)
    )
    if not bars:
        return None
    left_out = dict.fromkeys(section_name(s.name) for _, s in sections if not _has_tune(s) and s.name)
    pitches = [pitch for bar in bars for note in bar.notes for pitch in note.pitches]
    shift = best_shift(pitches, view.part, floats=chart.octave is None)
    told = [shift_told(shift)] if shift and chart.octave is not None else []
    if left_out:
        told.append(f"Without a tune: {', '.join(left_out)}")
    key = printed_key(maker.reader.key(chart.key))
    title = f"{chart.title} in {key}, {view.part.clef.replace('treble-8', 'treble, an octave down')} clef"
    return Staff(title, view.part.clef, tuple(_shifted(bar, shift) for bar in bars), tuple(told))


def _has_tune(section: Section) -> bool:
    return any(note.kind in ("note", "chop") for bar in section.bars for note in bar.tune or ())


@dataclass(slots=True)
class _StaffMaker:
    """Makes the bars of one section after another.

    Attributes
    ----------
    sounding : tuple
        What the last note was: pitches and numbers; empty after a rest.
    """

    chart: Chart
    reader: Reader
    sounding: tuple[SpelledPitch, ...] | None = None

    def section(self, place: WrittenSection, section: Section) -> Iterator[StaffBar]:
        """The bars of a section in one of its keys."""
        entry = replace(opening_scope(self.chart), key=place.key, entry_key=place.key)
        scopes = section_scopes(section, entry, self.chart.key)
        starts = {group.start for group in repeat_groups(section.bars)[0]}
        endings = [ending for group in repeat_groups(section.bars)[0] for ending in group.endings]
        lines = {sum(len(line.bars) for line in section.lines[:at]) for at in range(len(section.lines))}
        self.sounding = None
        for at, (bar, scope) in enumerate(zip(section.bars, scopes, strict=True)):
            made = self._bar(bar, scope)
            yield replace(
                made,
                section=self._name(place, section) if at == 0 else "",
                opens=at == 0,
                new_line=at in lines,
                repeat_start=at in starts and bool(at or bar.repeat_start),
                ends_ending=any(ending.end == at for ending in endings),
                told=bar_told(bar, ends=any(ending.start <= at <= ending.end for ending in endings)),
            )

    def _name(self, place: WrittenSection, section: Section) -> str:
        name = section_name(section.name)
        times = f" ×{section.times}" if section.times > 1 else ""
        keys = dict.fromkeys(played(self.chart).keys(place.index))
        where = f", in {printed_key(self.reader.key(place.key))}" if len(keys) > 1 else ""
        return f"{name}{times}{where}" if name else ""

    def _bar(self, bar: Bar, scope: Scope) -> StaffBar:
        sign: Sign = "segno" if bar.segno else "coda" if bar.coda else ""
        return StaffBar(
            bar.metre,
            bar.length,
            self.reader.key(scope.key),
            tuple(self._chords(bar, scope.key)),
            tuple(self._notes(bar, scope.key)),
            silent=not any(note.kind != "rest" for note in bar.tune or ()),
            pickup=bar.pickup is not None,
            repeat_end=bar.repeat_end.times if bar.repeat_end else 0,
            endings=bar.endings,
            double_bar=bar.double_bar or bar.fine,
            sign=sign,
        )

    def _chords(self, bar: Bar, key: Key) -> Iterator[StaffChord]:
        at = Fraction(0)
        for slot in bar.slots:
            if slot.chord is not None:
                yield StaffChord(at, self.reader.main(slot.chord, key))
            elif slot.kind == "nc":
                yield StaffChord(at, Figure("", "NC"))
            at += slot.length

    def _notes(self, bar: Bar, key: Key) -> Iterator[StaffNote]:
        one, at = self._one(key), Fraction(0)
        lowers = self.reader.numbering.lowers(key)
        for note in bar.tune or ():
            if note.kind == "hold" and self.sounding is not None:
                yield StaffNote(at, note.length, self.sounding, goes_on=True)
            elif note.kind in ("note", "chop"):
                made = _note(note, one, at, lowers=lowers)
                self.sounding = made.pitches or None
                yield made
            elif note.kind == "rest":
                self.sounding = None
            at += note.length

    def _one(self, sounding: Key) -> SpelledPitch:
        """The unmarked 1 as the reader reads it."""
        part = self.reader.view.part
        octave = FLOATING_OCTAVE if self.chart.octave is None else self.chart.octave
        heard = one_pitch(self.chart, sounding, octave)
        name = self.reader.numbering.one(self.reader.key(sounding))
        written = heard.midi + part.written.semitones - part.capo
        if part.clef == "treble-8":
            written -= SEMITONES
        lowest = SpelledPitch(name.fifths, 0)
        return SpelledPitch(name.fifths, round((written - lowest.midi) / SEMITONES))


def _note(note: TuneNote, one: SpelledPitch, at: Fraction, *, lowers: bool) -> StaffNote:
    figures = {_pitch(one, each): tune_figure(each, lowers=lowers) for each in note.pitches}
    pitches = tuple(sorted(figures, key=lambda pitch: pitch.midi))
    return StaffNote(
        at,
        note.length,
        pitches,
        tuple(f"{figures[pitch].sign}{figures[pitch].step}" for pitch in pitches),
        slurred=note.slur,
        grace=tuple(_pitch(one, each) for each in note.grace),
        slide=SLIDES[note.slide],
    )


def _pitch(one: SpelledPitch, pitch: TunePitch) -> SpelledPitch:
    """A note as it can be written: with two sharps or flats at most."""
    found = transpose(one, degree_interval(pitch.degree, pitch.octave))
    turn = -ENHARMONIC if found.name.alter > MOST_ALTER else ENHARMONIC
    if abs(found.name.alter) <= MOST_ALTER:
        return found
    again = SpelledPitch(found.fifths + turn, found.octave)
    return SpelledPitch(again.fifths, again.octave + (found.midi - again.midi) // SEMITONES)


def _shifted(bar: StaffBar, octaves: int) -> StaffBar:
    if not octaves:
        return bar
    by = Interval(0, octaves)
    return replace(bar, notes=tuple(
        replace(
            note,
            pitches=tuple(transpose(pitch, by) for pitch in note.pitches),
            grace=tuple(transpose(pitch, by) for pitch in note.grace),
        )
        for note in bar.notes
    ))  # fmt: skip
