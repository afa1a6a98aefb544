"""A line over a chart as rows to print and as plain values, ready for JSON."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from fifthwise.chart import Chart, Entry, Timeline
from fifthwise.strings.fingering import FingeredNote, fingering_record, pin_text
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.changes import degree_text, number_text
from fifthwise.strings.lines.result import ChartLine
from fifthwise.strings.naming import position_name
from fifthwise.theory import Key, to_letters, write_letters

__all__ = ["LineRow", "line_record", "line_rows", "shift_rows"]

TOGETHER, APART = " · ", "  "


@dataclass(frozen=True, slots=True)
class LineRow:
    """One bar of a line.

    Attributes
    ----------
    bar : int
        Its number; 0 is a pickup before everything.
    section : str
        Its section's heading, where the section begins; otherwise empty.
    numbers, letters : str
        The chords that are written in it.
    notes : str
        What is played, each note as degree, string and finger (``3 A1``), the higher of two first.
    """

    bar: int
    section: str
    numbers: str
    letters: str
    notes: str


def line_rows(
    chart: Chart, timeline: Timeline, line: ChartLine, instrument: Instrument
) -> tuple[LineRow, ...]:
    """Write a line bar by bar, in playing order."""
    played: dict[int, list[str]] = {}
    for note, bar in zip(line.fingering.notes, line.bars, strict=True):
        played.setdefault(timeline.bars[bar].number, []).append(
            _note_text(chart, note, timeline.bars[bar].key, instrument)
        )
    chords: dict[int, list[Entry]] = {}
    for entry in timeline.entries:
        chords.setdefault(timeline.bars[entry.bar].number, []).append(entry)
    return tuple(_rows(chart, timeline, played, chords))


def _rows(
    chart: Chart, timeline: Timeline, played: dict[int, list[str]], chords: dict[int, list[Entry]]
) -> Iterator[LineRow]:
    visit = -1
    for bar in timeline.bars:
        if bar.overlays:
            continue
        entries = chords.get(bar.number, [])
        section = bar.section_name or "" if bar.visit != visit else ""
        numbers = " ".join(_number(chart, entry) for entry in entries)
        letters = " ".join(_letters(chart, entry) for entry in entries)
        yield LineRow(bar.number, section, numbers, letters, APART.join(played.get(bar.number, [])))
        visit = bar.visit


def _number(chart: Chart, entry: Entry) -> str:
    if entry.chord is None:
        return "NC" if entry.kind == "nc" else "0"
    return number_text(chart, entry.chord, entry.key)


def _letters(chart: Chart, entry: Entry) -> str:
    if entry.chord is None:
        return "-"
    return write_letters(to_letters(entry.chord, chart.numbering.one(entry.key)))


def _note_text(chart: Chart, note: FingeredNote, key: Key, instrument: Instrument) -> str:
    texts = (
        f"{degree_text(chart, degree, key)} {pin_text(stop, instrument)}"
        for degree, stop in zip(note.note.degrees, note.stops, strict=True)
    )
    return TOGETHER.join(reversed(tuple(texts)))


def shift_rows(timeline: Timeline, line: ChartLine) -> tuple[str, ...]:
    """Write each shift: the bar, the position that is reached, and why."""
    return tuple(
        f"bar {timeline.bars[line.bars[shift.note]].number}: to {position_name(shift.end)} position, "
        f"{shift.reason}"
        for shift in line.fingering.shifts
    )


def line_record(chart: Chart, timeline: Timeline, line: ChartLine, instrument: Instrument) -> dict[str, Any]:
    """Write a line as text, numbers, lists and nested dicts.

    Returns
    -------
    dict
        As ``fingering_record``, each note with the number of its ``bar``, its ``degree`` as the song
        writes it; and ``chords``, each with ``bar``,
        ``at`` (quarters), ``number`` and ``letters``.
    """
    record = fingering_record(line.fingering, instrument)
    places = [
        {"bar": timeline.bars[bar].number, "degree": degree_text(chart, degree, timeline.bars[bar].key)}
        for note, bar in zip(line.fingering.notes, line.bars, strict=True)
        for degree in note.note.degrees
    ]
    notes = [{**note, **place} for note, place in zip(record["notes"], places, strict=True)]
    chords = [
        {
            "bar": timeline.bars[entry.bar].number,
            "at": round(float(entry.sounds_at), 4),
            "number": _number(chart, entry),
            "letters": _letters(chart, entry),
        }
        for entry in timeline.entries
        if entry.chord is not None
    ]
    return record | {"notes": notes, "chords": chords}
