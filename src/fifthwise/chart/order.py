"""The playing order: which bar follows which, through repeats, endings, jumps and the form."""

from collections.abc import Iterator
from dataclasses import dataclass, replace
from itertools import islice

from fifthwise.chart.errors import FormFault
from fifthwise.chart.model import Bar, Chart
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
        The form runs to more than ``MOST_BARS`` bars, a jump never meets its sign, or a pickup is longer
        than the bar it leads out of.
    """
    walk = _Walk(chart)
    steps: list[Step] = []
    full: Bar | None = None  # the last bar that was no pickup over another
    for step in walk.form_steps() if chart.form else walk.text_steps():
        if len(steps) == MOST_BARS:
            what, fix = f"the form runs to more than {MOST_BARS} bars", "Shorten the form or its repeats"
            raise FormFault(what, f"'{chart.title}'", fix)
        bar = walk.bars[step.section][step.bar]
        if full is None or bar.pickup is None:
            full = bar
        elif bar.length > full.length:
            what = "the pickup is longer than the bar played before it"
            fix = "Shorten it, or write its first part into that bar"
            raise FormFault(what, f"'{chart.title}'", fix, (step.section, step.bar))
        steps.append(step)
    return tuple(steps)


def _pass_bars(group: RepeatGroup, turn: int) -> Iterator[int]:
    yield from range(group.start, group.body_end + 1)
    for ending in group.endings:
        if turn in ending.numbers:
            yield from range(ending.start, ending.end + 1)


class _Walk:
    """The walks through one chart."""

    def __init__(self, chart: Chart) -> None:
        self.chart = chart
        self.bars = [section.bars for section in chart.sections]
        self.groups = [repeat_groups(bars)[0] for bars in self.bars]

    def section_bars(self, section: int, *, once: bool) -> Iterator[tuple[int, int, str | None]]:
        """A section's bars as (bar, pass, vamp); ``once`` plays each repeat once, with its last ending."""
        starts = {group.start: group for group in self.groups[section]}
        count, i = len(self.bars[section]), 0
        while i < count:
            group = starts.get(i)
            if group is None:
                yield i, 1, None
                i += 1
                continue
            for turn in (group.passes,) if once else range(1, group.passes + 1):
                yield from ((bar, 1 if once else turn, group.vamp) for bar in _pass_bars(group, turn))
            i = group.end + 1

    def form_steps(self) -> Iterator[Step]:
        """The form from left to right."""
        chart = self.chart
        key, visit = chart.key, 0
        for item in chart.form:
            if item.shift is not None:
                key = shifted_key(item.shift, chart.key, chart.key)
            if item.section is None:
                continue
            for _ in range(item.times * chart.sections[item.section].times):
                for bar, turn, vamp in self.section_bars(item.section, once=False):
                    yield Step(item.section, bar, turn, visit, item.verse, key, vamp)
                visit += 1

    def all_steps(self, *, once: bool) -> Iterator[Step]:
        """The text from top to bottom, without its jumps."""
        visit = 0
        for index, section in enumerate(self.chart.sections):
            for _ in range(1 if once else section.times):
                for bar, turn, vamp in self.section_bars(index, once=once):
                    yield Step(index, bar, turn, visit, None, self.chart.key, vamp)
                visit += 1

    def text_steps(self) -> Iterator[Step]:
        """The text from top to bottom, each jump once, on the last pass through its bar."""
        if not any(bar.jump for bars in self.bars for bar in bars):
            yield from self.all_steps(once=False)
            return
        order = list(islice(self.all_steps(once=False), MOST_BARS + 1))
        once = list(self.all_steps(once=True))
        last_pass = {(s.section, s.bar): i for i, s in enumerate(order)}
        jumped: set[tuple[int, int]] = set()
        wanted, visits, i, place = "", 0, 0, (0, 0)
        while i < len(order):
            step = order[i]
            here = (step.section, step.bar)
            bar = self.bars[step.section][step.bar]
            yield replace(step, visit=step.visit + visits)
            jumps = bar.jump and here not in jumped and (order is once or last_pass[here] == i)
            if wanted == "fine" and bar.fine:
                return
            if wanted == "coda" and bar.to_coda:
                target, wanted = self.find(once, "coda", here), ""
            elif bar.jump and jumps:
                jumped.add(here)
                place, wanted = here, bar.jump.split()[-1]
                target = 0 if bar.jump.startswith("dc") else self.find(once, "segno", here)
            else:
                i += 1
                continue
            visits += step.visit + 1 - once[target].visit
            order, i = once, target
        if wanted:
            sign = "to coda" if wanted == "coda" else "fine"
            fix = "Put the sign after the place that the jump goes back to, outside a first ending"
            raise FormFault(
                f"after the jump the song never meets its '[{sign}]'", f"'{self.chart.title}'", fix, place
            )

    def find(self, once: list[Step], sign: str, place: tuple[int, int]) -> int:
        """The step of ``once`` at which a sign stands."""
        for i, step in enumerate(once):
            bar = self.bars[step.section][step.bar]
            if bar.segno if sign == "segno" else bar.coda:
                return i
        what, fix = f"the jump cannot reach '[{sign}]'", "Take the sign out of the first ending"
        raise FormFault(what, f"'{self.chart.title}'", fix, place)
