"""Instruments: their transposition, names and near misses."""

import pytest

from fifthwise.evening import PartFault, part_names, part_of
from fifthwise.theory import SpelledPitch, transpose


@pytest.mark.parametrize(
    ("name", "written"),
    [("trumpet in Bb", "D4"), ("alto saxophone in Eb", "A4"), ("horn in F", "G4"), ("guitar", "C5")],
)
def test_the_written_note_of_concert_c(name, written):
    """Sounding middle C is written a second, a sixth, a fifth or an octave higher.

    Common practice, no source: transpositions of band instruments.
    """
    assert str(transpose(SpelledPitch(0, 4), part_of(name).written)) == written


def test_names_are_read_as_people_type_them():
    """Signs, case and a lone beginning are enough; a doubtful one is not guessed."""
    assert part_of("Trumpet in B♭").name == "trumpet in Bb"
    assert part_of("trumpet").name == "trumpet in Bb"
    assert part_of("FIDDLE").label == "Fiddle"
    with pytest.raises(PartFault, match="Did you mean 'viola'"):
        part_of("violla")
    with pytest.raises(PartFault, match="Known are violin"):
        part_of("xylorimba")


def test_every_instrument_answers_to_a_cue():
    """Each has at least one word by which a cue may call it."""
    assert all(part_of(name).words for name in part_names())
