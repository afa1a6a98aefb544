"""The form as a road map, and where each key of the song begins."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fifthwise.chart import Chart, FormFault, Step, opening_scope, playing_order, section_scopes
from fifthwise.page.layout_model import RoadStop
from fifthwise.page.layout_reader import Reader
from fifthwise.page.text_signs import printed_key
from fifthwise.theory import Key

__all__ = ["key_starts", "road_map", "section_name"]


@dataclass(frozen=True, slots=True)
class _Stop:
    """One playing of a section."""

    section: int
    verse: int | None
    key: Key
    start: int
    first_bar: int


def section_name(name: str | None) -> str:
    """A section's name as printed: with a capital."""
    return "" if name is None else name[:1].upper() + name[1:]


def road_map(chart: Chart, reader: Reader) -> tuple[RoadStop, ...]:
    """The sections in playing order, those in a row counted; empty where there is only one stop."""
    stops: list[RoadStop] = []
    key, stop_key = chart.key, chart.key
    for stop in _stops(chart, _steps(chart)):
        name = _stop_name(chart, stop)
        shown = printed_key(reader.key(stop.key)) if stop.key != key else ""
        if stops and stops[-1].name == name and stop.key == stop_key:
            stops[-1] = replace(stops[-1], times=stops[-1].times + 1)
        else:
            stops.append(RoadStop(name, key=shown))
        key = stop_key = stop.key
    return tuple(stops) if len(stops) > 1 or any(s.times > 1 for s in stops) else ()


def _steps(chart: Chart) -> tuple[Step, ...]:
    try:
        return playing_order(chart)
    except FormFault:
        return ()


def _stops(chart: Chart, steps: tuple[Step, ...]) -> Iterator[_Stop]:
    before: tuple[int, int] | None = None
    for i, step in enumerate(steps):
        if (step.visit, step.section) != before:
            yield _Stop(step.section, step.verse, step.entry_key, i, step.bar)
        before = (step.visit, step.section)


def _stop_name(chart: Chart, stop: _Stop) -> str:
    name = section_name(chart.sections[stop.section].name) or "Opening"
    return name if stop.verse is None else f"{name} {stop.verse}"


def key_starts(chart: Chart) -> tuple[tuple[Key, str], ...]:
    """Every key of the song in playing order, and where it first begins; empty for the first."""
    steps = _steps(chart)
    if not steps:
        return ((chart.key, ""),)
    found: dict[Key, str] = {}
    for i, (step, key) in enumerate(zip(steps, _keys(chart, steps), strict=True)):
        if key not in found:
            found[key] = _place(chart, steps, i, step) if found else ""
    return tuple(found.items())


def _keys(chart: Chart, steps: tuple[Step, ...]) -> Iterator[Key]:
    head = opening_scope(chart)
    known: dict[tuple[int, Key], tuple[Key, ...]] = {}
    for step in steps:
        place = (step.section, step.entry_key)
        if place not in known:
            entry = replace(head, key=step.entry_key, entry_key=step.entry_key)
            scopes = section_scopes(chart.sections[step.section], entry, chart.key)
            known[place] = tuple(scope.key for scope in scopes)
        yield known[place][step.bar]


def _place(chart: Chart, steps: tuple[Step, ...], i: int, step: Step) -> str:
    """Where a step is, in words: its section, which time, and which bar if not the first."""
    visits = dict.fromkeys(s.visit for s in steps[: i + 1] if s.section == step.section)
    written = chart.sections[step.section].name
    name = (
        f"{_ordinal(len(visits))} {written or 'time'}"
        if len(visits) > 1
        else section_name(written) or "the song"
    )
    bar = "" if step.bar == 0 else f", bar {step.bar + 1}"
    return f"{name}{bar}"


def _ordinal(n: int) -> str:
    ending = "th" if n % 100 in (11, 12, 13) else {1: "st", 2: "nd", 3: "rd"}.get(n % 10, "th")
    return f"{n}{ending}"
