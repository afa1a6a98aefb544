"""Chord labels in Harte's syntax, read as letter chords and written from them; and songs made of such labels.

Harte, Sandler, Abdallah and Gómez, "Symbolic Representation of Musical Chords", ISMIR 2005: a root, a
shorthand, a list of degrees added to it (``*`` takes one away), and after ``/`` a bass counted from the root,
all degrees of the major scale. The eleventh and thirteenth chords, ``sus2``, ``1`` and ``5`` are those of
Burgoyne, Wild and Fujinaga, ISMIR 2011, whose songs stand in ``tests/data``.
"""

import functools
import itertools
import json
import re
from pathlib import Path

from fifthwise.theory import (
    ChordFault,
    Degree,
    LetterChord,
    NoteName,
    interval_name,
    make_quality,
    quality_tones,
    read_degree,
    read_note,
    to_number,
    write_number,
)
from fifthwise.theory.quality import BASES, ORDER, SEVENTHS, SUSPENDED, TRIADS

POP_SONGS = Path(__file__).parent / "data" / "pop-chords-cc0.json"
NO_CHORD = ("N", "X", "*", "&pause")
SHORTHANDS = {
    "": "",
    "1": "",
    "5": "5",
    "maj": "3,5",
    "min": "b3,5",
    "dim": "b3,b5",
    "aug": "3,#5",
    "maj6": "3,5,6",
    "min6": "b3,5,6",
    "7": "3,5,b7",
    "maj7": "3,5,7",
    "min7": "b3,5,b7",
    "minmaj7": "b3,5,7",
    "dim7": "b3,b5,bb7",
    "hdim7": "b3,b5,b7",
    "9": "3,5,b7,9",
    "maj9": "3,5,7,9",
    "min9": "b3,5,b7,9",
    "11": "3,5,b7,9,11",
    "min11": "b3,5,b7,9,11",
    "13": "3,5,b7,9,11,13",
    "maj13": "3,5,7,9,11,13",
    "min13": "b3,5,b7,9,11,13",
    "sus2": "2,5",
    "sus4": "4,5",
}
LABEL = re.compile(r"([A-G][b#]*)(?::([a-z0-9]*)(?:\(([^)]*)\))?)?(?:/([b#]*\d+))?\Z")
METRE = re.compile(r"\((\d+/\d+)\)\Z")
DEGREE = re.compile(r"([b#]*)(\d+)\Z")
# The shorthand of each triad and base that has one. A 7sus or 69 is written with its degrees.
SHORTHAND_OF = {
    ("", ""): "maj",
    ("-", ""): "min",
    ("o", ""): "dim",
    ("+", ""): "aug",
    ("", "6"): "maj6",
    ("-", "6"): "min6",
    ("", "7"): "7",
    ("", "maj7"): "maj7",
    ("-", "7"): "min7",
    ("-", "maj7"): "minmaj7",
    ("o", "7"): "dim7",
    ("ø", "7"): "hdim7",
    ("", "9"): "9",
    ("", "maj9"): "maj9",
    ("-", "9"): "min9",
    ("", "11"): "11",
    ("-", "11"): "min11",
    ("", "13"): "13",
    ("", "maj13"): "maj13",
    ("-", "13"): "min13",
    ("", "sus2"): "sus2",
    ("", "sus"): "sus4",
}


def degree_place(text):
    """Give the place on the line of fifths of a degree such as ``b7``, ``13`` or ``bb13``."""
    signs, number = DEGREE.match(text).groups()
    step = (int(number) - 1) % 7 + 1
    return read_degree(str(step)).fifths + 7 * (signs.count("#") - signs.count("b"))


EVERY_BASE = tuple(
    (triad, base)
    for triad, base in itertools.product(TRIADS, BASES)
    if not (triad and base in SUSPENDED) and (triad != "ø" or base in SEVENTHS)
)
ADDED = {
    degree_place("7" if change == "maj7" else change.removeprefix("add")): change
    for change in ORDER
    if not change.startswith("no")
}


