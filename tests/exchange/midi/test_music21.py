"""Tunes of music21's corpus, written as MIDI by music21 and read by us.

The corpus stays where music21 lies; its licence is not stated.
"""

import warnings
from fractions import Fraction
from functools import cache

import pytest

from fifthwise.exchange.midi import read_midi
from fifthwise.exchange.midi.hear_key import PROFILES
from tests.exchange.midi.files import played

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from music21 import corpus, midi, stream
    from music21.analysis import discrete

# A hundred tunes of O'Neill's Music of Ireland (1903), and chorales in four parts.
TUNES = ("oneills1850/0001-0050.abc", "oneills1850/0051-0100.abc")
KINDS = ["Note", "Chord", "TimeSignature", "KeySignature"]
CHORALES = ("bach/bwv66.6", "bach/bwv269", "bach/bwv10.7", "bach/bwv253", "bach/bwv3.6", "bach/bwv4.8")


@cache
def scores(path):
    """The scores of a file."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        found = corpus.parse(path)
    return list(found.scores) if hasattr(found, "scores") else [found]


def laid_flat(part):
    """A part's notes as written, ties joined, without repeats and grace notes, and its metres and keys."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        flat, found = part.stripTies().flatten(), stream.Part()
    kept = {id(each): each for each in flat.getElementsByClass(KINDS)}  # music21 has some twice
    for each in kept.values():
        if not each.classSet & {"Note", "Chord"} or each.quarterLength:
            found.insert(each.offset, each)
    return found


def as_midi(score):
    """The bytes that music21 makes of a score."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return midi.translate.streamToMidiFile(score).writestr()


def sounding(part):
    """The notes of a part as they sound: start, length, MIDI numbers."""
    found = []
    for note in part.notes:
        start, length = (Fraction(each).limit_denominator(48) for each in (note.offset, note.quarterLength))
        found.append((start, length, tuple(sorted(pitch.midi for pitch in note.pitches))))
    return found


def from_the_first(notes):
    """Notes with times counted from the first."""
    return [(start - notes[0][0], length, midis) for start, length, midis in notes]


@pytest.mark.parametrize("path", TUNES)
def test_fiddle_tunes_come_back_note_by_note(path):
    """Every note has its pitch, place and length, in all tunes without notes shorter than a 32nd."""
    parts = [laid_flat(score.parts[0]) for score in scores(path)]
    parts = [part for part in parts if min(length for _, length, _ in sounding(part)) >= Fraction(1, 8)]
    assert len(parts) > 40
    for part in parts:
        found = read_midi(as_midi(part), "tune.mid")
        assert from_the_first(played(found.sheet)) == from_the_first(sounding(part))


@pytest.mark.parametrize("path", CHORALES)
def test_each_part_of_a_chorale_comes_back(path):
    """Every part, asked for by its track, has its notes."""
    (score,) = scores(path)
    parts = [laid_flat(part) for part in score.parts]
    data = as_midi(stream.Score(parts))
    for track, part in enumerate(parts, 2):
        found = read_midi(data, "chorale.mid", part=str(track))
        assert from_the_first(played(found.sheet)) == from_the_first(sounding(part))


@pytest.mark.parametrize("mode", ["major", "minor"])
def test_the_key_profiles_are_those_of_the_corpus(mode):
    """The figures are those that music21 has from the Humdrum extras."""
    assert PROFILES[mode] == tuple(discrete.TemperleyKostkaPayne().getWeights(mode))
