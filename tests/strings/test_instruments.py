"""Instruments and tunings, held against music21 and physics."""

import math

import mir_eval
import music21
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.strings import (
    HARMONICS,
    Place,
    TuningFault,
    harmonics_of,
    instrument_of,
    midi_at,
    places_of,
    stop_mm,
    tuned,
)
from fifthwise.theory import SpelledPitch, read_pitch

OUTSIDE = {
    "violin": music21.instrument.Violin,
    "viola": music21.instrument.Viola,
    "cello": music21.instrument.Violoncello,
    "double bass": music21.instrument.Contrabass,
    "mandolin": music21.instrument.Mandolin,
}
# Derived by arithmetic, x = L(1 - 2^(-k/12)), in mm to a tenth: violin 328, viola 375, cello 690, bass 1050.
MM = {
    1: (18.4, 21.0, 38.7, 58.9), 2: (35.8, 40.9, 75.3, 114.6), 3: (52.2, 59.7, 109.8, 167.1),
    4: (67.7, 77.4, 142.3, 216.6), 5: (82.3, 94.1, 173.1, 263.4), 7: (109.1, 124.7, 229.5, 349.2),
    9: (133.0, 152.0, 279.7, 425.7), 12: (164.0, 187.5, 345.0, 525.0), 17: (205.1, 234.5, 431.5, 656.7),
    19: (218.5, 249.9, 459.7, 699.6), 24: (246.0, 281.2, 517.5, 787.5),
}  # fmt: skip


@pytest.mark.parametrize("name", OUTSIDE)
def test_open_strings_are_those_that_music21_names(name):
    """Spelling, octave and order agree with music21's ``stringPitches``."""
    theirs = [(p.name, p.octave) for p in OUTSIDE[name]().stringPitches]
    assert [(str(p.name), p.octave) for p in instrument_of(name).strings] == theirs


@pytest.mark.parametrize("stop", MM)
def test_stops_lie_at_equal_tempered_distances(stop):
    """The four lengths have the stop within a twentieth of a millimetre of the table."""
    lengths = [instrument_of(n).length_mm for n in ("violin", "viola", "cello", "double bass")]
    assert [stop_mm(length, stop) for length in lengths] == pytest.approx(MM[stop], abs=0.051)


@given(st.integers(0, 24), st.floats(200, 1200))
def test_a_stop_shortens_the_string_as_its_pitch_rises(stop, length_mm):
    """Frequency is inverse to length, and a semitone is the twelfth root of two (ISO 16 for A4 = 440 Hz)."""
    shorter = length_mm - stop_mm(length_mm, stop)
    assert length_mm / shorter == pytest.approx(440 * 2 ** (stop / 12) / 440)


@pytest.mark.parametrize("name", OUTSIDE)
def test_every_stop_sounds_at_the_frequency_that_others_compute(name):
    """A place's frequency is that of mir_eval's ``midi_to_hz`` and of music21's pitch, A4 = 440 Hz."""
    instrument = instrument_of(name)
    for string, own in enumerate(instrument.strings):
        for stop in range(instrument.highest + 1):
            midi = midi_at(instrument, Place(string, stop))
            ours = (
                own.frequency_hz
                * instrument.length_mm
                / (instrument.length_mm - stop_mm(instrument.length_mm, stop))
            )
            assert ours == pytest.approx(float(mir_eval.util.midi_to_hz(np.array([midi]))[0]))
            assert ours == pytest.approx(music21.pitch.Pitch(midi=midi).frequency)


@pytest.mark.parametrize("harmonic", HARMONICS, ids=lambda h: f"{h.partial}-{h.touch}")
def test_a_harmonic_is_touched_at_a_node_and_sounds_its_partial(harmonic):
    """The touched place is a whole part of the string, and the partial's number times the frequency sounds.

    Source: physics of an ideal string: nodes of the n-th partial at k/n, its frequency n times the open one.
    """
    part = stop_mm(1, harmonic.touch) * harmonic.partial
    assert part == pytest.approx(round(part), abs=0.01)
    assert harmonic.sounds == round(12 * math.log2(harmonic.partial))


@pytest.mark.parametrize(("pitch", "touch"), [("D6", 4.98), ("A5", 7.02), ("D5", 12.0)])
def test_the_d_string_has_its_harmonics(pitch, touch):
    """Touched at the fourth two octaves up, at the fifth an octave and a fifth, in the middle an octave."""
    violin = instrument_of("violin")
    assert (1, touch) in [(string, h.touch) for string, h in harmonics_of(violin, read_pitch(pitch))]


TUNINGS = [
    ("A3 E4 A4 E5", "A3 E4 A4 E5"),
    ("AEAE", "A3 E4 A4 E5"),
    ("G D G B", "G3 D4 G4 B4"),
    ("ADAE", "A3 D4 A4 E5"),
]


@pytest.mark.parametrize(("text", "strings"), TUNINGS)
def test_a_tuning_is_read_with_and_without_octaves(text, strings):
    """A note without an octave is the one nearest to the string."""
    assert " ".join(map(str, tuned(instrument_of("violin"), text).strings)) == strings


@given(st.lists(st.integers(-7, 7), min_size=4, max_size=4))
def test_a_tuning_written_is_read_again(away):
    """Any strings within a fifth of their own are read back from their names."""
    violin = instrument_of("violin")
    names = (
        (0, 0),
        (7, -1),
        (2, 0),
        (-3, 0),
        (4, 0),
        (-1, 0),
        (6, 0),
        (1, 0),
        (-4, 0),
        (3, 0),
        (-2, 0),
        (5, 0),
    )
    strings = []
    for own, by in zip(violin.strings, away, strict=True):
        midi = own.midi + by
        fifths, octave = names[midi % 12]
        strings.append(SpelledPitch(fifths, midi // 12 - 1 + (octave if midi % 12 != 1 else 0)))
    wanted = tuple(strings)
    assert [s.midi for s in wanted] == [o.midi + b for o, b in zip(violin.strings, away, strict=True)]
    assert tuned(violin, " ".join(map(str, wanted))).strings == wanted


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("AEA", "3 strings for a violin with 4"),
        ("A H A E", "is no tuning"),
        ("A4 E4 A4 E5", "14 semitones above"),
    ],
)
def test_a_tuning_that_cannot_be_right_is_a_fault(text, words):
    """The fault says what is wrong."""
    with pytest.raises(TuningFault, match=words):
        tuned(instrument_of("violin"), text)


def test_a_pitch_has_a_place_on_every_string_that_holds_it():
    """A4 on the violin: low on the A string, at the fifth of the D string, at the ninth of the G string."""
    places = places_of(instrument_of("violin"), read_pitch("A4"))
    assert places == (Place(0, 14), Place(1, 7), Place(2, 0))
