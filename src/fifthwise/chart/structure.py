"""Repeats, endings and navigation: how a section's bars hang together, and what is wrong with them."""

from collections.abc import Sequence
from dataclasses import dataclass

from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.model import Bar, RepeatEnd

__all__ = ["Ending", "RepeatGroup", "StructureFault", "repeat_groups"]


@dataclass(frozen=True, slots=True)
class Ending:
    """One ending: its numbers, and its first and last bar."""

    numbers: tuple[int, ...]
    start: int
    end: int
    goes_back: bool


@dataclass(frozen=True, slots=True)
class RepeatGroup:
    """Bars that are played more than once.

    Attributes
    ----------
    start, end : int
        First and last bar, the endings included.
    body_end : int
        Last bar before the endings.
    passes : int
        Times in all.
    vamp : str or None
        The cue of an open vamp.
    """

    start: int
    body_end: int
    end: int
    passes: int
    endings: tuple[Ending, ...] = ()
    vamp: str | None = None


@dataclass(frozen=True, slots=True)
class StructureFault:
    """A fault at a bar of a section."""

    bar: int
    what: str
    fix: str


class _Scan:
    """One walk over a section's bars."""

    def __init__(self, bars: Sequence[Bar | BarDraft]) -> None:
        self.bars = bars
        self.groups: list[RepeatGroup] = []
        self.faults: list[StructureFault] = []
        self.opened: int | None = None  # bar of the explicit |:
        self.endings: list[Ending] = []
        self.ending: tuple[tuple[int, ...], int] | None = None  # the open one's numbers and first bar
        self.returns_to = 0

    def fault(self, bar: int, what: str, fix: str) -> None:
        self.faults.append(StructureFault(bar, what, fix))

    def run(self) -> None:
        for i, bar in enumerate(self.bars):
            self._begin(i, bar)
            if bar.repeat_end:
                self._go_back(i, bar.repeat_end)
            elif bar.double_bar and self.ending:
                self._end_ending(i, goes_back=False)
        self._end_set(len(self.bars) - 1)
        if self.opened is not None:
            what = "the repeat is not closed before its section ends"
            self.fault(self.opened, what, "Write ':|' after its last bar")

    def _begin(self, i: int, bar: Bar | BarDraft) -> None:
        if self.endings and not self.ending and (bar.repeat_start or not bar.endings):
            self._end_set(i - 1)
        if bar.repeat_start:
            self._open_repeat(i)
        if bar.endings:
            self._open_ending(i, bar.endings)

    def _open_repeat(self, i: int) -> None:
        if self.ending:
            self.fault(i, "a repeat opens inside an ending", "Close the endings first with '||'")
        elif self.opened is not None:
            fix = "Close the first with ':|', or write the bars out"
            self.fault(i, "a repeat opens inside a repeat", fix)
            self.opened = None
            return
        self.opened = i

    def _open_ending(self, i: int, numbers: tuple[int, ...]) -> None:
        if self.ending:
            self._end_ending(i - 1, goes_back=False)
        elif not self.endings:
            place = self._return_place()
            if place is None:
                self.fault(i, "this ending belongs to no repeat", "Open the repeat with '|:'")
            self.returns_to = place if place is not None else i
        self.ending = (numbers, i)

    def _return_place(self) -> int | None:
        if self.opened is not None:
            return self.opened
        return None if self.groups else 0

    def _go_back(self, i: int, sign: RepeatEnd) -> None:
        if self.ending:
            if sign.times != RepeatEnd().times or sign.vamp is not None:
                self.fault(i, "the endings say how often it plays", "Leave the 'x' or 'vamp' out")
            self._end_ending(i, goes_back=True)
            return
        start = self._return_place()
        if start is None:
            self.fault(i, "this ':|' has no '|:' to go back to", "Open the repeat with '|:'")
            return
        self.groups.append(RepeatGroup(start, i, i, sign.times, (), sign.vamp))
        self.opened = None

    def _end_ending(self, i: int, *, goes_back: bool) -> None:
        assert self.ending is not None
        numbers, start = self.ending
        self.endings.append(Ending(numbers, start, i, goes_back))
        self.ending = None

    def _end_set(self, last: int) -> None:
        if self.ending:
            self._end_ending(last, goes_back=False)
        if not self.endings:
            return
        numbers = sorted(n for e in self.endings for n in e.numbers)
        first = self.endings[0].start
        passes = numbers[-1]
        if numbers != list(range(1, passes + 1)):
            self.fault(first, f"the endings are {_listed(numbers)}", "Number them 1, 2 … without a gap")
        else:
            self._check_returns(passes)
        self.groups.append(
            RepeatGroup(self.returns_to, first - 1, self.endings[-1].end, passes, tuple(self.endings))
        )
        self.endings, self.opened = [], None

    def _check_returns(self, passes: int) -> None:
        for ending in self.endings:
            if passes not in ending.numbers and not ending.goes_back:
                what = f"ending {_listed(ending.numbers)} does not go back"
                self.fault(ending.end, what, "Write ':|' after its last bar")
        if passes == 1:
            first = self.endings[0]
            what = "the only ending goes back" if first.goes_back else "the ending has no ':|'"
            fix = "Open the bars of the last pass with '[2.]'"
            self.fault(first.start, what, fix if first.goes_back else "Write ':|' after its last bar")


def _listed(numbers: Sequence[int]) -> str:
    return " ".join(f"{n}." for n in numbers)


def repeat_groups(
    bars: Sequence[Bar | BarDraft],
) -> tuple[tuple[RepeatGroup, ...], tuple[StructureFault, ...]]:
    """Find a section's repeats and their faults.

    A first ``:|`` without ``|:`` goes back to the section's start; an ending runs to the next ending,
    ``:|``, ``||`` or the section's end.
    """
    scan = _Scan(bars)
    scan.run()
    return tuple(scan.groups), tuple(scan.faults)
