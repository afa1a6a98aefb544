"""Advice over 370 songs: Burgoyne, Wild and Fujinaga, ISMIR 2011."""

import pytest

from fifthwise.chart import parse, unfold
from fifthwise.strings import instrument_of
from fifthwise.strings.advice import (
    best_drones,
    fills,
    form_places,
    landings,
    ringing_strings,
    scales,
    sounding_chords,
)
from fifthwise.theory import chord_notes
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

CHUNK = 37
VIOLIN = instrument_of("violin")


@pytest.mark.parametrize("start", range(0, 370, CHUNK))
def test_every_song_has_advice(start):
    """Notes to land on and strings that ring sound in the chord; fills lie over chords, one by one."""
    for place in range(start, start + CHUNK):
        chart = parse(number_chart(pop_songs()[place], f"song {place}"))
        timeline = unfold(chart)
        chords = sounding_chords(timeline, chart.numbering)
        assert chords
        for chord, notes, ringing in zip(
            chords, landings(chords), ringing_strings(chords, VIOLIN), strict=True
        ):
            sounds = {note.pitch_class for note in chord_notes(chord.letters)}
            assert {note.note.pitch_class for note in notes} == sounds
            assert {each.pitch.midi % 12 for each in ringing.inside} <= sounds
        assert 0 <= best_drones(chords, VIOLIN)[0].inside <= 1
        _check_fills(chart, timeline)
        assert all(words.endswith(".") for words in (each.words for each in form_places(chart, timeline)))


def _check_fills(chart, timeline):
    at = 0
    for slot in fills(chart, timeline):
        bar = timeline.bars[slot.bar]
        assert at <= slot.starts_at
        assert bar.start <= slot.starts_at < slot.ends_at <= bar.start + bar.length
        assert slot.chords
        assert slot.kind == "phrase end"  # the songs have no tunes
        at = slot.ends_at


@pytest.mark.parametrize("start", range(0, 370, CHUNK))
def test_every_chord_of_the_songs_has_a_scale(start):
    """Every chord has one, and it holds the chord's root, but for the few that begin on home."""
    different = {
        (chord.chord, chord.key, chord.numbering)
        for place in range(start, start + CHUNK)
        for chart in [parse(number_chart(pop_songs()[place], f"song {place}"))]
        for chord in sounding_chords(unfold(chart), chart.numbering)
    }
    for chord, key, numbering in different:
        told = scales(chord, key, numbering)
        assert told
        for each in told:
            assert each.from_home or each.notes[0].degree == chord.root
