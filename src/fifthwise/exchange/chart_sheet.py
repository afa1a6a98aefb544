"""A chart as a lead sheet: what every writer of a notation file starts from.

Bars stand as they are written, with their repeats and jumps. Where the chart has a form, its sections stand
in the order in which they are played, each in the key in which it is entered.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.chart import (
    Bar,
    Chart,
    Cue,
    Scope,
    Section,
    opening_scope,
    repeat_groups,
    section_scopes,
    shifted_key,
)
from fifthwise.exchange.chart_tune import NoteMaker
from fifthwise.exchange.chart_words import line_words, sung
from fifthwise.exchange.lead_pickups import parted_by_pickups
from fifthwise.exchange.lead_sheet import LeadBar, LeadChord, LeadSheet
from fifthwise.theory import Key

__all__ = ["sheet_of_chart"]

EVERYONE = "all"
VERSES = "second verses under the same notes are left out"


def sheet_of_chart(chart: Chart) -> LeadSheet:
    """Write a chart's bars, chords, tune and first words as a lead sheet at concert pitch."""
    maker = _SheetMaker(chart)
    laid = list(maker.bars())
    bars = parted_by_pickups([bar for bar, _ in laid], [pickup for _, pickup in laid], chart.numbering)
    left_out = (*maker.notes.left_out, *([VERSES] if maker.leaves_verses() else []))
    return LeadSheet(chart.title, bars, chart.by or "", chart.feel or "", left_out)


@dataclass(frozen=True, slots=True)
class _Playing:
    """A section as it is played: entered in a key, with one of its verses, so often."""

    section: Section
    entry: Key
    verse: int
    times: int


class _SheetMaker:
    """Lays a chart's bars down, keeping the tempo, the feel and what the tune ties over."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.notes = NoteMaker(chart)
        self.tempo_bpm: Fraction | None = None
        self.feel = opening_scope(chart).feel
        self.sung: set[tuple[int, int]] = set()  # ids, since to compare sections takes long, and verses

    def bars(self) -> Iterator[tuple[LeadBar, bool]]:
        """Each bar, and whether it is a pickup."""
        for playing in _playings(self.chart):
            bars, times = self._section(playing), playing.times
            pickups = [bar.pickup is not None for bar in playing.section.bars]
            if times > 1 and bars and not repeat_groups(playing.section.bars)[0]:
                bars[0] = replace(bars[0], repeat_start=True)
                bars[-1] = replace(bars[-1], repeat_end=times)
                times = 1
            yield from list(zip(bars, pickups, strict=True)) * times

    def _section(self, playing: _Playing) -> list[LeadBar]:
        section = playing.section
        self.sung.add((id(section), playing.verse))
        entry = replace(opening_scope(self.chart), key=playing.entry, entry_key=playing.entry)
        scopes = section_scopes(section, entry, self.chart.key)
        words = [cell for line in section.lines for cell in line_words(line, playing.verse)]
        rows = zip(section.bars, scopes, words, strict=True)
        bars = [self._bar(bar, scope, syllables) for bar, scope, syllables in rows]
        said = tuple(_words(cue) for cue in section.cues)
        bars[:1] = [replace(b, section=section.name or "", words=said + b.words) for b in bars[:1]]
        for group in repeat_groups(section.bars)[0]:
            bars[group.start] = replace(bars[group.start], repeat_start=True)
            for ending in group.endings:
                bars[ending.end] = replace(bars[ending.end], ends_ending=True)
        return bars

    def _bar(self, bar: Bar, scope: Scope, syllables: tuple[str, ...]) -> LeadBar:
        end, told, feel = bar.repeat_end, self.tempo_bpm, self.feel
        self.tempo_bpm, self.feel = scope.tempo_bpm, scope.feel
        return LeadBar(
            bar.metre,
            bar.length,
            scope.key,
            tuple(_chords(bar)),
            sung(tuple(self.notes.bar(bar, scope.key)), syllables),
            None if scope.tempo_bpm == told else scope.tempo_bpm,
            repeat_start=bar.repeat_start,
            repeat_end=end.times if end else 0,
            endings=bar.endings,
            segno=bar.segno,
            coda=bar.coda,
            to_coda=bar.to_coda,
            fine=bar.fine,
            jump=bar.jump,
            words=(
                *([scope.feel] if scope.feel != feel else []),
                *(_words(cue) for cue in bar.cues),
                *([end.vamp] if end and end.vamp else []),
            ),
        )

    def leaves_verses(self) -> bool:
        """Whether a section has verses that were not laid down."""
        return any(
            (id(section), verse) not in self.sung
            for section in self.chart.sections
            for verse in range(max((len(line.words) for line in section.lines), default=0))
        )


def _words(cue: Cue) -> str:
    """A cue's words, with the player's name before them where they are for one alone."""
    if cue.player is None or (cue.player == EVERYONE and cue.text):
        return cue.text
    return f"{cue.player}: {cue.text}" if cue.text else cue.player


def _playings(chart: Chart) -> Iterator[_Playing]:
    if not chart.form:
        yield from (_Playing(section, chart.key, 0, section.times) for section in chart.sections)
        return
    key, sung_so_far = chart.key, [0] * len(chart.sections)
    for item in chart.form:
        if item.shift is not None:
            key = shifted_key(item.shift, chart.key, chart.key)
        if item.section is not None:
            section = chart.sections[item.section]
            verse = item.verse - 1 if item.verse else sung_so_far[item.section]
            sung_so_far[item.section] = verse + 1
            yield _Playing(section, key, verse, item.times * section.times)


def _chords(bar: Bar) -> Iterator[LeadChord]:
    """The chords that begin in a bar; the silence of a pickup leaves what sounds."""
    at = Fraction(0)
    for slot in bar.slots:
        if slot.kind != "hold" and not (slot.kind == "rest" and bar.pickup is not None):
            yield LeadChord(at, slot.chord, slot.marks)
        at += slot.length
