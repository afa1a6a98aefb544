import pytest
from hypothesis import given

from fifthwise.theory import interval_name, quality_text, quality_tones, read_note, write_letters
from tests.harte import (
    bar_metre,
    every_label,
    number_text,
    pop_songs,
    quality_of,
    read_harte,
    song_labels,
    write_harte,
)
from tests.strategies import letter_chords, qualities


@given(qualities())
def test_a_quality_is_found_again_by_its_notes(quality):
    """Searching by a quality's notes gives one with just those notes, and no more changes."""
    places = frozenset(tone.fifths for tone in quality_tones(quality))
    found = quality_of(places)
    assert frozenset(tone.fifths for tone in quality_tones(found)) == places
    assert len(found.changes) <= len(quality.changes)


@given(letter_chords())
def test_a_label_written_is_read_again(chord):
    """The notes, the root and the bass come back; the quality may have a shorter name."""
    back = read_harte(write_harte(chord))
    bass = None if chord.bass == chord.root else chord.bass
    assert (back.root, back.bass) == (chord.root, bass)
    assert {t.fifths for t in quality_tones(back.quality)} == {t.fifths for t in quality_tones(chord.quality)}


@pytest.mark.parametrize(
    ("label", "quality", "tones"),
    [
        ("C:1", "(no3 no5)", "1"),
        ("C:5", "(5)", "1 5"),
        ("C:5(b7)", "7(no3)", "1 5 b7"),
        ("C:1(b3,b7,11,9)", "-11(no5)", "1 b3 b7 9 11"),
        ("C:maj6(b7)", "7(add13)", "1 3 5 b7 13"),
        ("C:maj6(9)", "69", "1 3 5 6 9"),
        ("C:sus4(b7,9)", "9sus", "1 4 5 b7 9"),
        ("C:sus4(b7,9,13)", "9sus(add13)", "1 4 5 b7 9 13"),
        ("C:sus2(b7)", "sus2(b7)", "1 2 5 b7"),
        ("C:min7(*5)", "-7(no5)", "1 b3 b7"),
        ("C:dim7", "o7", "1 b3 b5 bb7"),
        ("C", "", "1 3 5"),
        ("C:(3,5)", "", "1 3 5"),
    ],
)
def test_labels_have_their_qualities(label, quality, tones):
    """Whatever set of notes a label lists has the shortest name that we can write.

    Source of the notes: Harte et al., ISMIR 2005; of ``1`` and ``5``: Burgoyne et al., ISMIR 2011.
    """
    chord = read_harte(label)
    assert quality_text(chord.quality) == quality
    assert " ".join(map(interval_name, quality_tones(chord.quality))) == tones


def test_a_label_counts_its_bass_from_the_root_and_a_number_from_the_key():
    """In G the chord D:maj/3 is 5/7.

    Source for the label: Harte et al., ISMIR 2005; for the number common practice.
    """
    assert write_letters(read_harte("D:maj/3")) == "D/F#"
    assert number_text("D:maj/3", read_note("G")) == "5/7"


@pytest.mark.parametrize("label", ["N", "*", "&pause", "X"])
def test_some_labels_have_no_chord(label):
    """They are NC in a number chart."""
    assert read_harte(label) is None
    assert number_text(label, read_note("C")) == "NC"


def test_notes_that_no_quality_has_are_refused():
    """A chord with both thirds is not ours to name."""
    with pytest.raises(LookupError, match="no quality has the notes"):
        read_harte("C:min(3)")


def test_there_are_370_songs_with_their_labels():
    """The songs are all there; 698 labels differ, of which three have no chord."""
    assert len(pop_songs()) == 370
    assert all(tonic for song in pop_songs() for tonic, _ in song_labels(song))
    assert len(every_label()) == 698
    assert sum(read_harte(label) is None for label in every_label()) == 3
    assert [bar_metre(token) for token in ("(2/4)", "C:maj/3", ".")] == ["2/4", None, None]
