import pytest
from hypothesis import given
from hypothesis import strategies as st

from fifthwise.theory import (
    MODES,
    Key,
    KeyFault,
    in_fewest_accidentals,
    move_key,
    note_of,
    read_key,
    read_note,
    same_sound_keys,
)
from tests.strategies import keys

# The circle of fifths, from seven flats to seven sharps. Common practice, no source.
MAJORS = ["Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#"]
MINORS = ["Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#", "C#", "G#", "D#", "A#"]


@given(keys())
def test_a_key_written_is_read_again(key):
    """The long name and the name called on stage are both read as the key."""
    assert read_key(str(key)) == key
    assert read_key(key.short) == key


@given(keys())
def test_a_scale_has_the_seven_steps_and_the_notes_of_the_signature(key):
    """Each letter occurs once, altered as the signature says, the tonic first."""
    notes = [note_of(degree, key.tonic) for degree in key.scale]
    assert [degree.step for degree in key.scale] == [1, 2, 3, 4, 5, 6, 7]
    assert notes[0] == key.tonic
    assert sum(note.alter for note in notes) == key.signature
    assert len({note.letter for note in notes}) == 7


@given(keys(), st.integers(-24, 24))
def test_moving_a_key_there_and_back_sounds_the_same(key, semitones):
    """The spelling may change to the simplest one, the sound does not."""
    back = move_key(move_key(key, semitones), -semitones)
    assert back.tonic.pitch_class == key.tonic.pitch_class
    assert back == in_fewest_accidentals(key)


@given(keys(), st.integers(-24, 24), st.booleans())
def test_a_moved_key_is_so_many_semitones_higher_and_at_most_six_accidentals(key, semitones, sharps):
    """The mode is kept and the signature is one that is played from."""
    moved = move_key(key, semitones, sharps=sharps)
    assert (moved.tonic.pitch_class - key.tonic.pitch_class - semitones) % 12 == 0
    assert moved.mode == key.mode
    assert abs(moved.signature) <= 6


@given(keys())
def test_keys_of_the_same_sound_are_all_spellings_with_seven_accidentals_at_most(key):
    """The key itself is among them, and the first has the fewest accidentals."""
    spellings = same_sound_keys(key)
    assert key in spellings
    assert {k.tonic.pitch_class for k in spellings} == {key.tonic.pitch_class}
    sizes = [abs(k.signature) for k in spellings]
    assert sizes == sorted(sizes)
    assert max(sizes) <= 7
    assert sizes[0] == abs(in_fewest_accidentals(key).signature)


@pytest.mark.parametrize(("tonic", "signature"), list(zip(MAJORS, range(-7, 8), strict=True)))
def test_major_keys_have_their_signatures(tonic, signature):
    """Seven flats to seven sharps. Common practice, no source."""
    assert read_key(tonic).signature == signature


@pytest.mark.parametrize(("tonic", "signature"), list(zip(MINORS, range(-7, 8), strict=True)))
def test_minor_keys_have_their_signatures(tonic, signature):
    """Each shares its signature with the major key three semitones higher. Common practice, no source."""
    key = read_key(f"{tonic}m")
    assert key.signature == signature
    assert str(key.relative_major) == MAJORS[signature + 7]


@pytest.mark.parametrize(
    "name",
    ["C ionian", "D dorian", "E phrygian", "F lydian", "G mixolydian", "A aeolian", "B locrian", "A minor"],
)
def test_the_modes_of_the_white_keys_have_no_accidentals(name):
    """Each mode starts on its own white key. Common practice, no source."""
    key = read_key(name)
    assert key.signature == 0
    assert {note_of(degree, key.tonic).alter for degree in key.scale} == {0}


