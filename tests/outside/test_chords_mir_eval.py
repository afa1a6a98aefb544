"""Our chords against those of mir_eval.

Raffel, McFee, Humphrey, Salamon, Nieto, Liang and Ellis, "mir_eval: A Transparent Implementation of Common
MIR Metrics", ISMIR 2014; its chord syntax is that of Harte et al., ISMIR 2005. Its thirteenth chords hold the
eleventh, as ours do. A bass counts from the chord's root there.
"""

import mir_eval
import pytest

from fifthwise.theory import (
    LetterChord,
    NoteName,
    Numbering,
    pitch_classes,
    quality_text,
    read_chord,
    read_key,
    read_letter_chord,
    to_letters,
    to_number,
    write_letters,
    write_number,
)
from tests.harte import SHORTHAND_OF, every_label, number_text, read_harte, write_harte
from tests.strategies import every_quality

TONICS = [NoteName(fifths) for fifths in range(-7, 8)]
LABELS = [label for label in every_label() if read_harte(label) is not None]


def what_sounds(label):
    """The pitch classes of a label and that of its bass, by mir_eval."""
    root, bitmap, bass = mir_eval.chord.encode(label, reduce_extended_chords=True)
    return {int(root + place) % 12 for place in bitmap.nonzero()[0]}, int(root + bass) % 12


def what_we_sound(chord):
    """The same of our own chord."""
    return set(pitch_classes(chord)), (chord.bass or chord.root).pitch_class


@pytest.mark.parametrize("quality", every_quality(1), ids=quality_text)
def test_every_quality_sounds_the_same(quality):
    """Every triad and base with up to one change, on all 15 major tonics, in root position."""
    for tonic in TONICS:
        chord = LetterChord(tonic, quality)
        assert what_we_sound(chord) == what_sounds(write_harte(chord))


def test_every_shorthand_is_compared_as_such():
    """The chords that have a name there are compared by name, not note by note."""
    names = set(SHORTHAND_OF.values())
    assert names == set(mir_eval.chord.QUALITIES) - {"", "1", "5"}
    bare = {write_harte(LetterChord(TONICS[7], quality)) for quality in every_quality(0)}
    assert {f"C:{name}" for name in names} <= bare


@pytest.mark.parametrize("label", LABELS)
def test_every_label_of_the_songs_sounds_the_same(label):
    """370 songs write 695 different chords; each has our name, and its notes and bass sound as theirs."""
    chord = read_harte(label)
    assert what_we_sound(chord) == what_sounds(label)
    assert what_we_sound(read_letter_chord(write_letters(chord))) == what_sounds(label)


@pytest.mark.parametrize("label", LABELS)
def test_every_label_goes_through_numbers_in_every_key(label):
    """Letters to numbers to letters keeps the sound, and the spelling where two accidentals reach."""
    chord = read_harte(label)
    for tonic in TONICS:
        number = to_number(chord, tonic)
        back = to_letters(number, tonic)
        assert what_we_sound(back) == what_sounds(label)
        turn = back.root.fifths - chord.root.fifths
        assert turn in (-12, 0, 12)
        assert chord == back or turn
        assert turn == 0 or needs_three_accidentals(chord, tonic)
        text = number_text(label, tonic)
        assert text == write_number(number)
        assert read_chord(text, read_key(str(tonic)), Numbering()) == number


def needs_three_accidentals(chord, tonic):
    """Whether a degree of the chord's root or bass, counted from the tonic, lies beyond bb or ##."""
    places = [note.fifths - tonic.fifths for note in (chord.root, chord.bass) if note is not None]
    return not all(-15 <= place <= 19 for place in places)
