"""Lay a song out for a page: sections, rows of bars, and everything that stands around them."""

from collections.abc import Iterator
from dataclasses import dataclass

from fifthwise.chart import Chart, Scope, Section, opening_scope
from fifthwise.page.layout_bar import SheetBar
from fifthwise.page.layout_bars import BarMaker, cues_for
from fifthwise.page.layout_head import head_notes, head_reads, head_tempo, tempo_note
from fifthwise.page.layout_model import Respelling, Sheet, SheetRow, SheetSection
from fifthwise.page.layout_order import WrittenSection, played, written_sections
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_road import road_map, section_name
from fifthwise.page.layout_rows import PlacedRow, natural_columns, place_bars
from fifthwise.page.layout_scopes import Changes, metre_text, section_changes
from fifthwise.page.layout_strip import strip_lines
from fifthwise.page.layout_view import PageView
from fifthwise.page.layout_words import aligned_words, row_words
from fifthwise.page.signs import legend
from fifthwise.page.text_signs import printed_key
from fifthwise.theory import Key

__all__ = ["lay_out"]

PICKUP_COLUMN = -1


def lay_out(chart: Chart, view: PageView = PageView(), *, columns: int | None = None) -> Sheet:  # noqa: B008 - frozen
    """Lay a song out.

    Parameters
    ----------
    columns : int or None
        Bars a row: 4 on paper, 2 on a telephone. ``None`` takes what most lines of the text have.
    """
    reader = Reader(view, chart.numbering)
    columns = columns or natural_columns(chart.sections)
    written = tuple(_Layer(chart, reader, columns).sections())
    sections = tuple(section for section, _ in written)
    strip = strip_lines(chart, reader)
    return Sheet(
        chart.title,
        chart.by or "",
        printed_key(reader.key(chart.key)),
        metre_text(chart.metre),
        head_tempo(chart),
        chart.feel or "",
        view,
        columns,
        sections,
        road_map(chart, reader),
        strip,
        head_reads(chart, reader),
        head_notes(chart, reader),
        legend(sections, view.show, strip),
        tuple(dict.fromkeys(respelling for _, found in written for respelling in found)),
        sounds=printed_key(chart.key) if reader.moves else "",
        tempo_note=tempo_note(chart),
    )


@dataclass(slots=True)
class _Layer:
    """Lays the sections down one after the other."""

    chart: Chart
    reader: Reader
    columns: int

    def sections(self) -> Iterator[tuple[SheetSection, tuple[Respelling, ...]]]:
        """Every section as written; letters alone write it out again for each key."""
        before, playings = opening_scope(self.chart), played(self.chart)
        every_key = self.reader.view.show == "letters"
        for place in written_sections(self.chart, playings, every_key=every_key):
            keys = playings.keys(place.index)
            ends = place.index == playings.end[0] and (not every_key or place.key == keys[-1])
            section, before, found = self._section(place, before, keys, playings.end[1] if ends else None)
            yield section, found

    def _section(
        self, place: WrittenSection, before: Scope, keys: tuple[Key, ...], final: int | None
    ) -> tuple[SheetSection, Scope, tuple[Respelling, ...]]:
        section = self.chart.sections[place.index]
        changes, after = section_changes(section, place.key, self.chart, before, self.reader)
        laid = SheetSection(
            section_name(section.name),
            self._rows(place.index, section, changes, final),
            section.times,
            cues_for(self.reader.view.part, section.cues),
            tuple(self._notes(place.key, keys)),
            list(dict.fromkeys(keys)).index(place.key) if keys else 0,
        )
        return laid, after, tuple(self._respelled(section, changes))

    def _notes(self, key: Key, keys: tuple[Key, ...]) -> Iterator[str]:
        """What is said of a section's keys; ``keys`` are those of its playings, in order."""
        later = [self._key(other) for other in dict.fromkeys(keys) if other != keys[0]]
        if not keys:
            yield "not played tonight"
        elif later and self.reader.view.show == "letters":
            last = keys.count(key) == 1 and key == keys[-1]
            yield f"last time, in {self._key(key)}" if last else f"in {self._key(key)}"
        elif later:
            yield f"later in {', '.join(later)}"

    def _key(self, key: Key) -> str:
        return printed_key(self.reader.key(key))

    def _rows(
        self, index: int, section: Section, changes: tuple[Changes, ...], final: int | None
    ) -> tuple[SheetRow, ...]:
        placed = place_bars(section, self.columns)
        view = self.reader.view
        maker = BarMaker(
            index, section, changes, self.reader,
            final=final,
            aligned=aligned_words(section) if view.words else {},
        )  # fmt: skip
        bars = maker.bars({i: column for row in placed for i, column in _places(row)})
        indices = [[i for i, _ in _places(row)] for row in placed]
        words = row_words(section, indices) if view.words else ((),) * len(placed)
        return tuple(_row(row, bars, verses) for row, verses in zip(placed, words, strict=True))

    def _respelled(self, section: Section, changes: tuple[Changes, ...]) -> Iterator[Respelling]:
        for bar, change in zip(section.bars, changes, strict=True):
            for slot in bar.slots:
                found = slot.chord and self.reader.respelling(slot.chord, change.key)
                if found:
                    yield found


def _places(row: PlacedRow) -> list[tuple[int, int]]:
    """The bars of a row by index with their columns, a pickup first."""
    return row.places if row.pickup is None else [(row.pickup, PICKUP_COLUMN), *row.places]


def _row(row: PlacedRow, bars: dict[int, SheetBar], words: tuple[str, ...]) -> SheetRow:
    pickup = None if row.pickup is None else bars[row.pickup]
    return SheetRow(tuple(bars[i] for i, _ in row.places), pickup, tuple(row.brackets), words)