def read_harte(label):
    """Read a label as a letter chord; ``None`` where there is no chord.

    Raises
    ------
    LookupError
        No quality of ours has the label's notes.
    """
    if label in NO_CHORD:
        return None
    root_text, shorthand, changes, bass_text = LABEL.match(label).groups()
    root = read_note(root_text)
    quality = quality_of(harte_places("maj" if shorthand is None else shorthand, changes))
    bass = NoteName(root.fifths + degree_place(bass_text)) if bass_text else None
    return LetterChord(root, quality, None if bass == root else bass)


def harte_places(shorthand, changes):
    """Give the notes of a shorthand and a list of degrees, as places on the line of fifths from the root."""
    places = {0, *(degree_place(name) for name in SHORTHANDS[shorthand].split(",") if name)}
    for change in (changes or "").split(","):
        if change.startswith("*"):
            places.discard(degree_place(change[1:]))
        elif change:
            places.add(degree_place(change))
    return frozenset(places)


@functools.cache
def quality_of(places):
    """Find the quality that has exactly these notes, in whatever octave, with the fewest changes.

    Raises
    ------
    LookupError
        No quality has them.
    """
    found = [quality for base in EVERY_BASE if (quality := _change_into(*base, places))]
    if not found:
        raise LookupError(f"no quality has the notes {sorted(places)}")
    # sus2(b7) is 9(no3) too: of as many changes, the base with fewer notes says it better.
    return min(found, key=lambda quality: (len(quality.changes), len(BASES[quality.base])))


def _change_into(triad, base, places):
    """Leave out and add what makes one base into these notes; ``None`` where that cannot be done."""
    third, fifth = ({degree_place(name)} for name in TRIADS[triad])
    have = _places(make_quality(triad, base))
    missing, extra = have - places, places - have
    changes = [ADDED[place] for place in extra if place in ADDED]
    if missing & third:
        changes.append("no3")
    if missing & fifth and not {"b5", "#5"} & set(changes):
        changes.append("no5")
    try:
        quality = make_quality(triad, base, tuple(changes))
    except ChordFault:
        return None
    return quality if _places(quality) == places else None


def _places(quality):
    return frozenset(tone.fifths for tone in quality_tones(quality))


def write_harte(chord):
    """Write a letter chord as a label, with a shorthand where its triad and base have one."""
    quality = chord.quality
    shorthand = SHORTHAND_OF.get((quality.triad, quality.base))
    if shorthand is None:
        changes = [interval_name(tone) for tone in quality_tones(quality)]
    else:
        changes = [name for change in quality.changes for name in _harte_changes(change, quality.triad)]
    listed = f"({','.join(changes)})" if changes else ""
    bass = "" if chord.bass is None else f"/{Degree(chord.bass.fifths - chord.root.fifths)}"
    return f"{chord.root}:{shorthand or ''}{listed}{bass}"


def _harte_changes(change, triad):
    third, fifth = TRIADS[triad]
    if change == "no3":
        return [f"*{third}"]
    if change == "no5":
        return [f"*{fifth}"]
    if change in ("b5", "#5"):
        return [f"*{fifth}", change]
    return ["7" if change == "maj7" else change.removeprefix("add")]


def number_text(label, one):
    """Write a label as a number counted from ``one``; ``NC`` where there is no chord."""
    chord = read_harte(label)
    return "NC" if chord is None else write_number(to_number(chord, one))


@functools.cache
def pop_songs():
    """Read the songs: each a list of events as ``tests/data/README.md`` tells."""
    return json.loads(POP_SONGS.read_text(encoding="utf-8"))["songs"]


def bar_metre(token):
    """Give the metre of a token such as ``(2/4)``, which holds for its bar; ``None`` for a label."""
    match = METRE.match(token)
    return match[1] if match else None


def song_labels(song):
    """Yield the tonic and the label at each place where a label is written, repeats not unfolded."""
    tonic = None
    for event in song:
        tonic = event.get("tonic", tonic)
        for bar in event.get("bars", ()):
            yield from ((tonic, token) for token in bar.split() if token != "." and not bar_metre(token))


@functools.cache
def every_label():
    """Every different label of the songs, sorted."""
    return tuple(sorted({label for song in pop_songs() for _, label in song_labels(song)}))
