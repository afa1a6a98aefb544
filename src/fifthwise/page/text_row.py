"""One row of bars as lines of text: what is said over the bars, numbers, letters, tune and words."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fifthwise.page.layout_bar import SheetBar, SheetCue
from fifthwise.page.layout_model import SheetRow
from fifthwise.page.text_bar import TextBar, text_bar
from fifthwise.page.text_words import with_pickup_words

__all__ = ["Grid", "cue_texts", "row_lines"]

LINE = 4  # places for a bar line, its stroke in the second
MEETING = {
    ("bar", "bar"): " |",
    ("repeat", "bar"): ":|",
    ("bar", "repeat"): " |:",
    ("repeat", "repeat"): ":|:",
    ("double", "bar"): " ||",
    ("bar", "double"): " ||",
    ("final", "bar"): " |]",
    ("double", "repeat"): " |:",
    ("final", "repeat"): " |:",
}


@dataclass(frozen=True, slots=True)
class Grid:
    """Where columns stand.

    Attributes
    ----------
    width : int
        Places inside every bar.
    pickup : int
        Places inside a pickup; 0 where the song has none.
    """

    width: int
    pickup: int = 0

    def start(self, column: int) -> int:
        """The place of a column's bar line."""
        hung = self.pickup + LINE if self.pickup else 0
        return 0 if column < 0 else hung + column * (self.width + LINE)

    def inside(self, bar: SheetBar) -> int:
        """Places inside a bar."""
        return self.pickup if bar.column < 0 else self.width


class _Canvas:
    """Lines of text that are written at a place."""

    def __init__(self) -> None:
        self.line = ""

    def put(self, at: int, text: str) -> None:
        self.line = self.line.ljust(at)[:at] + text + self.line[at + len(text) :]

    def has_room(self, at: int) -> bool:
        return len(self.line) < at or at == 0 == len(self.line)


def row_lines(row: SheetRow, grid: Grid) -> Iterator[str]:
    """Write a row."""
    row = with_pickup_words(row)
    bars = (row.pickup, *row.bars) if row.pickup else row.bars
    yield from _over(row, bars, grid)
    texts = {bar.column: text_bar(bar) for bar in bars}
    for place in range(3):
        canvas = _Canvas()
        for bar in bars:
            canvas.put(grid.start(bar.column) + LINE, _cell(texts[bar.column], grid.inside(bar), place))
        if place == 0:
            _bar_lines(canvas, bars, grid)
        if canvas.line.strip():
            yield canvas.line.rstrip()
    yield from _words(row, bars, grid)


def _cell(text: TextBar, width: int, place: int) -> str:
    return text.rows(width)[place][:width]


def _bar_lines(canvas: _Canvas, bars: tuple[SheetBar, ...], grid: Grid) -> None:
    for place, bar in enumerate(bars):
        before = bars[place - 1].right if place and bars[place - 1].column + 1 == bar.column else "bar"
        canvas.put(grid.start(bar.column), MEETING.get((before, bar.left), " |"))
        if place + 1 == len(bars) or bars[place + 1].column != bar.column + 1:
            end = MEETING.get((bar.right, "bar"), " |")
            canvas.put(grid.start(bar.column) + LINE + grid.inside(bar), end)


def _over(row: SheetRow, bars: tuple[SheetBar, ...], grid: Grid) -> Iterator[str]:
    """What stands over the bars; what would run into its neighbour takes a line of its own."""
    said = [(grid.start(k.first), f"[{k.label}]") for k in row.brackets if k.label]
    said += [(grid.start(bar.column) + LINE, _bar_words(bar)) for bar in bars]
    lines: list[_Canvas] = []
    for at, text in sorted((item for item in said if item[1]), key=lambda item: item[0]):
        free = next((line for line in lines if line.has_room(at)), None)
        if free is None:
            free = _Canvas()
            lines.append(free)
        free.put(at, text)
    yield from (line.line for line in lines)


def _bar_words(bar: SheetBar) -> str:
    metre = f"{bar.metre} this bar only" if bar.metre.startswith("(") else bar.metre
    told = (*bar.signs, metre, *bar.changes, *cue_texts(bar.cues), bar.times, *bar.goes)
    return ", ".join(text for text in told if text)


def cue_texts(cues: Sequence[SheetCue]) -> list[str]:
    """Cues in quotes, with their player where they are for this page alone."""
    return [f'"{cue.player}: {cue.text}"' if cue.player else f'"{cue.text}"' for cue in cues if cue.text]


def _words(row: SheetRow, bars: tuple[SheetBar, ...], grid: Grid) -> Iterator[str]:
    for verse in range(max((len(bar.words) for bar in bars), default=0)):
        canvas = _Canvas()
        for bar in bars:
            words = bar.words[verse] if verse < len(bar.words) else ""
            canvas.put(max(grid.start(bar.column) + LINE, len(canvas.line)), f"{words} ")
        yield canvas.line.rstrip()
    yield from (" " * (grid.start(0) + LINE) + words for words in row.words)
