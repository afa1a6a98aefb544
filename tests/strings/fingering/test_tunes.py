"""Fiddle tunes of music21's corpus, a fixed sample; ``bench/fingering_tunes.py`` goes through all."""

import pytest

from fifthwise.strings import instrument_of
from fifthwise.strings.fingering import finger_line, fingering_faults
from fifthwise.theory import read_pitch
from tests.outside.fiddle_tunes import files_of, tunes_of

VIOLIN = instrument_of("violin")
# G3 open, and the fourth finger a semitone high on the E string.
LOWEST, HIGHEST = read_pitch("G3").midi, read_pitch("C6").midi
EVERY = 5


@pytest.fixture(scope="module")
def tunes():
    """Single-voiced tunes of every fifth file."""
    files = files_of("ryansMammoth")[::EVERY] + files_of("oneills1850")[::EVERY]
    every = [tune for path in files for tune in tunes_of(path)]
    return [tune for tune in every if all(len(note.pitches) == 1 for note in tune.line.notes)]


def in_range(tune):
    """Whether a tune lies within first position's notes."""
    return all(LOWEST <= note.pitches[0].midi <= HIGHEST for note in tune.line.notes)


def test_every_tune_in_range_is_playable_in_first_position(tunes):
    """A tune within the notes of first position has fingers there, without fault and without a shift."""
    found = [(tune.title, finger_line(tune.line, VIOLIN, "first")) for tune in tunes if in_range(tune)]
    assert len(found) > 500
    for title, each in found:
        assert fingering_faults(each, VIOLIN, "first") == (), title
        assert each.shifts == (), title


@pytest.mark.parametrize("level", ["third", "all"])
def test_more_positions_never_cost_more(tunes, level):
    """The same tunes with more positions are without fault, and no dearer."""
    for tune in [tune for tune in tunes if in_range(tune)][::4]:
        wide = finger_line(tune.line, VIOLIN, level)
        assert fingering_faults(wide, VIOLIN, level) == (), tune.title
        assert wide.cost <= finger_line(tune.line, VIOLIN, "first").cost + 1e-9


def test_the_fourth_finger_and_the_open_string_both_have_their_use(tunes):
    """For the pitches of open strings tunes take both."""
    stops = [
        note.stops[0]
        for tune in tunes
        if in_range(tune)
        for note in finger_line(tune.line, VIOLIN, "first").notes
    ]
    opens = sum(stop.finger == 0 for stop in stops)
    fourths = sum((stop.finger, stop.stop) == (4, 7) for stop in stops)
    assert 0 < fourths < opens
