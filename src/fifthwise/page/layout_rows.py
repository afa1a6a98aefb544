"""Where each bar of a section stands: rows and columns, endings under each other."""

from dataclasses import dataclass, field

from fifthwise.chart import Ending, RepeatGroup, Section, repeat_groups
from fifthwise.page.layout_model import Bracket

__all__ = ["PlacedRow", "natural_columns", "place_bars"]

# From this width on, short lines of the text are put together on one row.
JOINS_LINES_FROM = 7
USUAL_COLUMNS = 4


@dataclass(slots=True)
class PlacedRow:
    """A row in the making: bars by index with their columns."""

    places: list[tuple[int, int]] = field(default_factory=list)
    pickup: int | None = None
    brackets: list[Bracket] = field(default_factory=list)


def natural_columns(sections: tuple[Section, ...]) -> int:
    """How many bars most lines of the text have: 3, 5 or 6, else 4; lines with endings have no say."""
    lines = (line for section in sections for line in section.lines)
    plain = (line for line in lines if not any(bar.endings for bar in line.bars))
    lengths = [sum(bar.pickup is None for bar in line.bars) for line in plain]
    for columns in (3, 5, 6):
        if 2 * lengths.count(columns) > len(lengths):
            return columns
    return USUAL_COLUMNS


def place_bars(section: Section, columns: int) -> tuple[PlacedRow, ...]:
    """Put a section's bars into rows of at most ``columns``.

    A line of the text is kept as a line; one that is longer goes on in the next row. An ending is not
    broken if it has room on a row, and a later ending stands under the first.
    """
    walk = _Walk(section, columns)
    walk.run()
    return tuple(walk.rows)


class _Walk:
    def __init__(self, section: Section, columns: int) -> None:
        self.bars = section.bars
        self.columns = columns
        self.lines = _line_lengths(section)
        groups = repeat_groups(section.bars)[0]
        self.endings = {e.start: (e, group) for group in groups for e in group.endings}
        self.group_ends = {group.end for group in groups if group.endings}
        self.rows: list[PlacedRow] = []
        self.column = columns  # full: the first bar opens a row
        self.under = 0  # column of the first ending
        self.open: Ending | None = None
        self.pickup: int | None = None

    def run(self) -> None:
        for i, bar in enumerate(self.bars):
            if bar.pickup is not None:
                self.pickup, self.column = i, self.columns
                continue
            self._choose_place(i)
            self._put(i)
        if self.pickup is not None:
            self._new_row(0)

    def _choose_place(self, i: int) -> None:
        if i in self.endings:
            self._open_ending(i, *self.endings[i])
        elif i - 1 in self.group_ends or self._breaks_line(i) or self.column >= self.columns:
            self._new_row(0)

    def _open_ending(self, i: int, ending: Ending, group: RepeatGroup) -> None:
        self.open = ending
        length = min(ending.end - ending.start + 1, self.columns)
        if ending is not group.endings[0]:
            self._new_row(max(0, min(self.under, self.columns - length)))
            return
        if self.column + length > self.columns or (self._breaks_line(i) and self.column):
            self._new_row(0)
        self.under = self.column

    def _breaks_line(self, i: int) -> bool:
        length = self.lines.get(i)
        if length is None:
            return False
        return self.columns < JOINS_LINES_FROM or self.column + length > self.columns

    def _new_row(self, column: int) -> None:
        self.rows.append(PlacedRow(pickup=self.pickup))
        self.column, self.pickup = column, None

    def _put(self, i: int) -> None:
        row = self.rows[-1]
        row.places.append((i, self.column))
        if self.open is not None:
            self._bracket(row, i, self.open)
        self.column += 1

    def _bracket(self, row: PlacedRow, i: int, ending: Ending) -> None:
        label = " ".join(f"{n}." for n in ending.numbers) if i == ending.start else ""
        closes = i == ending.end and ending.goes_back
        if row.brackets and i != ending.start:
            last = row.brackets.pop()
            row.brackets.append(Bracket(last.first, self.column, last.label, closes))
        else:
            row.brackets.append(Bracket(self.column, self.column, label, closes))
        if i == ending.end:
            self.open = None


def _line_lengths(section: Section) -> dict[int, int]:
    """The full bars of each line of the text, by the index of its first bar."""
    lengths, at = {}, 0
    for line in section.lines:
        pickups = sum(bar.pickup is not None for bar in line.bars)
        lengths[at + (pickups if pickups < len(line.bars) else 0)] = len(line.bars) - pickups
        at += len(line.bars)
    return lengths
