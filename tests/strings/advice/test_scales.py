"""Scales over chords, notes to pass through, and approach notes."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import chord as m21_chord
from music21 import scale as m21_scale

from fifthwise.strings.advice import SCALES, approaches, chord_kind, scales
from fifthwise.strings.advice.scale_table import BY_KIND, BY_PLACE
from fifthwise.theory import Key, NoteName
from tests.strategies import keys, number_chords, numberings, qualities
from tests.strings.advice.asked import in_key

# Each of our scales as music21.scale has it: the class, and what it is built with above its tonic.
AS_MUSIC21 = {
    "major": m21_scale.MajorScale,
    "dorian": m21_scale.DorianScale,
    "phrygian": m21_scale.PhrygianScale,
    "lydian": m21_scale.LydianScale,
    "mixolydian": m21_scale.MixolydianScale,
    "aeolian": m21_scale.MinorScale,
    "locrian": m21_scale.LocrianScale,
    "harmonic minor": m21_scale.HarmonicMinorScale,
    "melodic minor": m21_scale.MelodicMinorScale,
    "whole-tone": m21_scale.WholeToneScale,
}
# Modes that music21.scale has no class for: a step of one that it has.
AS_MODES = {
    "locrian with a 2": (m21_scale.MelodicMinorScale, 6),
    "lydian with a b7": (m21_scale.MelodicMinorScale, 4),
    "lydian with a #5": (m21_scale.MelodicMinorScale, 3),
    "altered": (m21_scale.MelodicMinorScale, 7),
    "phrygian with a 3": (m21_scale.HarmonicMinorScale, 5),
}


def _sounds(name):
    return [degree.semitones for degree in SCALES[name].degrees]


def _music21(made):
    """Semitones above the tonic, ascending through one octave."""
    pitches = made.getPitches("C4", "C5", direction=m21_scale.Direction.ASCENDING)
    return sorted({pitch.pitchClass for pitch in pitches})


@pytest.mark.parametrize("name", AS_MUSIC21)
def test_a_scale_is_that_of_music21(name):
    """Its notes are those of the class in music21.scale."""
    assert _sounds(name) == _music21(AS_MUSIC21[name]("C4"))


@pytest.mark.parametrize("name", AS_MODES)
def test_a_mode_is_a_turn_of_its_scale_in_music21(name):
    """Its notes are those of a class in music21.scale, begun on another step."""
    made, step = AS_MODES[name]
    notes = _music21(made("C4"))
    first = notes[step - 1]
    assert _sounds(name) == sorted((note - first) % 12 for note in notes)


@pytest.mark.parametrize(
    ("name", "mode"), [("diminished, step first", "M2"), ("diminished, half step first", "m2")]
)
def test_a_diminished_scale_is_that_of_music21(name, mode):
    """Its notes are those of music21.scale.OctatonicScale."""
    assert _sounds(name) == _music21(m21_scale.OctatonicScale("C4", mode))


@pytest.mark.parametrize(
    ("name", "known"),
    [
        ("major pentatonic", "major pentatonic"),
        ("minor pentatonic", "major pentatonic"),  # the same set, begun on its 6
        ("blues", "blues scale"),
    ],
)
def test_a_scale_of_five_or_six_is_known_to_music21(name, known):
    """music21's table of pitch sets, after Forte, calls it so."""
    assert m21_chord.Chord(_sounds(name)).commonName == known


def test_the_minor_pentatonic_begins_on_the_6_of_the_major_one():
    """Which tells the two apart, as the table of pitch sets does not."""
    assert _sounds("minor pentatonic") == sorted((sound + 3) % 12 for sound in _sounds("major pentatonic"))


def test_every_scale_is_checked():
    """No scale of the table is without a check above, and every row of the table names one."""
    checked = {*AS_MUSIC21, *AS_MODES, "diminished, step first", "diminished, half step first"}
    assert checked | {"major pentatonic", "minor pentatonic", "blues"} == set(SCALES)
    named = {offer.scale for offers in (*BY_PLACE.values(), *BY_KIND.values()) for offer in offers}
    assert named <= {*SCALES, "pentatonic"}


@pytest.mark.parametrize(
    ("number", "key", "minor", "names"),
    [
        ("1", "G", "from-six", "G major pentatonic | G major"),
        ("4", "G", "from-six", "C major pentatonic | G major pentatonic | C lydian"),
        ("57", "G", "from-six", "D mixolydian | D major pentatonic | G blues"),
        ("17", "G", "from-six", "G mixolydian | G major pentatonic | G blues"),
        ("2-", "G", "from-six", "A minor pentatonic | A dorian | G major pentatonic"),
        ("6-", "G", "from-six", "E minor pentatonic | E aeolian | E blues | E dorian"),
        ("7ø7", "G", "from-six", "F# locrian | F# locrian with a 2"),
        ("7o7", "G", "from-six", "F# diminished, step first"),
        ("5+", "G", "from-six", "D whole-tone | D lydian with a #5"),
        ("5sus", "G", "from-six", "D mixolydian | G major pentatonic"),
        ("1-", "Am", "from-one", "A minor pentatonic | A aeolian | A blues | A dorian"),
        ("4-", "Am", "natural", "D minor pentatonic | D dorian | A minor pentatonic"),
        ("37", "Am", "from-six", "E phrygian with a 3 | E mixolydian"),
        ("57", "Am", "from-one", "E phrygian with a 3 | E mixolydian"),
        ("1", "D mixolydian", "from-six", "D major pentatonic | D mixolydian"),
        ("1-maj7", "Am", "from-one", "A melodic minor | A harmonic minor"),  # blues has the other seventh
        ("1-", "D dorian", "from-six", "D minor pentatonic | D dorian"),
        ("b7", "D mixolydian", "from-six", "C major pentatonic | D major pentatonic | C lydian"),
    ],
)
def test_scales_by_chord_and_place(number, key, minor, names):
    """The table's advice for the usual chords, best first; common practice, no source."""
    told = scales(*in_key(number, key, minor))
    assert [f"{each.start} {each.name}" for each in told] == names.split(" | ")


