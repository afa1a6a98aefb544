import pytest
from hypothesis import given

from fifthwise.theory import Key, NoteName, read_key
from fifthwise.voice import band_terms, strings_in_key
from tests.strategies import keys

GUITAR_SHAPES = {"major": {"G": 7, "C": 0, "D": 2, "A": 9, "E": 4}, "minor": {"Am": 9, "Em": 4, "Dm": 2}}


@pytest.mark.parametrize(
    ("key", "strings"),
    [
        ("G", "G C D"),
        ("D", "D G A"),
        ("A", "A D E"),
        ("E", "E A"),
        ("C", "C G"),
        ("F", "C"),
        ("Bb", ""),
        ("Eb", ""),
        ("Gb", ""),
        ("Am", "A D E"),
        ("Gm", "G C D"),
    ],
)
def test_roots_of_1_4_5_that_are_open_strings(key, strings):
    """The tonic first, then 4 and 5, of C G D A E.

    Source: the tuning of violin (G D A E), viola and cello (C G D A).
    """
    assert [str(note) for note in band_terms(read_key(key)).open_strings] == strings.split()


@pytest.mark.parametrize(
    ("key", "capo", "shape"),
    [
        ("G", 0, "G"),
        ("Ab", 1, "G"),
        ("Bb", 1, "A"),
        ("B", 2, "A"),
        ("F#", 2, "E"),
        ("Eb", 1, "D"),
        ("Cm", 3, "Am"),
        ("G#m", 4, "Em"),
    ],
)
def test_the_lowest_capo_with_an_open_shape(key, capo, shape):
    """Capo 1 with G shapes sounds in Ab.

    Source: common practice; each fret is a half step.
    """
    terms = band_terms(read_key(key))
    assert (terms.capo, terms.shape) == (capo, shape)


@given(keys())
def test_no_lower_capo_gives_an_open_shape(key):
    """Trying every fret below finds no shape."""
    terms = band_terms(key)
    third = next(degree for degree in key.scale if degree.step == 3)
    shapes = GUITAR_SHAPES["minor" if third.semitones == 3 else "major"]
    sounding = {name: (place + terms.capo) % 12 for name, place in shapes.items()}
    assert sounding[terms.shape] == key.tonic.pitch_class
    assert not [fret for fret in range(terms.capo) if (key.tonic.pitch_class - fret) % 12 in shapes.values()]


@pytest.mark.parametrize(
    ("key", "written"),
    [
        ("Bb", {"Bb": ("C", 0), "Eb": ("G", 1), "F": ("F", 1)}),
        ("C", {"Bb": ("D", 2), "Eb": ("A", 3), "F": ("G", 1)}),
        ("E", {"Bb": ("F#", 6), "Eb": ("Db", 5), "F": ("B", 5)}),
        ("Am", {"Bb": ("Bm", 2), "Eb": ("F#m", 3), "F": ("Em", 1)}),
    ],
)
def test_horns_read_their_own_key(key, written):
    """A trumpet in Bb reads a whole step up, an alto in Eb a sixth, a horn in F a fifth.

    Source: what transposing instruments are, common practice.
    """
    horns = band_terms(read_key(key)).horns
    assert {horn.instrument: (horn.key.short, horn.accidentals) for horn in horns} == written


@given(keys())
def test_a_horn_sounds_the_key_of_the_band(key):
    """The written tonic sounds on the key's tonic: C on a Bb instrument sounds Bb."""
    for horn in band_terms(key).horns:
        c_sounds = {"Bb": 10, "Eb": 3, "F": 5}[horn.instrument]
        assert (horn.key.tonic.pitch_class + c_sounds) % 12 == key.tonic.pitch_class
        assert horn.accidentals <= 6


def test_handier_keys_rank_before_others():
    """D before Eb (open strings); Ab (capo 1) before Gb (capo 2), neither having an open string."""
    d, eb, ab, gb = (band_terms(read_key(name)).tie_rank for name in ("D", "Eb", "Ab", "Gb"))
    assert d < eb
    assert ab < gb
    assert band_terms(Key(NoteName(2))).tie_rank == d


@pytest.mark.parametrize(
    ("key", "inside"),
    [
        ("C", "C G D A E"),
        ("D", "G D A E"),
        ("Bb", "C G D A"),
        ("B", "E"),
        ("Gb", ""),
        ("Am", "C G D A E"),
        ("E dorian", "G D A E"),
    ],
)
def test_the_open_strings_that_are_in_a_key(key, inside):
    """Those of C G D A E that the key's scale has. Counted from the keys' signatures."""
    found = [str(string) for string, is_inside in strings_in_key(read_key(key)) if is_inside]
    assert " ".join(found) == inside
