"""A lead sheet made into a chart, and what of it a chart cannot hold."""

from dataclasses import dataclass, replace
from itertools import chain, islice

from fifthwise.chart import (
    DEFAULT_TEMPO,
    Bar,
    Chart,
    Cue,
    FormFault,
    Line,
    RepeatEnd,
    Section,
    opening_scope,
    playing_order,
)
from fifthwise.exchange.lead_lengths import SettledBar, settle_bars
from fifthwise.exchange.lead_repeats import with_starts
from fifthwise.exchange.lead_roads import (
    sound_roads,
    without_faults,
    without_jumps,
    without_pickups,
    without_repeats,
)
from fifthwise.exchange.lead_scopes import held_by, marked
from fifthwise.exchange.lead_sections import Part, parted
from fifthwise.exchange.lead_sheet import LeadBar, LeadSheet
from fifthwise.exchange.lead_slots import SlotMaker
from fifthwise.exchange.lead_texts import cue_text, line_text, section_name
from fifthwise.exchange.lead_tune import TuneMaker, best_octave
from fifthwise.exchange.lead_words import words_line
from fifthwise.theory import Numbering

__all__ = ["MadeChart", "chart_of_sheet"]

BARS_A_LINE = 4
# What is tried in turn where a song cannot be played out as its file has it.
SIMPLER = (
    (without_jumps, "jumps that never meet their sign are left out"),
    (without_pickups, "short bars that lead nowhere have a metre of their own"),
    (without_repeats, "repeats that run too long are left out"),
)


@dataclass(frozen=True, slots=True)
class MadeChart:
    """A chart, and what was left out or settled on the way, in short sentences without a full stop."""

    chart: Chart
    told: tuple[str, ...] = ()


def chart_of_sheet(sheet: LeadSheet, numbering: Numbering = Numbering()) -> MadeChart:  # noqa: B008 - frozen
    """Make a chart of a lead sheet that has at least one bar."""
    bars, told = sound_roads([_plain(bar) for bar in sheet.bars])
    made = _made(replace(sheet, bars=bars), numbering, told)
    for simpler, what in SIMPLER:
        try:
            playing_order(made.chart)
        except FormFault:
            bars, told = simpler(bars), (*told, what)
            made = _made(replace(sheet, bars=bars), numbering, told)
    return made


def _plain(bar: LeadBar) -> LeadBar:
    """A bar with texts that a chart can hold."""
    words = tuple(text for words in bar.words if (text := cue_text(words)))
    section = section_name(bar.section)
    if (section, words) == (bar.section, bar.words):
        return bar
    return replace(bar, section=section, words=words)


def _made(sheet: LeadSheet, numbering: Numbering, mended: tuple[str, ...]) -> MadeChart:
    settled, lengths = settle_bars(with_starts(sheet.bars))
    parts, lost = parted(settled)
    maker = _Maker(sheet, settled, numbering)
    sections = tuple(maker.section(part) for part in parts)
    chart = replace(maker.head, sections=sections)
    told = [*sheet.left_out, *mended, *lengths]
    if maker.contradicted:
        told.append("repeats that contradict each other are left out")
    told += [f"'{name}' stands inside a repeat; it is a cue there" for name in lost]
    if maker.tune.respelled:
        told.append(f"{maker.tune.respelled} notes of the tune are spelled more simply")
    if maker.tune.folded:
        told.append(f"{maker.tune.folded} notes of the tune lie too far off and are moved by octaves")
    return MadeChart(chart, tuple(told))


class _Maker:
    """Makes sections of parts, one after the other."""

    def __init__(self, sheet: LeadSheet, bars: tuple[SettledBar, ...], numbering: Numbering) -> None:
        first = bars[0].bar
        metre = next((bar.bar.metre for bar in bars if bar.once is None), first.metre)
        octave = best_octave(sheet.bars, numbering)
        self.has_tune = any(bar.bar.notes for bar in bars)
        (opening,) = held_by(bars[:1], first.tempo_bpm or DEFAULT_TEMPO * metre.tempo_unit)
        tempo = None if first.tempo_bpm is None else opening.tempo_bpm / metre.tempo_unit
        self.head = Chart(
            line_text(sheet.title) or "untitled", first.key, (), line_text(sheet.by) or None, metre, tempo,
            line_text(sheet.feel) or None,
            octave=octave if self.has_tune else None, minor=numbering.minor, plain=numbering.plain,
        )  # fmt: skip
        self.numbering = numbering
        self.tune = TuneMaker(numbering, first.key, octave)
        self.slots = SlotMaker()
        self.tempo_bpm = opening.tempo_bpm
        self.contradicted = False

    def section(self, part: Part) -> Section:
        """One part as a section."""
        lines, at = [], 0
        while at < len(part.bars):
            pickup = 1 if part.bars[at].pickup else 0
            bars = part.bars[at : at + BARS_A_LINE + pickup]
            at += len(bars)
            words = words_line([settled.bar for settled in bars])
            lines.append(Line(tuple(self._bar(settled, part) for settled in bars), (words,) if words else ()))
        lines = self._sound(lines)
        held = held_by(part.bars, self.tempo_bpm)
        self.tempo_bpm = held[-1].tempo_bpm
        return marked(Section(part.name or None, tuple(lines)), held, opening_scope(self.head))

    def _sound(self, lines: list[Line]) -> list[Line]:
        """The lines of a section, without repeats where these contradict each other."""
        bars = tuple(chain.from_iterable(line.bars for line in lines))
        sound = iter(without_faults(bars))
        found = [replace(line, bars=tuple(islice(sound, len(line.bars)))) for line in lines]
        self.contradicted = self.contradicted or found != lines
        return found

    def _bar(self, settled: SettledBar, part: Part) -> Bar:
        bar = settled.bar
        tune = self.tune.bar(bar) if self.has_tune else None
        slots = self.slots.bar(bar, self.numbering.one(bar.key), pickup=settled.pickup)
        inside = bar.section if settled is not part.bars[0] else ""
        return Bar(
            slots,
            bar.metre,
            metre_once=settled.once is not None,
            pickup=bar.length / bar.metre.beat if settled.pickup else None,
            tune=tune,
            cues=tuple(Cue(words) for words in (cue_text(inside), *bar.words) if words),
            repeat_start=bar.repeat_start,
            repeat_end=RepeatEnd(bar.repeat_end) if bar.repeat_end else None,
            endings=bar.endings,
            double_bar=bar.ends_ending and not bar.repeat_end,
            segno=bar.segno,
            coda=bar.coda,
            to_coda=bar.to_coda,
            fine=bar.fine,
            jump=bar.jump,
        )
