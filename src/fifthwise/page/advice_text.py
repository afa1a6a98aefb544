"""What to play over a song as plain text: notes to land on, scales, drones, fills, the form, the bow."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from fifthwise.chart import Chart, Timeline
from fifthwise.page.text_signs import printed_key, printed_prose
from fifthwise.strings import Instrument
from fifthwise.strings.advice import (
    SoundingChord,
    best_drones,
    chord_text,
    fills,
    form_places,
    landings,
    scales,
    sounding_chords,
)
from fifthwise.strings.bowing import bowing_text, bowings_for
from fifthwise.theory import Key

__all__ = ["advice_text"]

LANDINGS, SCALES, DRONES, BOWINGS = 2, 2, 2, 3
INDENT = "  "


def advice_text(chart: Chart, timeline: Timeline, instrument: Instrument) -> str:
    """Tell what to play over a song; each chord and each place once, as it comes first."""
    chords = sounding_chords(timeline, chart.numbering)
    parts = (
        ("Land on, and run through", list(_chords(chords))),
        (f"Strings that may ring, {instrument.label.lower()}", list(_drones(timeline, chords, instrument))),
        ("Room for fills", [slot.words for slot in fills(chart, timeline)]),
        ("Places of the form", [place.words for place in form_places(chart, timeline)]),
        ("The bow", list(_bowings(timeline))),
    )
    head = f"{chart.title}, {printed_key(chart.key)}, {instrument.label.lower()}"
    told = [f"{name}\n{_indented(lines)}" for name, lines in parts if lines]
    return "\n\n".join((head, *told)) + "\n"


def _indented(lines: Sequence[str]) -> str:
    unique = dict.fromkeys(printed_prose(line) for line in lines)
    return "\n".join(f"{INDENT}{row}".rstrip() for line in unique for row in line.split("\n"))


def _chords(chords: Sequence[SoundingChord]) -> Iterator[str]:
    """Each chord of each key once: the best notes and scales over it."""
    told: set[tuple[Key, object]] = set()
    for chord, notes in zip(chords, landings(chords), strict=True):
        if (chord.key, chord.chord) in told:
            continue
        told.add((chord.key, chord.chord))
        best = "; ".join(note.words for note in notes[:LANDINGS])
        runs = " Or ".join(each.words for each in scales(chord.chord, chord.key, chord.numbering)[:SCALES])
        yield f"{chord_text(chord.chord, chord.key, chord.numbering)}: {best}. {runs}"


def _drones(timeline: Timeline, chords: Sequence[SoundingChord], instrument: Instrument) -> Iterator[str]:
    """The best open strings of each section, as it is played first."""
    for _, group in groupby(chords, key=lambda chord: timeline.bars[chord.bar].visit):
        part = tuple(group)
        name = timeline.bars[part[0].bar].section_name or "song"
        yield from (f"{name}, {drone.words}" for drone in best_drones(part, instrument)[:DRONES])


def _bowings(timeline: Timeline) -> Iterator[str]:
    for feel, metre in dict.fromkeys((bar.feel, bar.metre) for bar in timeline.bars):
        for bowing in bowings_for(feel, metre)[:BOWINGS]:
            yield f"{bowing.metre}, {bowing.name}: {bowing.words}\n{bowing_text(bowing)}"
