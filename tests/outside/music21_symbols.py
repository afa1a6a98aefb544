"""Our letter chords as chord symbols of music21, by kind and as text in its own notation."""

from music21 import harmony

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
STEPS = {"no3": "subtract", "no5": "subtract", "b5": "alter", "#5": "alter"}


def chord_symbol(chord):
    """Build the symbol of a chord in root position from its kind and the changes to that."""
    kind, changes = _parts(chord.quality)
    symbol = harmony.ChordSymbol(root=m21_name(chord.root), kind=kind)
    for left, change in zip(range(len(changes))[::-1], changes, strict=True):
        step = harmony.ChordStepModification(STEPS.get(change, "add"), *_degree(change))
        symbol.addChordStepModification(step, updatePitches=left == 0)
    return symbol


def figure(chord):
    """Write a chord as text in music21's notation, where Bb is ``B-``."""
    kind, changes = _parts(chord.quality)
    words = {"no3": "omit3", "no5": "omit5", "b5": "alterb5", "#5": "alter#5", "maj7": "add7"}
    shown = "".join(words.get(change, f"add{change.removeprefix('add')}") for change in changes)
    bass = "" if chord.bass is None else f"/{m21_name(chord.bass)}"
    return f"{m21_name(chord.root)}{harmony.CHORD_TYPES[kind][1][0]}{shown}{bass}"


def note_names(symbol):
    """The names of a symbol's notes, in our notation."""
    return {pitch.name.replace("-", "b") for pitch in symbol.pitches}


def m21_name(note):
    """Write a note name in music21's notation."""
    return str(note).replace("b", "-")


def _parts(quality):
    """The kind, and all that is added to it, left out or altered."""
    parts = (quality.triad, quality.base)
    kind, added = (KINDS[parts], "") if parts in KINDS else COMPOSED[parts]
    return kind, [*added.split(), *quality.changes]


def _degree(change):
    """A change's degree and alteration; added degrees are those of the major scale."""
    name = "7" if change == "maj7" else change.removeprefix("add").removeprefix("no")
    return int(name.lstrip("b#")), name.count("#") - name.count("b")
