"""What holds at each place of a chart as it is written: the chord that sounds there, and the key."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fifthwise.chart.errors import FormFault
from fifthwise.chart.model import Bar, Chart, SlotKind
from fifthwise.chart.order import playing_order
from fifthwise.chart.scope import opening_scope, section_scopes
from fifthwise.theory import Key, NumberChord

__all__ = ["WrittenPlace", "written_places"]


@dataclass(frozen=True, slots=True)
class WrittenPlace:
    """A slot of the chart.

    Attributes
    ----------
    section, bar, slot : int
        Where it is written: index of the section, of the bar in it, and of the slot in that.
    turn : int
        Which of the keys that its section is played in, in order, 0 being the first.
    kind : {'chord', 'rest', 'nc', 'hold'}
        What is there; where something goes on, what does. A hold is one that has nothing before it.
    chord : NumberChord or None
        What sounds.
    key : Key
        The key that holds there.
    copied : bool
        Whether its bar is written as the one before.
    """

    section: int
    bar: int
    slot: int
    turn: int
    kind: SlotKind
    chord: NumberChord | None
    key: Key
    copied: bool = False


def written_places(chart: Chart) -> tuple[WrittenPlace, ...]:
    """Every slot from the first to the last; a section that is played in further keys comes once in each."""
    entries = _entry_keys(chart)
    found: list[WrittenPlace] = []
    for section in range(len(chart.sections)):
        for turn, entry in enumerate(entries.get(section, (chart.key,))):
            found += _section_places(chart, section, turn, entry, found[-1] if found else None)
    return tuple(found)


def _entry_keys(chart: Chart) -> dict[int, tuple[Key, ...]]:
    """The different keys in which each section that is played is entered, in order."""
    try:
        steps = playing_order(chart)
    except FormFault:
        return {}
    keys: dict[int, dict[Key, None]] = {}
    for step in steps:
        keys.setdefault(step.section, {})[step.entry_key] = None
    return {section: tuple(entered) for section, entered in keys.items()}


def _section_places(
    chart: Chart, index: int, turn: int, entry: Key, before: WrittenPlace | None
) -> Iterator[WrittenPlace]:
    """A section's slots, after what stands before it."""
    section = chart.sections[index]
    opening = replace(opening_scope(chart), key=entry, entry_key=entry)
    scopes = section_scopes(section, opening, chart.key)
    for i, (bar, scope) in enumerate(zip(section.bars, scopes, strict=True)):
        for place in _bar_places(bar, WrittenPlace(index, i, 0, turn, "rest", None, scope.key), before):
            before = place
            yield place


def _bar_places(bar: Bar, first: WrittenPlace, before: WrittenPlace | None) -> Iterator[WrittenPlace]:
    for i, slot in enumerate(bar.slots):
        kind, chord = slot.kind, slot.chord
        if kind == "hold" and before is not None:
            kind, chord = before.kind, before.chord
        yield replace(first, slot=i, kind=kind, chord=chord, copied=bar.copied)
