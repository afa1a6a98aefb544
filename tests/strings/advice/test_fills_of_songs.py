"""Fills in songs of music21's corpus, over one chord: the gaps are those that music21's own offsets have.

The melodies are read as one pass, repeats not unfolded, and laid over a held 1 so that the band is never
silent. The corpus' licence is not stated, so it is read where music21 lies and never copied.
"""

from fractions import Fraction
from itertools import pairwise

import pytest
from music21 import corpus, note

from fifthwise.chart import unfold
from fifthwise.exchange import LeadBar, LeadChord, LeadNote, LeadSheet, chart_of_sheet
from fifthwise.strings.advice import fills
from fifthwise.theory import read_key, read_letter_chord, read_metre, read_pitch

HOME = read_key("C")
CHORD = LeadChord(Fraction(0), read_letter_chord("C"))
LEAST, BREATH = Fraction(3, 2), Fraction(1, 2)  # of a beat, which is a quarter in all of these
SONGS = {
    "leadSheet/berlinAlexandersRagtime": 1,
    "leadSheet/fosterBrownHair": 2,
    "schubert/lindenbaum": 4,
    "schumann_robert/dichterliebe_no2": 0,  # it breathes, and leaves no room
    "beach/prayer_of_a_tired_child": 1,
}


def _exact(number):
    return Fraction(number).limit_denominator(48)


def _bar(measure):
    metre = measure.timeSignature or measure.getContextByClass("TimeSignature")
    voice = measure.voices[0] if measure.voices else measure
    return LeadBar(
        read_metre(metre.ratioString),
        _exact(measure.quarterLength),
        HOME,
        (CHORD,),
        tuple(_note(each) for each in voice.getElementsByClass(note.Note) if not each.duration.isGrace),
    )


def _note(each):
    pitch = read_pitch(each.pitch.nameWithOctave.replace("-", "b"))
    goes_on = each.tie is not None and each.tie.type in ("stop", "continue")
    return LeadNote(_exact(each.offset), _exact(each.quarterLength), (pitch,), goes_on)


def _gaps(part):
    """Where nobody sings until half a beat before the next note, by music21's offsets."""
    sung = [each for each in part.flatten().stripTies().notes if not each.duration.isGrace]
    spans = [(_exact(each.offset), _exact(each.offset + each.quarterLength)) for each in sung]
    free = [(end, start - BREATH) for (_, end), (start, _) in pairwise([(0, Fraction(0)), *spans])]
    return [(start, end) for start, end in free if end - start >= LEAST], spans[-1][1]


@pytest.mark.parametrize("name", SONGS)
def test_the_gaps_of_a_song_are_its_fills(name):
    """As many as were counted, each from the end of a note to half a beat before the next."""
    part = corpus.parse(name).parts[0]
    bars = tuple(_bar(measure) for measure in part.getElementsByClass("Measure"))
    chart = chart_of_sheet(LeadSheet("song", bars)).chart
    gaps, last = _gaps(part)
    found = [(slot.starts_at, slot.ends_at) for slot in fills(chart, unfold(chart)) if slot.starts_at < last]
    assert found == gaps
    assert len(gaps) == SONGS[name]
