"""Bars, lines and sections while they are being read, before they are frozen."""

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Any

from fifthwise.chart.model import Bar, Cue, Line, RepeatEnd, ScopedMark, Section, Slot, TuneNote
from fifthwise.theory import Key, Metre

__all__ = ["BarDraft", "LineDraft", "Place", "SectionDraft"]

# Where a piece of text stands: line and column from 1, and how many characters it has.
Place = tuple[int, int, int]


@dataclass(slots=True)
class BarDraft:
    """A bar in the making; its fields are those of ``Bar``, and where it stands."""

    metre: Metre
    line_number: int
    column: int
    key: Key
    slots: tuple[Slot, ...] = ()
    metre_once: bool = False
    pickup: Fraction | None = None
    copied: bool = False
    tune: tuple[TuneNote, ...] | None = None
    marks: list[ScopedMark] = field(default_factory=list)
    cues: list[Cue] = field(default_factory=list)
    repeat_start: bool = False
    repeat_end: RepeatEnd | None = None
    endings: tuple[int, ...] = ()
    double_bar: bool = False
    signs: dict[str, Place] = field(default_factory=dict)
    first_token: Place = (1, 1, 1)
    fingerable: tuple[int | None, ...] = ()

    @property
    def length(self) -> Fraction:
        """Quarters that the bar lasts."""
        return self.metre.length if self.pickup is None else self.pickup * self.metre.beat

    def freeze(self) -> Bar:
        """The bar as a value."""
        jump: Any = next((s for s in self.signs if s.startswith("d")), None)
        return Bar(
            self.slots, self.metre, self.metre_once, self.pickup, self.copied, self.tune, tuple(self.marks),
            tuple(self.cues), self.repeat_start, self.repeat_end, self.endings, self.double_bar,
            "segno" in self.signs, "coda" in self.signs, "to coda" in self.signs, "fine" in self.signs,
            jump, self.line_number,
        )  # fmt: skip


@dataclass(slots=True)
class LineDraft:
    """A line of bars in the making."""

    bars: list[BarDraft] = field(default_factory=list)
    words: list[str] = field(default_factory=list)


@dataclass(slots=True)
class SectionDraft:
    """A section in the making."""

    name: str | None
    line_number: int
    times: int = 1
    cues: list[Cue] = field(default_factory=list)
    lines: list[LineDraft] = field(default_factory=list)

    @property
    def bars(self) -> list[BarDraft]:
        """All bars in text order."""
        return [bar for line in self.lines for bar in line.bars]

    def freeze(self) -> Section:
        """The section as a value."""
        lines = tuple(Line(tuple(b.freeze() for b in line.bars), tuple(line.words)) for line in self.lines)
        return Section(self.name, lines, self.times, tuple(self.cues), self.line_number)
