"""A chart unfolded to its timeline: bars, chords and tune in exact quarters."""

from dataclasses import dataclass, field, replace
from fractions import Fraction

from fifthwise.chart.feel import late_by, push_by
from fifthwise.chart.model import Bar, Chart, Line, Mark, SlotKind, TuneNote
from fifthwise.chart.order import Step, playing_order
from fifthwise.chart.scope import Scope, opening_scope, section_scopes
from fifthwise.chart.timeline import Entry, NoteEvent, PlayedBar, Timeline
from fifthwise.theory import Key, NumberChord

__all__ = ["unfold"]

SIXTEENTH = Fraction(1, 4)


def unfold(chart: Chart) -> Timeline:
    """Unfold repeats, endings, jumps, the form, verses and scoped marks.

    Raises
    ------
    FormFault
        As in ``playing_order``; never of a chart that was read without a fault.
    """
    steps = playing_order(chart)
    layer = _Layer(chart)
    for step in steps:
        layer.play(step)
    return layer.timeline()


@dataclass(slots=True)
class _Chord:
    """An entry in the making."""

    kind: SlotKind
    chord: NumberChord | None
    key: Key
    at: Fraction
    length: Fraction
    marks: tuple[Mark, ...]
    bar: int

    @property
    def end(self) -> Fraction:
        return self.at + self.length


@dataclass(slots=True)
class _Note:
    """A note of the tune in the making."""

    note: TuneNote
    key: Key
    at: Fraction
    length: Fraction
    bar: int


@dataclass
class _Verses:
    """Which words each line of bars sings next."""

    next_verse: dict[tuple[int, int], int] = field(default_factory=dict)
    last: dict[tuple[int, int], tuple[int, int, int]] = field(default_factory=dict)

    def sung(self, step: Step, line_index: int, line: Line) -> int:
        """The verse for this bar, from 0; a new playing of the line takes the next."""
        place = (step.section, line_index)
        visit, bar, verse = self.last.get(place, (-1, -1, 0))
        if visit != step.visit or step.bar <= bar:
            verse = step.verse - 1 if step.verse else self.next_verse.get(place, 0)
            self.next_verse[place] = verse + 1
        self.last[place] = (step.visit, step.bar, verse)
        return min(verse, max(0, len(line.words) - 1))


class _Layer:
    """Lays bars down one after the other."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.head = opening_scope(chart)
        self.scopes: dict[tuple[int, Key], tuple[Scope, ...]] = {}
        self.line_of = [
            [(i, line) for i, line in enumerate(section.lines) for _ in line.bars]
            for section in chart.sections
        ]
        self.names = [section.name for section in chart.sections]
        self.section_bars = [section.bars for section in chart.sections]
        self.verses = _Verses()
        self.bars: list[PlayedBar] = []
        self.chords: list[_Chord] = []
        self.notes: list[_Note] = []
        self.end = Fraction(0)
        self.number = 0

    def play(self, step: Step) -> None:
        bar = self.section_bars[step.section][step.bar]
        scope = self._scope(step)
        overlays = bar.pickup is not None and bool(self.bars)
        start = self.end - bar.length if overlays else self.end
        if bar.pickup is None:
            self.number += 1
        line_index, line = self.line_of[step.section][step.bar]
        self.bars.append(
            PlayedBar(
                self.number, start, bar.length, step.section, self.names[step.section], step.visit, step.bar,
                line_index, step.repeat_pass, self.verses.sung(step, line_index, line), scope.key,
                bar.metre, scope.tempo_bpm, scope.feel, step.vamp, bar.cues, overlays,
            )
        )  # fmt: skip
        self._lay_chords(bar, start, scope.key, overlays=overlays)
        self._lay_tune(bar, start, scope.key)
        self.end = max(self.end, start + bar.length)

    def _scope(self, step: Step) -> Scope:
        place = (step.section, step.entry_key)
        if place not in self.scopes:
            entry = replace(self.head, key=step.entry_key, entry_key=step.entry_key)
            self.scopes[place] = section_scopes(self.chart.sections[step.section], entry, self.chart.key)
        return self.scopes[place][step.bar]

    def _lay_chords(self, bar: Bar, start: Fraction, key: Key, *, overlays: bool) -> None:
        at, index = start, len(self.bars) - 1
        for slot in bar.slots:
            if slot.kind == "hold":
                if not overlays and self.chords:
                    self.chords[-1].length += slot.length
            elif not overlays:
                self.chords.append(_Chord(slot.kind, slot.chord, key, at, slot.length, slot.marks, index))
            elif slot.kind != "rest":
                self._overlay(_Chord(slot.kind, slot.chord, key, at, slot.length, slot.marks, index))
            at += slot.length

    def _overlay(self, new: _Chord) -> None:
        """Lay a pickup's chord over the end of what is there, which is cut and goes on after it."""
        tail: list[_Chord] = []
        while self.chords and self.chords[-1].end > new.at:
            tail.insert(0, self.chords.pop())
        if tail and tail[0].at < new.at:
            self.chords.append(replace(tail[0], length=new.at - tail[0].at))
        self.chords.append(new)
        for chord in tail:
            at = max(chord.at, new.end)
            if at == chord.at:
                self.chords.append(chord)
            elif chord.end > at:
                self.chords.append(replace(chord, at=at, length=chord.end - at, marks=()))

    def _lay_tune(self, bar: Bar, start: Fraction, key: Key) -> None:
        at, index = start, len(self.bars) - 1
        for note in bar.tune or ():
            if note.kind == "hold":
                if self.notes and self.notes[-1].at + self.notes[-1].length == at:
                    self.notes[-1].length += note.length
            elif note.kind != "rest":
                self._cut_tune(at)
                self.notes.append(_Note(note, key, at, note.length, index))
            at += note.length

    def _cut_tune(self, at: Fraction) -> None:
        """One tune: a new note ends what still sounds."""
        while self.notes and self.notes[-1].at >= at:
            self.notes.pop()
        if self.notes and self.notes[-1].at + self.notes[-1].length > at:
            self.notes[-1].length = at - self.notes[-1].at

    def timeline(self) -> Timeline:
        entries = tuple(
            Entry(c.kind, c.chord, c.key, c.at, c.at + self._moved(c), c.length, c.marks, c.bar)
            for c in self.chords
        )
        notes = tuple(NoteEvent(n.note, n.key, n.at, n.length, n.bar) for n in self.notes)
        return Timeline(tuple(self.bars), entries, notes)

    def _moved(self, chord: _Chord) -> Fraction:
        """Quarters by which a chord sounds after its written place."""
        if not chord.marks:
            return Fraction(0)
        bar = self.bars[chord.bar]
        if "push" in chord.marks:
            return -push_by(bar.feel, bar.metre)
        if "push16" in chord.marks:
            return -SIXTEENTH
        return late_by(bar.feel, bar.metre) if "late" in chord.marks else Fraction(0)
