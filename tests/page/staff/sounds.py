"""What a staff sounds like to Verovio, and what a chart's tune is by the exchange's own account of it."""

import base64
import io
from dataclasses import replace
from fractions import Fraction

import mido

from fifthwise.chart import Chart, opening_scope, section_scopes
from fifthwise.exchange.chart_tune import NoteMaker
from fifthwise.page import PagePart, PageView
from fifthwise.page.layout_order import played, written_sections
from fifthwise.page.staff import Staff, staff_mei, staff_of_chart
from fifthwise.page.staff.engraver import loaded

NEAR = 0.02  # of a quarter: MIDI counts in ticks
Sound = tuple[Fraction | float, int, Fraction | float]


def plain(chart: Chart) -> Chart:
    """A chart without grace notes and chops, whose sounds are not written out in time."""

    def quiet(note):
        return replace(note, kind="rest") if note.kind == "chop" else replace(note, grace=())

    def bare(bar):
        return replace(bar, tune=bar.tune and tuple(quiet(note) for note in bar.tune))

    def line(each):
        return replace(each, bars=tuple(bare(bar) for bar in each.bars))

    def part(section):
        return replace(section, lines=tuple(line(each) for each in section.lines))

    return replace(chart, sections=tuple(part(section) for section in chart.sections))


def heard(mei: str) -> list[Sound]:
    """Onset in quarters, pitch and length of each note that Verovio plays."""
    midi = mido.MidiFile(
        file=io.BytesIO(base64.b64decode(loaded(mei, {"breaks": "none", "expandNever": True}).renderToMIDI()))
    )
    found, on, ticks = set(), {}, 0
    for message in mido.merge_tracks(midi.tracks):
        ticks += message.time
        at = ticks / midi.ticks_per_beat
        if message.type == "note_on" and message.velocity:
            on[message.note] = at
        elif message.type in ("note_off", "note_on") and message.note in on:  # two notes may sound as one
            start = on.pop(message.note)
            found.add((start, message.note, at - start))
    return sorted(found)


def meant(chart: Chart) -> list[Sound]:
    """The same of the chart, section by section in each of its keys, as the exchange makes notes of it."""
    found: list[Sound] = []
    at = Fraction(0)
    for place in written_sections(chart, played(chart), every_key=True):
        section, maker = chart.sections[place.index], NoteMaker(chart)
        if not any(note.kind == "note" for bar in section.bars for note in bar.tune or ()):
            continue
        entry = replace(opening_scope(chart), key=place.key, entry_key=place.key)
        for bar, scope in zip(section.bars, section_scopes(section, entry, chart.key), strict=True):
            for note in maker.bar(bar, scope.key):
                for pitch in note.pitches:
                    if note.goes_on:
                        last = max(i for i, each in enumerate(found) if each[1] == pitch.midi)
                        found[last] = (found[last][0], pitch.midi, found[last][2] + note.length)
                    else:
                        found.append((at + note.at, pitch.midi, note.length))
            at += bar.length
    return sorted(set(found))


def staff_of(chart: Chart, **part) -> Staff:
    """The staff of a chart for a part at concert pitch."""
    staff = staff_of_chart(chart, PageView(part=PagePart(**part)))
    assert staff is not None
    return staff


def assert_sounds(chart: Chart) -> None:
    """Verovio plays the chart's tune, moved by whole octaves at most."""
    chart = plain(chart)
    played_notes, written = heard(staff_mei(staff_of(chart))), meant(chart)
    assert len(played_notes) == len(written)
    octaves = {a[1] - b[1] for a, b in zip(played_notes, written, strict=True)}
    assert len(octaves) == 1
    assert octaves.pop() % 12 == 0
    for (at, _, length), (onset, _, lasts) in zip(played_notes, written, strict=True):
        assert abs(at - onset) < NEAR
        assert abs(length - lasts) < NEAR
