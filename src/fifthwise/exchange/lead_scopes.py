"""Marks for key, metre and tempo, set wherever a chart's own rules would have something else hold.

A chart's section is entered with what its head sets, and a mark in an ending ends with it; a lead sheet says
what holds bar by bar. So a mark is written where the two would differ.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import islice

from fifthwise.chart import Bar, KeyShift, Line, Scope, ScopedMark, Section, section_scopes
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
    start, entry, in_ending = 0, head, False  # what holds before an ending holds again behind it
    for at, wanted in enumerate(held):
        bar = bars[at]
        marks = tuple(_marks(_last_scope(bars[start : at + 1], entry, head), wanted))
        if marks:
            bars[at] = replace(bar, marks=marks)
        in_ending = in_ending or bool(bar.endings)
        if not in_ending:
            entry = _last_scope(bars[start : at + 1], entry, head)
        elif bar.repeat_end or bar.double_bar:
            in_ending = False
        if not in_ending:
            start = at + 1
    return _with(section, bars)


def _last_scope(bars: Sequence[Bar], entry: Scope, head: Scope) -> Scope:
    return section_scopes(Section(None, (Line(tuple(bars)),)), entry, head.key)[-1]


def _marks(scope: Scope, wanted: Held) -> Iterator[ScopedMark]:
    if scope.key != wanted.key:
        yield ScopedMark(key=KeyShift(key=wanted.key))
    if scope.metre != wanted.metre:
        yield ScopedMark(metre=wanted.metre)
    if scope.tempo_bpm != wanted.tempo_bpm:
        yield ScopedMark(tempo=wanted.tempo_bpm / wanted.metre.tempo_unit)


def _with(section: Section, bars: Sequence[Bar]) -> Section:
    """The section with other bars in the same lines."""
    left = iter(bars)
    lines = tuple(replace(line, bars=tuple(islice(left, len(line.bars)))) for line in section.lines)
    return replace(section, lines=lines)
