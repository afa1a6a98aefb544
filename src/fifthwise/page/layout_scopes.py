"""What changes from bar to bar, in words for the page: key, metre, tempo and feel."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.chart import (
    Bar,
    Chart,
    Scope,
    Section,
    opening_scope,
    section_scopes,
)
from fifthwise.page.layout_reader import Reader
from fifthwise.page.text_signs import printed_key
from fifthwise.theory import Key, Metre

__all__ = ["Changes", "metre_text", "section_changes", "tempo_text"]


@dataclass(frozen=True, slots=True)
class Changes:
    """What holds at a bar, and what is said there."""

    key: Key
    metre: str
    words: tuple[str, ...]


def section_changes(
    section: Section, entry: Key, chart: Chart, before: Scope, reader: Reader
) -> tuple[tuple[Changes, ...], Scope]:
    """What changes at each bar of a section, ``before`` being what held last; and what holds at its end."""
    head = opening_scope(chart)
    scopes = section_scopes(section, replace(head, key=entry, entry_key=entry), chart.key)
    changes = tuple(_changes(section.bars, scopes, before, reader))
    return changes, scopes[-1] if scopes else before


def _changes(
    bars: tuple[Bar, ...], scopes: tuple[Scope, ...], before: Scope, reader: Reader
) -> Iterator[Changes]:
    for bar, scope in zip(bars, scopes, strict=True):
        yield Changes(scope.key, _metre(bar, scope, before), tuple(_words(scope, before, reader)))
        before = scope


def _metre(bar: Bar, scope: Scope, before: Scope) -> str:
    if bar.metre_once:
        return f"({metre_text(bar.metre)})"
    return metre_text(scope.metre) if scope.metre != before.metre else ""


def _words(scope: Scope, before: Scope, reader: Reader) -> Iterator[str]:
    if scope.key != before.key:
        yield f"key {_key_words(scope.key, reader)}"
    if scope.tempo_bpm != before.tempo_bpm:
        yield f"tempo {tempo_text(scope.tempo_bpm / scope.metre.tempo_unit)}"
    if scope.feel != before.feel:
        yield scope.feel


def _key_words(key: Key, reader: Reader) -> str:
    if not reader.moves:
        return printed_key(key)
    return f"{printed_key(reader.key(key))}, sounds {printed_key(key)}"


def metre_text(metre: Metre) -> str:
    """A metre as printed: ``4/4``, ``7/8 2+2+3``."""
    return str(metre)


def tempo_text(bpm: Fraction) -> str:
    """A tempo in whole beats, or with one decimal."""
    return str(int(bpm)) if bpm.denominator == 1 else f"{float(bpm):.1f}"
