"""``fingers:`` lines read token for token against the tune above them."""

import re
from dataclasses import replace

from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.model import TuneNote
from fifthwise.chart.shares import counted
from fifthwise.chart.source import FaultList
from fifthwise.chart.tune_line import Cell
from fifthwise.chart.tune_text import read_fingers

__all__ = ["read_finger_bars"]

LEAF = re.compile(r"[^\s()]+")


def read_finger_bars(cells: list[Cell], bars: list[BarDraft], faults: FaultList) -> None:
    """Read finger pins, one cell for each bar of the tune."""
    for cell, bar in zip(cells, bars, strict=True):
        if bar.tune:
            _pin_bar(*cell, bar, faults)


def _pin_bar(cell: str, column: int, number: int, bar: BarDraft, faults: FaultList) -> None:
    leaves = [(m[0], column + m.start()) for m in LEAF.finditer(cell)]
    if len(leaves) != len(bar.fingerable):
        what = f"{counted(len(leaves), 'finger')} for {counted(len(bar.fingerable), 'token')} of tune"
        first = column + len(cell) - len(cell.lstrip())
        faults.add(number, first, len(cell.strip()), what, "Write one for each token, '.' where it is free")
        return
    notes = list(bar.tune or ())
    for (text, at), owner in zip(leaves, bar.fingerable, strict=True):
        pins = read_fingers(text)
        wrong = _misfit(text, pins, None if owner is None else notes[owner])
        if wrong:
            faults.add(number, at, len(text), *wrong)
        elif pins and owner is not None:
            notes[owner] = replace(notes[owner], fingers=pins)
    bar.tune = tuple(notes)


def _misfit(text: str, pins: tuple[str, ...] | None, note: TuneNote | None) -> tuple[str, str] | None:
    if pins is None or (pins and note is None):
        return f"'{text}' pins no finger here", "Write string and finger, as in 'A2' or 'D0', or '.'"
    if pins and note and len(pins) != len(note.pitches):
        what = f"{counted(len(pins), 'finger')} for {counted(len(note.pitches), 'note')}"
        return what, "Pin one finger a note, joined by '&'"
    return None