@pytest.mark.parametrize(
    ("name", "degrees"),
    [
        ("C", "1 2 3 4 5 6 7"),
        ("F#m", "1 2 b3 4 5 b6 b7"),
        ("D dorian", "1 2 b3 4 5 6 b7"),
        ("E phrygian", "1 b2 b3 4 5 b6 b7"),
        ("Bb lydian", "1 2 3 #4 5 6 7"),
        ("D mixolydian", "1 2 3 4 5 6 b7"),
        ("B locrian", "1 b2 b3 4 b5 b6 b7"),
    ],
)
def test_modes_have_their_degrees(name, degrees):
    """Modes count from their own tonic, with real alterations. Common practice, no source."""
    assert " ".join(map(str, read_key(name).scale)) == degrees


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("Eb", "Eb"),
        ("E♭", "Eb"),
        (" eb major ", "Eb"),
        ("C maj", "C"),
        ("CM", "C"),
        ("Am", "A minor"),
        ("A-", "A minor"),
        ("A MINOR", "A minor"),
        ("F# minor", "F# minor"),
        ("f♯min", "F# minor"),
        ("D mixo", "D mixolydian"),
        ("D Dorian", "D dorian"),
        ("Cb", "Cb"),
        ("G#m", "G# minor"),
    ],
)
def test_keys_are_read_as_musicians_write_them(text, name):
    """Case, blanks, signs and short words do not matter."""
    assert str(read_key(text)) == name


def test_a_small_m_is_minor_and_a_capital_one_major():
    """The one place where case tells."""
    assert read_key("Cm").is_minor
    assert not read_key("CM").is_minor
    assert not read_key("C aeolian").is_minor


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("H", r"'H' is no key\. Write a tonic and a mode, as in 'Eb', 'F#m' or 'D dorian'\."),
        ("", r"'' is no key"),
        ("G#", r"'G#' would have 8 sharps\. Write Ab\."),
        ("Fb", r"'Fb' would have 8 flats\. Write E\."),
        ("E# minor", r"'E# minor' would have 8 sharps\. Write F minor\."),
        ("D mixolidian", r"'D mixolidian' has no mode 'mixolidian'\. Did you mean 'mixolydian'\?$"),
        ("D purple", r"'D purple' has no mode 'purple'\. Write major, minor or a mode, as in 'D dorian'\."),
    ],
)
def test_what_is_no_key_is_refused_with_the_mend(text, message):
    """A near miss names its neighbour, a key with too many accidentals its simple spelling."""
    with pytest.raises(KeyFault, match=message):
        read_key(text)


@pytest.mark.parametrize(
    ("name", "names"),
    [
        ("F#", ["F#", "Gb"]),
        ("Gb", ["F#", "Gb"]),
        ("Db", ["Db", "C#"]),
        ("B", ["B", "Cb"]),
        ("C", ["C"]),
        ("D# minor", ["D# minor", "Eb minor"]),
        ("G# minor", ["G# minor", "Ab minor"]),
    ],
)
def test_keys_that_sound_the_same_are_offered_together(name, names):
    """At six accidentals there are two good spellings. Common practice, no source."""
    assert [str(key) for key in same_sound_keys(read_key(name))] == names


def test_a_tie_at_six_takes_flats_unless_sharps_are_asked():
    """Up a step from E is F# or Gb."""
    assert str(move_key(read_key("E"), 2)) == "Gb"
    assert str(move_key(read_key("E"), 2, sharps=True)) == "F#"


def test_a_call_down_a_fourth_goes_round_the_cycle_and_comes_home():
    """Each step of the cycle moves the root up a fourth; twelve return.

    Common practice, no source: C F Bb Eb Ab Db Gb B E A D G.
    """
    key, called = read_key("C"), []
    for _ in range(12):
        called.append(str(key))
        key = move_key(key, 5)
    assert called == ["C", "F", "Bb", "Eb", "Ab", "Db", "Gb", "B", "E", "A", "D", "G"]
    assert key == read_key("C")


def test_a_key_is_its_tonic_and_its_mode():
    """Keys with one signature are still different keys."""
    assert Key(read_note("A"), "minor") != Key(read_note("A"), "aeolian")
    assert set(MODES) >= {"major", "minor", "dorian", "mixolydian"}
