"""Spell, number and re-key every chord of 370 songs, and time music21 at the same work.

Run ``python bench/theory_speed.py``. The figure that counts is the ratio: it does not depend on the machine.

- From parsed songs: from a chord as a value to its notes, its number in the song's key and the same chord a
  whole step higher. Nothing is kept by chord; a quality carries its tones.
- From text: from a chord as text to the names of its notes, its number and the higher chord, all as text.
  Ours keeps what it has read by its text. All caches are emptied before each run, so that it holds every
  first read.

Ours is timed in one run over all songs. music21 keeps nothing by chord, so its one run goes over every
twentieth song (``--all``: over every song, which takes minutes). It gets each chord in its own notation, such
as ``B-7``. A chord that it cannot read, or reads with other notes, is left out on both sides and counted.
"""

import argparse
import importlib
import pkgutil
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[1]))  # for the songs, which the tests read too

from music21 import harmony, interval, key, roman

import fifthwise.theory
from fifthwise.theory import (
    NoteName,
    chord_notes,
    read_letter_chord,
    read_note,
    to_letters,
    to_number,
    write_letters,
    write_number,
)
from tests.harte import every_label, pop_songs, read_harte, song_labels
from tests.outside.music21_symbols import figure, m21_name, note_names

WHOLE_STEP = 2  # places on the line of fifths
EVERY = 20  # the songs that music21 is timed on
WANTED = {"from parsed songs": 1000, "from text": 300}


def written_chords(songs, left_out):
    """Every chord written in some songs, with the note that is 1 there."""
    labels = [pair for song in songs for pair in song_labels(song)]
    chords = ((read_note(tonic), read_harte(label)) for tonic, label in labels)
    return [(one, chord) for one, chord in chords if chord is not None and chord not in left_out]


def misread_chords():
    """The chords that music21 cannot do, each with why."""
    chords = [chord for label in every_label() if (chord := read_harte(label)) is not None]
    return {chord: reason for chord in chords if (reason := m21_fault(chord))}


def m21_fault(chord):
    try:
        names = note_names(symbol := harmony.ChordSymbol(figure(chord)))
        m21_parsed(symbol, key.Key("C"), interval.Interval("M2"))
    except Exception as fault:  # whatever it raises, it cannot do this one
        return repr(fault)
    return "" if names == {str(note) for note in chord_notes(chord)} else "other notes"


def our_parsed(chord, one, other):
    return chord_notes(chord), (number := to_number(chord, one)), to_letters(number, other)


def our_text(text, one, other):
    notes, number, moved = our_parsed(read_letter_chord(text), one, other)
    return [str(note) for note in notes], write_number(number), write_letters(moved)


def m21_parsed(symbol, m21_key, step):
    return symbol.pitches, roman.romanNumeralFromChord(symbol, m21_key), symbol.transpose(step)


def m21_text(text, m21_key, step):
    pitches, numeral, moved = m21_parsed(harmony.ChordSymbol(text), m21_key, step)
    return [pitch.name for pitch in pitches], numeral.figure, moved.figure


def empty_caches():
    """Forget whatever the theory has kept from earlier calls."""
    for info in pkgutil.iter_modules(fifthwise.theory.__path__, "fifthwise.theory."):
        for value in vars(importlib.import_module(info.name)).values():
            if hasattr(value, "cache_clear"):
                value.cache_clear()


def seconds_a_chord(work, items):
    """Time one run of ``work(*item)`` over all items, from empty caches."""
    empty_caches()
    start = time.perf_counter()
    for item in items:
        work(*item)
    return (time.perf_counter() - start) / len(items)


def our_seconds(chords):
    moved = [(chord, one, NoteName(one.fifths + WHOLE_STEP)) for one, chord in chords]
    texts = [(write_letters(chord), one, other) for chord, one, other in moved]
    return {
        "from parsed songs": seconds_a_chord(our_parsed, moved),
        "from text": seconds_a_chord(our_text, texts),
    }


def m21_seconds(chords):
    step = interval.Interval("M2")
    texts = [(figure(chord), key.Key(m21_name(one)), step) for one, chord in chords]
    symbols = [(harmony.ChordSymbol(text), *rest) for text, *rest in texts]
    return {
        "from parsed songs": seconds_a_chord(m21_parsed, symbols),
        "from text": seconds_a_chord(m21_text, texts),
    }


def main(arguments=()):
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--all", action="store_true", help="time music21 on every song")
    options = parser.parse_args(arguments)
    left_out = misread_chords()
    songs = pop_songs()
    chords = written_chords(songs, left_out)
    sample = chords if options.all else written_chords(songs[::EVERY], left_out)
    ours, theirs = our_seconds(chords), m21_seconds(sample)
    print(f"{len(songs)} songs, {len(chords)} chords; music21 on {len(sample)} of them")
    print(f"left out, since music21 fails: {len(left_out)} of {len(every_label())} labels")
    for way, wanted in WANTED.items():
        ratio = theirs[way] / ours[way]
        rates = f"ours {1 / ours[way]:.3g} chords a second, music21 {1 / theirs[way]:.3g}"
        print(f"{way}: {ratio:.0f} times as fast (wanted {wanted}); {rates}")
    return all(theirs[way] / ours[way] >= wanted for way, wanted in WANTED.items())


if __name__ == "__main__":
    sys.exit(0 if main(sys.argv[1:]) else 1)
