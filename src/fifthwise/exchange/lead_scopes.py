"""Marks for key, metre and tempo, set wherever a chart's own rules would have something else hold.

A chart's section is entered with what its head sets, and a mark in an ending ends with it; a lead sheet says
what holds bar by bar. So a mark is written where the two would differ.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.chart import Bar, KeyShift, Scope, ScopedMark, Section, section_scopes
from fifthwise.exchange.lead_lengths import SettledBar
from fifthwise.theory import Key, Metre

__all__ = ["Held", "held_by", "marked"]


SLOWEST, FASTEST = Fraction(20), Fraction(400)  # felt beats a minute that a chart may have


@dataclass(frozen=True, slots=True)
class Held:
    """What a lead sheet says holds at a bar."""

    key: Key
    metre: Metre
    tempo_bpm: Fraction


def held_by(bars: Sequence[SettledBar], tempo_bpm: Fraction) -> tuple[Held, ...]:
    """What holds at each bar, the tempo until it changes."""
    found: list[Held] = []
    for settled in bars:
        bar = settled.bar
        tempo_bpm = bar.tempo_bpm or tempo_bpm
        metre = found[-1].metre if settled.once and found else bar.metre
        beats = min(max(tempo_bpm / metre.tempo_unit, SLOWEST), FASTEST)
        found.append(Held(bar.key, metre, beats * metre.tempo_unit))
    return tuple(found)


def marked(section: Section, held: Sequence[Held], head: Scope) -> Section:
    """A section with the marks that make its bars' scopes what is held."""
    bars = list(section.bars)
    scopes = section_scopes(section, head, head.key)
    for at, wanted in enumerate(held):
        marks = tuple(_marks(scopes[at], wanted))
        if marks:
            bars[at] = replace(bars[at], marks=marks)
            section = _with(section, bars)
            scopes = section_scopes(section, head, head.key)
    return section


def _marks(scope: Scope, wanted: Held) -> Iterator[ScopedMark]:
    if scope.key != wanted.key:
        yield ScopedMark(key=KeyShift(key=wanted.key))
    if scope.metre != wanted.metre:
        yield ScopedMark(metre=wanted.metre)
    if scope.tempo_bpm != wanted.tempo_bpm:
        yield ScopedMark(tempo=wanted.tempo_bpm / wanted.metre.tempo_unit)


def _with(section: Section, bars: Sequence[Bar]) -> Section:
    """The section with other bars in the same lines."""
    left = list(bars)
    lines = []
    for line in section.lines:
        lines.append(replace(line, bars=tuple(left[: len(line.bars)])))
        left = left[len(line.bars) :]
    return replace(section, lines=tuple(lines))
