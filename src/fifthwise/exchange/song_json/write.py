"""A chart as JSON: whatever is as usual is left out."""

import json
from typing import Any

from fifthwise.chart import (
    Bar,
    Chart,
    Cue,
    FormItem,
    KeyShift,
    Line,
    Scope,
    ScopedMark,
    Section,
    Slot,
    TuneNote,
    TunePitch,
    opening_scope,
    section_scopes,
)
from fifthwise.theory import Metre, NoteName, to_letters, write_letters, write_number

__all__ = ["FORMAT", "VERSION", "song_record", "write_song_json"]

FORMAT, VERSION = "fifthwise song", 1
WIDTH = 110
USUAL_METRE = Metre(4, 4)
FLAGS = ("metre_once", "copied", "repeat_start", "double_bar", "segno", "coda", "to_coda", "fine")

Record = dict[str, Any]


def write_song_json(chart: Chart) -> bytes:
    """Write a chart as JSON in UTF-8; a bar stands in one line where it fits."""
    return (_laid(song_record(chart), 0) + "\n").encode()


def song_record(chart: Chart) -> Record:
    """A chart as a record that fits the schema."""
    head = opening_scope(chart)
    return _without_none(
        {
            "format": FORMAT,
            "version": VERSION,
            "title": chart.title,
            "by": chart.by,
            "key": str(chart.key),
            "one": str(chart.numbering.one(chart.key)),
            "metre": None if chart.metre == USUAL_METRE else str(chart.metre),
            "tempo": _text(chart.tempo),
            "feel": chart.feel,
            "tags": chart.tags,
            "octave": chart.octave,
            "lowest": chart.lowest and _pitch(chart.lowest),
            "highest": chart.highest and _pitch(chart.highest),
            "minor": None if chart.minor == "from-six" else chart.minor,
            "plain": None if chart.plain == "explicit" else chart.plain,
            "form": [_form_item(item) for item in chart.form] or None,
            "sections": [
                _section(section, section_scopes(section, head, chart.key), chart)
                for section in chart.sections
            ],
        }
    )


def _section(section: Section, scopes: tuple[Scope, ...], chart: Chart) -> Record:
    at, lines = 0, []
    for line in section.lines:
        lines.append(_line(line, scopes[at : at + len(line.bars)], chart))
        at += len(line.bars)
    return _without_none(
        {
            "name": section.name,
            "times": None if section.times == 1 else section.times,
            "cues": [_cue(cue) for cue in section.cues] or None,
            "lines": lines,
        }
    )


def _line(line: Line, scopes: tuple[Scope, ...], chart: Chart) -> Record:
    ones = [chart.numbering.one(scope.key) for scope in scopes]
    bars = [_bar(bar, one, chart) for bar, one in zip(line.bars, ones, strict=True)]
    return {"bars": bars, **({"words": list(line.words)} if line.words else {})}


def _bar(bar: Bar, one: NoteName, chart: Chart) -> Record:
    end = bar.repeat_end
    return _without_none(
        {
            "slots": [_slot(slot, one) for slot in bar.slots],
            "metre": None if bar.metre == chart.metre else str(bar.metre),
            "pickup": _text(bar.pickup),
            "tune": None if bar.tune is None else [_note(note) for note in bar.tune],
            "marks": [_mark(mark) for mark in bar.marks] or None,
            "cues": [_cue(cue) for cue in bar.cues] or None,
            "repeat_end": end and _without_none({"times": end.times, "vamp": end.vamp}),
            "endings": list(bar.endings) or None,
            "jump": bar.jump,
            **{flag: True for flag in FLAGS if getattr(bar, flag)},
        }
    )


def _slot(slot: Slot, one: NoteName) -> Record:
    chord = slot.chord
    return _without_none(
        {
            "kind": slot.kind,
            "length": str(slot.length),
            "number": chord and write_number(chord),
            "letters": chord and write_letters(to_letters(chord, one)),
            "marks": list(slot.marks) or None,
        }
    )


def _note(note: TuneNote) -> Record:
    return _without_none(
        {
            "kind": note.kind,
            "length": str(note.length),
            "pitches": [_pitch(pitch) for pitch in note.pitches] or None,
            "slur": note.slur or None,
            "grace": [_pitch(pitch) for pitch in note.grace] or None,
            "slide": note.slide or None,
            "fingers": list(note.fingers) or None,
        }
    )


def _pitch(pitch: TunePitch) -> Record:
    return {"degree": str(pitch.degree), **({"octave": pitch.octave} if pitch.octave else {})}


def _mark(mark: ScopedMark) -> Record:
    return _without_none(
        {
            "key": mark.key and _shift(mark.key),
            "metre": mark.metre and str(mark.metre),
            "tempo": _text(mark.tempo),
            "feel": mark.feel,
        }
    )


def _shift(shift: KeyShift) -> Record:
    return {"semitones": shift.semitones} if shift.key is None else {"to": str(shift.key)}


def _form_item(item: FormItem) -> Record:
    if item.shift is not None:
        return {"key": _shift(item.shift)}
    times = None if item.times == 1 else item.times
    return _without_none({"section": item.section, "verse": item.verse, "times": times})


def _cue(cue: Cue) -> Record:
    return _without_none({"text": cue.text, "player": cue.player, "at": str(cue.at) if cue.at else None})


def _text(value: object) -> str | None:
    return None if value is None else str(value)


def _without_none(record: Record) -> Record:
    return {name: value for name, value in record.items() if value is not None}


def _laid(value: Any, indent: int) -> str:
    """JSON with one line for whatever fits in one."""
    flat = json.dumps(value, ensure_ascii=False)
    if indent + len(flat) <= WIDTH or not value or not isinstance(value, dict | list):
        return flat
    inner, outer = "\n" + " " * (indent + 2), "\n" + " " * indent
    if isinstance(value, dict):
        items = (f"{json.dumps(name)}: {_laid(each, indent + 2)}" for name, each in value.items())
        return "{" + inner + f",{inner}".join(items) + outer + "}"
    return "[" + inner + f",{inner}".join(_laid(each, indent + 2) for each in value) + outer + "]"
