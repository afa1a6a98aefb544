"""The playing order: which bar follows which, through repeats, endings, jumps and the form."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

from fifthwise.chart.errors import FormFault
from fifthwise.chart.model import Bar, Chart, JumpKind, Section
from fifthwise.chart.scope import shifted_key
from fifthwise.chart.structure import RepeatGroup, repeat_groups
from fifthwise.theory import Key

__all__ = ["MOST_BARS", "Step", "playing_order"]

# Two hours of 4/4 at 140; a longer form is taken for a slip.
MOST_BARS = 5000


@dataclass(frozen=True, slots=True)
class Step:
    """One bar in playing order.

    Attributes
    ----------
    section, bar : int
        Where it is written.
    repeat_pass : int
        The pass through its repeat, from 1.
    visit : int
        Counts the playings of sections.
    verse : int or None
        The verse that the form names, from 1.
    entry_key : Key
        The key in which the section is entered.
    vamp : str or None
        The cue of the open vamp it belongs to.
    """

    section: int
    bar: int
    repeat_pass: int
    visit: int
    verse: int | None
    entry_key: Key
    vamp: str | None


def playing_order(chart: Chart) -> tuple[Step, ...]:
    """Unfold a chart into the order in which its bars are played.

    Raises
    ------
    FormFault
        The form runs to more than ``MOST_BARS`` bars, or a jump never meets its sign.
    """
    steps: list[Step] = []
    for step in _form_steps(chart) if chart.form else _text_steps(chart):
        if len(steps) == MOST_BARS:
            raise FormFault(
                f"the form runs to more than {MOST_BARS} bars",
                f"'{chart.title}'",
                "Shorten the form or its repeats",
            )
        steps.append(step)
    return tuple(steps)


def _section_bars(
    section: Section, groups: tuple[RepeatGroup, ...], *, once: bool
) -> Iterator[tuple[int, int, str | None]]:
    """A section's bars as (bar, pass, vamp); ``once`` plays each repeat once, with its last ending."""
    starts = {group.start: group for group in groups}
    count, i = len(section.bars), 0
    while i < count:
        group = starts.get(i)
        if group is None:
            yield i, 1, None
            i += 1
            continue
        for turn in (group.passes,) if once else range(1, group.passes + 1):
            yield from ((bar, 1 if once else turn, group.vamp) for bar in _pass_bars(group, turn))
        i = group.end + 1


def _pass_bars(group: RepeatGroup, turn: int) -> Iterator[int]:
    yield from range(group.start, group.body_end + 1)
    for ending in group.endings:
        if turn in ending.numbers:
            yield from range(ending.start, ending.end + 1)


def _form_steps(chart: Chart) -> Iterator[Step]:
    groups = [repeat_groups(section.bars)[0] for section in chart.sections]
    key, visit = chart.key, 0
    for item in chart.form:
        if item.shift is not None:
            key = shifted_key(item.shift, chart.key, chart.key)
        if item.section is None:
            continue
        section = chart.sections[item.section]
        for _ in range(item.times * section.times):
            for bar, turn, vamp in _section_bars(section, groups[item.section], once=False):
                yield Step(item.section, bar, turn, visit, item.verse, key, vamp)
            visit += 1


def _all_steps(chart: Chart, *, once: bool) -> Iterator[Step]:
    visit = 0
    for index, section in enumerate(chart.sections):
        groups = repeat_groups(section.bars)[0]
        for _ in range(1 if once else section.times):
            for bar, turn, vamp in _section_bars(section, groups, once=once):
                yield Step(index, bar, turn, visit, None, chart.key, vamp)
            visit += 1


def _text_steps(chart: Chart) -> Iterator[Step]:
    """The text from top to bottom, each jump once, on the last pass through its bar."""
    if not any(bar.jump for section in chart.sections for bar in section.bars):
        yield from _all_steps(chart, once=False)
        return
    order = _bounded(chart)
    once = list(_all_steps(chart, once=True))
    last_pass = {(s.section, s.bar): i for i, s in enumerate(order)}
    jumped: set[tuple[int, int]] = set()
    wanted, visits, i, in_order = "", 0, 0, True
    while i < len(order):
        step = order[i]
        bar = chart.sections[step.section].bars[step.bar]
        yield replace(step, visit=step.visit + visits)
        place = (step.section, step.bar)
        if wanted == "fine" and bar.fine:
            return
        if wanted == "coda" and bar.to_coda:
            visits += step.visit + 1
            order, wanted, i = once, "", _find(chart, once, "coda")
            visits -= order[i].visit
        elif bar.jump and place not in jumped and (not in_order or last_pass[place] == i):
            jumped.add(place)
            visits += step.visit + 1
            order, in_order, wanted, i = once, False, bar.jump.split()[-1], _target(chart, once, bar.jump)
            visits -= order[i].visit
        else:
            i += 1
    if wanted:
        raise FormFault(
            f"after the jump the song never meets its '{'to coda' if wanted == 'coda' else 'fine'}'",
            f"'{chart.title}'",
            "Put the sign after the place that the jump goes back to, outside a first ending",
        )


def _bounded(chart: Chart) -> list[Step]:
    steps = []
    for step in _all_steps(chart, once=False):
        steps.append(step)
        if len(steps) > MOST_BARS:
            break
    return steps


def _target(chart: Chart, once: list[Step], jump: JumpKind) -> int:
    return 0 if jump.startswith("dc") else _find(chart, once, "segno")


def _find(chart: Chart, once: list[Step], sign: str) -> int:
    for i, step in enumerate(once):
        bar: Bar = chart.sections[step.section].bars[step.bar]
        if bar.segno if sign == "segno" else bar.coda:
            return i
    raise FormFault(
        f"the jump cannot reach '[{sign}]'", f"'{chart.title}'", "Take the sign out of the first ending"
    )
