"""Roman numerals of published analyses beside music21's reading of them.

Read where music21 is installed, never copied: 20 chorales analysed in the RomanText format (Tymoczko, Gotham,
Cuthbert and Ariza, ISMIR 2019), and 6 songs in that of de Clercq and Temperley, "A corpus analysis of rock
harmony", Popular Music 30 (2011), which stand in ``music21.romanText.clercqTemperley``.
"""

import functools

import pytest

from fifthwise.theory import (
    LetterChord,
    Numbering,
    chord_notes,
    pitch_classes,
    read_key,
    read_roman,
    to_letters,
)

CHORALES = range(1, 21)
SONGS = (
    "BlitzkriegBopCT", "RockClockCT", "textString", "changeIsGonnaCome", "exampleClercqTemperley",
    "RingFireCT",
)  # fmt: skip
# Where we differ, and why.
DIFFERENCES = {
    # The Italian sixth is a b67 without its fifth: the same sound and bass, C# spelled as Db, and music21's
    # root is the note that leads up to 5.
    ("It6", "minor"): "spelled as b67(no5)",
    # The flat seven with a major seventh; music21 makes D and C# alone of it.
    ("bVII7[maj7]", "major"): "music21 leaves the third and the fifth out",
}


@functools.cache
def numerals():
    """Every numeral of the analyses, as music21 reads them."""
    from music21 import corpus
    from music21.roman import RomanNumeral
    from music21.romanText import clercqTemperley

    chorales = [corpus.parse(f"bach/choraleAnalyses/riemenschneider{n:03}.rntxt") for n in CHORALES]
    songs = [clercqTemperley.CTSong(getattr(clercqTemperley, name)).toPart() for name in SONGS]
    return [
        [numeral for score in scores for numeral in score.recurse().getElementsByClass(RomanNumeral)]
        for scores in (chorales, songs)
    ]


def our_name(name):
    """A note as we write it; music21 writes flats as ``-``."""
    return name.replace("-", "b")


def both(numeral):
    """Root, bass and notes, ours and music21's."""
    key = read_key(our_name(numeral.key.tonic.name) + (" minor" if numeral.key.mode == "minor" else ""))
    chord = to_letters(read_roman(numeral.figure, key, Numbering("from-one")), key.tonic)
    notes = frozenset(map(str, chord_notes(LetterChord(chord.root, chord.quality))))
    ours = (str(chord.root), str(chord.bass or chord.root), notes)
    theirs = (numeral.root().name, numeral.bass().name, frozenset(our_name(p.name) for p in numeral.pitches))
    return ours, (our_name(theirs[0]), our_name(theirs[1]), theirs[2]), chord


@pytest.mark.parametrize(("kind", "count"), [(0, 1155), (1, 508)], ids=["chorales", "songs"])
def test_roots_basses_and_notes_are_those_of_music21(kind, count):
    """Each numeral has them, but for the differences that are named above."""
    found = numerals()[kind]
    assert len(found) == count
    different = set()
    for numeral in found:
        ours, theirs, _ = both(numeral)
        if ours != theirs:
            different.add((numeral.figure, numeral.key.mode))
    assert different == (set(DIFFERENCES) if kind == 0 else set())


def test_the_italian_sixth_sounds_the_same():
    """Only its spelling differs."""
    (numeral,) = [each for each in numerals()[0] if each.figure == "It6"]
    _, _, chord = both(numeral)
    assert pitch_classes(chord) == {pitch.pitchClass for pitch in numeral.pitches}
    assert our_name(numeral.bass().name) == str(chord.bass or chord.root)
