"""Our chords against the chord symbols of music21.

Cuthbert and Ariza, "music21: A Toolkit for Computer-Aided Musicology and Symbolic Music Data", ISMIR 2010.
Its kinds are those of MusicXML; changes are added to a kind as MusicXML's degrees. Names are compared, so
spelling counts.
"""

import pytest
from music21 import harmony

from fifthwise.theory import LetterChord, NoteName, chord_notes, quality_text
from tests.strategies import every_quality

TONICS = [NoteName(fifths) for fifths in range(-7, 8)]
KINDS = {
    ("", ""): "major",
    ("-", ""): "minor",
    ("o", ""): "diminished",
    ("+", ""): "augmented",
    ("", "6"): "major-sixth",
    ("-", "6"): "minor-sixth",
    ("", "7"): "dominant-seventh",
    ("-", "7"): "minor-seventh",
    ("o", "7"): "diminished-seventh",
    ("ø", "7"): "half-diminished-seventh",
    ("+", "7"): "augmented-seventh",
    ("", "maj7"): "major-seventh",
    ("-", "maj7"): "minor-major-seventh",
    ("+", "maj7"): "augmented-major-seventh",
    ("", "9"): "dominant-ninth",
    ("-", "9"): "minor-ninth",
    ("o", "9"): "diminished-ninth",
    ("ø", "9"): "half-diminished-ninth",
    ("+", "9"): "augmented-dominant-ninth",
    ("", "maj9"): "major-ninth",
    ("-", "maj9"): "minor-major-ninth",
    ("+", "maj9"): "augmented-major-ninth",
    ("", "11"): "dominant-11th",
    ("-", "11"): "minor-11th",
    ("o", "11"): "diminished-11th",
    ("ø", "11"): "half-diminished-11th",
    ("+", "11"): "augmented-11th",
    ("", "maj11"): "major-11th",
    ("-", "maj11"): "minor-major-11th",
    ("+", "maj11"): "augmented-major-11th",
    ("", "13"): "dominant-13th",
    ("-", "13"): "minor-13th",
    ("ø", "13"): "half-diminished-13th",
    ("+", "13"): "augmented-dominant-13th",
    ("", "maj13"): "major-13th",
    ("-", "maj13"): "minor-major-13th",
    ("+", "maj13"): "augmented-major-13th",
    ("", "sus"): "suspended-fourth",
    ("", "sus2"): "suspended-second",
    ("", "7sus"): "suspended-fourth-seventh",
}
# What has no kind there, as the nearest kind and what is added to it.
COMPOSED = {
    ("", "69"): ("major-sixth", "9"),
    ("-", "69"): ("minor-sixth", "9"),
    ("o", "6"): ("diminished", "6"),
    ("o", "69"): ("diminished", "6 9"),
    ("o", "maj7"): ("diminished", "7"),
    ("o", "maj9"): ("diminished", "7 9"),
    ("o", "maj11"): ("diminished", "7 9 11"),
    ("o", "maj13"): ("diminished", "7 9 11 13"),
    ("o", "13"): ("diminished-seventh", "9 11 13"),
    ("+", "6"): ("augmented", "6"),
    ("+", "69"): ("augmented", "6 9"),
    ("", "9sus"): ("suspended-fourth-seventh", "9"),
}
LOST = "music21 adds no altered 9, 11 or 13 to a kind that holds the natural one: the note is missing"
ASIDE = "music21 leaves out or alters another note than the one named, where a kind's notes are out of order"
DIFFERENCES = {
    LOST: {
        "b9 #9": "9 -9 o9 ø9 +9 maj9 -maj9 +maj9",
        "b9 #9 b11 #11": "11 -11 o11 ø11 +11 maj11 -maj11 +maj11",
        "b9 #9 b11 #11 b13 #13": "13 -13 ø13 +13 maj13 -maj13 +maj13",
    },
    ASIDE: {
        "#5 no5": "-maj9 -maj11 -maj13",
        "no3 no5": "o9 o11",
        "no3": "+9 +maj9 +11 +maj11 +13 +maj13",
    },
}
REASON = {
    f"{base}({change})": reason
    for reason, table in DIFFERENCES.items()
    for changes, bases in table.items()
    for change in changes.split()
    for base in bases.split()
}


def their_notes(chord):
    """The note names that music21 gives a chord."""
    parts = (chord.quality.triad, chord.quality.base)
    kind, added = (KINDS[parts], "") if parts in KINDS else COMPOSED[parts]
    symbol = harmony.ChordSymbol(root=str(chord.root).replace("b", "-"), kind=kind)
    changes = [*added.split(), *chord.quality.changes]
    for left, change in zip(range(len(changes))[::-1], changes, strict=True):
        step = harmony.ChordStepModification(*_step(change))
        symbol.addChordStepModification(step, updatePitches=left == 0)
    return {pitch.name.replace("-", "b") for pitch in symbol.pitches}


def _step(change):
    """A change as music21 counts it: added degrees are those of the major scale."""
    kind = {"no3": "subtract", "no5": "subtract", "b5": "alter", "#5": "alter"}.get(change, "add")
    name = "7" if change == "maj7" else change.removeprefix("add").removeprefix("no")
    return kind, int(name.lstrip("b#")), name.count("#") - name.count("b")


@pytest.mark.parametrize("quality", every_quality(1), ids=quality_text)
def test_every_quality_is_spelled_the_same(quality):
    """Every triad and base with up to one change, on all 15 major tonics, but for the differences listed."""
    chords = [LetterChord(tonic, quality) for tonic in TONICS]
    same = [their_notes(chord) == {str(note) for note in chord_notes(chord)} for chord in chords]
    if quality_text(quality) in REASON:
        assert not any(same), "this difference is gone: take it from the table"
    else:
        assert all(same)


def test_the_differences_are_of_chords_that_exist():
    """No line of the table is left over."""
    texts = {quality_text(quality) for quality in every_quality(1)}
    assert set(REASON) <= texts
    assert len(REASON) == 106
