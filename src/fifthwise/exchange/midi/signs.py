"""What a file says beside its notes: metre, tempo, key, sections, words for the band, chords, syllables."""

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from fifthwise.chart import Chart, PlayedBar, Timeline
from fifthwise.exchange.chart_words import line_words
from fifthwise.theory import Key, NoteName, to_letters, write_letters

__all__ = ["Sign", "chord_signs", "road_signs", "word_signs"]

Sign = tuple[Fraction, str, dict[str, Any]]
MICROSECONDS, MOST_MICROSECONDS = 60_000_000, 0xFFFFFF
UNITS = (4, 8, 16, 32)
CLOCKS = 24  # MIDI clocks a quarter
NO_CHORD = "N.C."


def road_signs(chart: Chart, timeline: Timeline) -> list[Sign]:
    """What the conductor's track says."""
    found = [_text("text", Fraction(0), f"by {chart.by}")] if chart.by else []
    held: dict[str, dict[str, Any]] = {}
    visit = -1
    for bar in timeline.bars:
        if bar.visit != visit:
            visit = bar.visit
            found += [_text("marker", bar.start, bar.section_name)] if bar.section_name else []
        found += [_text("cue_marker", bar.start + cue.at, cue.text) for cue in bar.cues]
        for kind, values in () if bar.overlays else _holding(bar):
            if held.get(kind) != values:
                held[kind] = values
                found.append((bar.start, kind, values))
    return found


def _text(kind: str, at: Fraction, text: str) -> Sign:
    return at, kind, {"text": text}


def _holding(bar: PlayedBar) -> Iterator[tuple[str, dict[str, Any]]]:
    count, unit = _counted(bar)
    clocks = int(CLOCKS * bar.metre.tempo_unit)
    metre = {"numerator": count, "denominator": unit, "clocks_per_click": clocks}
    yield "time_signature", metre
    microseconds = min(max(round(MICROSECONDS / bar.tempo_bpm), 1), MOST_MICROSECONDS)
    yield "set_tempo", {"tempo": microseconds}
    yield "key_signature", {"key": _key_name(bar.key)}


def _counted(bar: PlayedBar) -> tuple[int, int]:
    """A bar's metre; a pickup's is as short as it."""
    if bar.length == bar.metre.length:
        return bar.metre.count, bar.metre.unit
    for unit in UNITS:
        count = bar.length * unit / 4
        if count.denominator == 1:
            return int(count), unit
    return bar.metre.count, bar.metre.unit


def _key_name(key: Key) -> str:
    """A key as MIDI has them, major or minor; any other mode is the major key with its signature."""
    return key.short if key.mode in ("major", "minor") else Key(NoteName(key.signature)).short


def chord_signs(chart: Chart, timeline: Timeline) -> list[Sign]:
    """Every chord in letters where it is written, and where there is none."""
    return [
        _text(
            "text",
            entry.written_at,
            NO_CHORD
            if entry.chord is None
            else write_letters(to_letters(entry.chord, chart.numbering.one(entry.key))),
        )
        for entry in timeline.entries
    ]


def word_signs(chart: Chart, timeline: Timeline) -> list[Sign]:
    """The syllables of each bar at its notes; what is left over goes with the last."""
    notes: dict[int, list[Fraction]] = {}
    for event in timeline.notes:
        notes.setdefault(event.bar, []).append(event.starts_at)
    found: list[Sign] = []
    for at, bar in enumerate(timeline.bars):
        starts = notes.get(at, [])
        syllables = list(_syllables(chart, bar))
        if len(syllables) > len(starts) > 0:
            syllables[len(starts) - 1 :] = [" ".join(syllables[len(starts) - 1 :])]
        found += [_text("lyrics", start, text) for start, text in zip(starts, syllables, strict=False)]
    return found


def _syllables(chart: Chart, bar: PlayedBar) -> tuple[str, ...]:
    lines = chart.sections[bar.section].lines
    before = sum(len(line.bars) for line in lines[: bar.line])
    return line_words(lines[bar.line], bar.verse)[bar.bar - before]
