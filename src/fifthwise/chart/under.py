"""What stands under bars: ``words:``, ``tune:`` and ``fingers:`` lines, gathered until more bars follow."""

import difflib
from dataclasses import dataclass, field

from fifthwise.chart.drafts import BarDraft, LineDraft
from fifthwise.chart.finger_line import read_finger_bars
from fifthwise.chart.shares import counted
from fifthwise.chart.source import FaultList
from fifthwise.chart.tune_line import Cell, read_tune_bars, split_cells

__all__ = ["UNDER", "UnderReader"]

UNDER = ("words", "tune", "fingers")


@dataclass
class TuneLine:
    """A ``tune:`` line, and the ``fingers:`` line under it."""

    number: int
    length: int
    cells: list[Cell]
    fingers: list[Cell] = field(default_factory=list)


class UnderReader:
    """Reads the lines under bars.

    Tune lines belong to the lines of bars right above them that have as many bars in all, so one may
    span several lines of bars, and several may follow one another.
    """

    def __init__(self, faults: FaultList) -> None:
        self.faults = faults
        self.lines: list[LineDraft] = []  # lines of bars without a tune yet
        self.tunes: list[TuneLine] = []
        self.last: LineDraft | None = None
        self.had_tune = False

    def add_bars(self, line: LineDraft) -> None:
        """Take a line of bars, under which something may stand."""
        if self.tunes:
            self.flush()
        self.lines.append(line)
        self.last = line

    def open_section(self) -> None:
        """Forget the section before."""
        self.flush()
        self.last = None

    def read(self, name: str, text: str, start: int, number: int) -> None:
        """Read a line that begins with a name and a colon, ``start`` characters in all."""
        kind, at = name.lower(), text.index(name) + 1
        if kind not in UNDER:
            near = difflib.get_close_matches(kind, UNDER, n=1)
            fix = (
                f"Did you mean '{near[0]}:'?" if near else "Under bars stand 'words:', 'tune:' and 'fingers:'"
            )
            self.faults.add(number, at, len(name) + 1, f"unknown line '{name}:'", fix, tuple(near))
        elif self.last is None:
            self.faults.add(
                number, at, start - at + 1, f"'{kind}:' stands under no bars", "Write the bars above it"
            )
        elif kind == "words":
            self._words(self.last, text, start, number)
        elif kind == "tune":
            self.tunes.append(TuneLine(number, len(text.rstrip()), _cells(text, start, number)))
        else:
            self._fingers(text, start, number)

    def _words(self, line: LineDraft, text: str, start: int, number: int) -> None:
        words = text[start:].strip()
        cells = split_cells(words, 0)
        if len(cells) > max(1, len(line.bars)):
            what = f"{counted(len(cells), 'bar')} of words for {counted(len(line.bars), 'bar')}"
            first = text.index(words, start) + 1
            fix = "Align them bar by bar, or leave the '|' out"
            self.faults.add(number, first, len(words), what, fix)
        line.words.append(words)

    def _fingers(self, text: str, start: int, number: int) -> None:
        if not self.tunes or self.tunes[-1].fingers:
            self.faults.add(number, 1, start, "'fingers:' stands under no tune", "Write 'tune:' above it")
            return
        tune, cells = self.tunes[-1], _cells(text, start, number)
        if len(cells) == len(tune.cells):
            tune.fingers = cells
            return
        what = f"{counted(len(cells), 'bar')} of fingers for {counted(len(tune.cells), 'bar')} of tune"
        self.faults.add(number, 1, len(text), what, "Write as many bars, '.' where a finger is free")

    def flush(self) -> None:
        """Give the tune lines gathered so far to their bars."""
        tunes, lines = self.tunes, self.lines
        self.tunes, self.lines = [], []
        if not tunes:
            return
        cells = [cell for tune in tunes for cell in tune.cells]
        bars = _bars_above(lines, len(cells))
        if bars is None:
            have = sum(len(line.bars) for line in lines)
            what = f"{counted(len(cells), 'bar')} of tune for {counted(have, 'bar')}"
            fix = "Write as many bars of tune as there are above it"
            self.faults.add(tunes[0].number, 1, tunes[0].length, what, fix)
            return
        read_tune_bars(cells, bars, self.faults, sounding=self.had_tune)
        self.had_tune = True
        at = 0
        for tune in tunes:
            if tune.fingers:
                read_finger_bars(tune.fingers, bars[at : at + len(tune.fingers)], self.faults)
            at += len(tune.cells)


def _cells(text: str, start: int, number: int) -> list[Cell]:
    return [(cell, column, number) for cell, column in split_cells(text, start)]


def _bars_above(lines: list[LineDraft], count: int) -> list[BarDraft] | None:
    """The last lines of bars that have ``count`` bars in all."""
    taken: list[LineDraft] = []
    left = count
    for line in reversed(lines):
        taken.insert(0, line)
        left -= len(line.bars)
        if left <= 0:
            break
    return [bar for line in taken for bar in line.bars] if left == 0 else None