@pytest.mark.parametrize(
    ("number", "scale", "degrees", "above"),
    [
        ("57", "mixolydian", "5 6 7 1 2 3 4", "1 2 3 4 5 6 b7"),
        ("4", "lydian", "4 5 6 7 1 2 3", "1 2 3 #4 5 6 7"),
        ("6-", "minor pentatonic", "6 1 2 3 5", "1 b3 4 5 b7"),
    ],
)
def test_degrees_are_counted_from_the_key_and_from_the_chord(number, scale, degrees, above):
    """Both countings of one scale, note by note."""
    (told,) = (each for each in scales(*in_key(number)) if each.name == scale)
    assert " ".join(str(note.degree) for note in told.notes) == degrees
    assert " ".join(str(note.above) for note in told.notes) == above


@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("1", "G major. Pass through 4."),
        ("5", "D mixolydian. Pass through 1 (the 4 of D)."),
        ("3-", "B phrygian. Pass through 4 (the b2 of B) and 1 (the b6 of B)."),
        ("17", "G blues. Slide through b3 and b5."),
        ("5sus", "D mixolydian. Pass through 7 (the 3 of D)."),
        ("57sus", "D mixolydian. Pass through 7 (the 3 of D)."),  # its 6 is the 13 that players add
        ("2-", "A dorian."),
    ],
)
def test_what_to_handle_with_care(number, words):
    """A scale's words name the notes to pass through; common practice, no source."""
    assert words in [each.words for each in scales(*in_key(number))]


def test_the_three_numberings_give_one_advice():
    """The same sound has the same scales, whatever a minor song calls it."""
    for asked in (
        ("6-", "1-", "1-"),
        ("3", "5", "5"),
        ("4", "b6", "6"),
        ("27", "47", "47"),
        ("7ø7", "2ø7", "2ø7"),
    ):
        told = [
            [(each.start, each.name) for each in scales(*in_key(number, "Em", minor))]
            for number, minor in zip(asked, ("from-six", "from-one", "natural"), strict=True)
        ]
        assert told[0] == told[1] == told[2]


def test_a_chord_that_no_scale_fits_has_its_own_tones():
    """Rather than a scale that contradicts it."""
    (told,) = scales(*in_key("1maj7(#5 b9)"))
    assert told.words == "The chord's own tones."
    assert " ".join(str(note.degree) for note in told.notes) == "1 3 #5 7 b2"


@given(number_chords(), keys(), numberings())
def test_a_scale_never_contradicts_its_chord(chord, key, numbering):
    """Seven notes hold every tone of the chord by sound; what needs care is no chord tone."""
    tones = {(chord.root.semitones + tone.semitones) % 12 for tone in chord.quality.tones}
    told = scales(chord, key, numbering)
    assert 1 <= len(told) <= 4
    for each in told:
        assert not any(note.care and note.in_chord for note in each.notes)
        assert len({note.degree.semitones for note in each.notes}) == len(each.notes)
        if len({note.degree.step for note in each.notes}) == 7:
            assert tones <= {note.degree.semitones for note in each.notes}


@given(number_chords(), keys(), numberings(), st.integers(-7, 7))
def test_moving_the_key_keeps_the_degrees(chord, key, numbering, fifths):
    """The same numbers in another key have the same scales and approach notes."""
    moved = Key(NoteName(key.tonic.fifths + fifths), key.mode)
    there, here = scales(chord, moved, numbering), scales(chord, key, numbering)
    assert [each.name for each in there] == [each.name for each in here]
    assert [[(n.degree, n.above, n.care) for n in each.notes] for each in there] == [
        [(n.degree, n.above, n.care) for n in each.notes] for each in here
    ]
    assert approaches(chord, moved, numbering) == approaches(chord, key, numbering)


@given(qualities())
def test_every_quality_is_of_a_kind(quality):
    """There is a row of the table for whatever stands on a root."""
    assert BY_KIND[chord_kind(quality)]


@pytest.mark.parametrize(
    ("number", "told"),
    [
        ("1", "1: 7 2 | 3: #2 4 | 5: #4 6"),
        ("1-", "1: 7 2 | b3: 2 4 | 5: #4 6"),  # above b3 the 4, not the 3
        ("27", "2: #1 3 | #4: 4 5 | 6: #5 7 | 1: 7 2"),
    ],
)
def test_approach_notes(number, told):
    """A half step below, the scale's step above; common practice, no source."""
    assert [
        f"{each.target}: {each.below} {each.above}" for each in approaches(*in_key(number))
    ] == told.split(" | ")
    assert approaches(*in_key("1"))[1].words == "To 3: #2 from below, 4 from above"


@given(number_chords(), keys(), numberings())
def test_approach_notes_lie_beside_their_tone(chord, key, numbering):
    """The lower one a half step below, the upper one a step or a half step above and in the key's scale."""
    scale = {degree.semitones for degree in numbering.scale(key)}
    for each in approaches(chord, key, numbering):
        assert (each.target.semitones - each.below.semitones) % 12 == 1
        assert (each.above.semitones - each.target.semitones) % 12 in (1, 2)
        assert each.above.semitones in scale
