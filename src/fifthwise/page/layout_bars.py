"""Bars as they stand on the page: bar lines, signs, words over them, and what is in them."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import chain

from fifthwise.chart import Bar, Cue, RepeatEnd, Section, repeat_groups
from fifthwise.page.layout_bar import BarLine, SheetBar, SheetCue
from fifthwise.page.layout_notes import bar_notes
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_scopes import Changes
from fifthwise.page.layout_slots import TiedBars, bar_slots, is_uneven, tied_bars
from fifthwise.page.layout_view import PagePart

__all__ = ["BarMaker", "bar_told", "cues_for"]

JUMPS = {
    "ds al coda": "D.S. al Coda", "ds al fine": "D.S. al Fine",
    "dc al coda": "D.C. al Coda", "dc al fine": "D.C. al Fine",
}  # fmt: skip
EVERYONE = "all"


def cues_for(part: PagePart, cues: Sequence[Cue]) -> tuple[SheetCue, ...]:
    """The cues that stand on this page: everyone's, and those for its player or instrument."""
    names = {name.casefold() for name in part.names}
    shown = []
    for cue in cues:
        if cue.player is None or cue.player.casefold() == EVERYONE:
            shown.append(SheetCue(cue.text, cue.at))
        elif cue.player.casefold() in names:
            shown.append(SheetCue(cue.text, cue.at, cue.player))
    return tuple(shown)


@dataclass(slots=True)
class BarMaker:
    """Makes the bars of one section.

    Attributes
    ----------
    final : int or None
        The bar with which the song ends, if it ends in this section.
    """

    index: int
    section: Section
    changes: tuple[Changes, ...]
    reader: Reader
    final: int | None
    aligned: dict[int, tuple[str, ...]]

    def bars(self, columns: dict[int, int]) -> dict[int, SheetBar]:
        """Every bar by its index, each in its column."""
        section = _Whole.of(self.section)
        return {i: self._bar(i, column, section) for i, column in columns.items()}

    def _bar(self, i: int, column: int, section: "_Whole") -> SheetBar:
        bar, view, change = section.bars[i], self.reader.view, self.changes[i]
        return SheetBar(
            column, self.index, i, bar.length, bar.length / bar.metre.beat,
            bar_slots(bar, self.reader, change.key, section.tied[i]),
            left="repeat" if i in section.starts else "bar",
            right=self._right(i, bar),
            uneven=is_uneven(bar),
            metre=change.metre,
            changes=change.words,
            signs=tuple(name for name, on in (("segno", bar.segno), ("coda", bar.coda)) if on),
            goes=tuple(_goes(bar)),
            times=_times(bar.repeat_end, ends=i in section.endings),
            cues=cues_for(view.part, bar.cues),
            tune=bar_notes(bar, lowers=self.reader.numbering.lowers(change.key)) if view.tune else (),
            words=self.aligned.get(i, ()),
        )  # fmt: skip

    def _right(self, i: int, bar: Bar) -> BarLine:
        if bar.repeat_end:
            return "repeat"
        if i == self.final:
            return "final"
        return "double" if bar.double_bar or bar.fine else "bar"


@dataclass(frozen=True, slots=True)
class _Whole:
    """What a section's bars have from the whole of it.

    Attributes
    ----------
    starts : frozenset of int
        The bars to which a repeat goes back, whether or not the text says so.
    endings : frozenset of int
        The bars that stand in endings.
    """

    bars: tuple[Bar, ...]
    tied: TiedBars
    starts: frozenset[int]
    endings: frozenset[int]

    @classmethod
    def of(cls, section: Section) -> "_Whole":
        bars = section.bars
        groups = repeat_groups(bars)[0]
        inside = (range(e.start, e.end + 1) for group in groups for e in group.endings)
        starts = frozenset(group.start for group in groups)
        return cls(bars, tied_bars(bars), starts, frozenset(chain.from_iterable(inside)))


def _goes(bar: Bar) -> list[str]:
    words = []
    if bar.to_coda:
        words.append("To Coda")
    if bar.fine:
        words.append("Fine")
    if bar.jump:
        words.append(JUMPS[bar.jump])
    return words


def _times(end: RepeatEnd | None, *, ends: bool) -> str:
    """How often a repeat plays, where it is not twice and no ending says it."""
    if end is None or ends:
        return ""
    if end.vamp is not None:
        return f"vamp {end.vamp}".strip()
    return f"×{end.times}" if end.times != RepeatEnd().times else ""


def bar_told(bar: Bar, *, ends: bool) -> str:
    """What is said at a bar's end, in one line; ``ends`` says whether it stands in an ending."""
    return ", ".join(word for word in (*_goes(bar), _times(bar.repeat_end, ends=ends)) if word)
