"""The ground: spelled pitch, interval, degree, key, chord and metre.

Everything is a frozen value with functions beside it, and nothing here reads a file or a clock.
"""

from fifthwise.theory.called import called_chords
from fifthwise.theory.chord import (
    LetterChord,
    NumberChord,
    chord_degrees,
    chord_notes,
    chord_tones,
    pitch_classes,
    recount,
    to_letters,
    to_number,
)
from fifthwise.theory.degree import Degree, degree_interval, degree_of, interval_name, note_of, read_degree
from fifthwise.theory.errors import ChordFault, KeyFault, MetreFault, NoteFault, TheoryError
from fifthwise.theory.key import MODES, Key, in_fewest_accidentals, move_key, read_key, same_sound_keys
from fifthwise.theory.key_evidence import LastingChord
from fifthwise.theory.key_finder import FoundKey, LikelyKey, find_key
from fifthwise.theory.metre import Metre, read_metre
from fifthwise.theory.note import (
    Interval,
    NoteName,
    SpelledPitch,
    between,
    nearest_interval,
    plain_accidentals,
    read_note,
    read_pitch,
    transpose,
)
from fifthwise.theory.numbering import MINOR_WAYS, PLAIN_WAYS, MinorWay, Numbering, PlainWay
from fifthwise.theory.quality import Quality, make_quality, quality_tones
from fifthwise.theory.read_chord import read_chord, read_number_chord
from fifthwise.theory.read_letters import read_letter_chord
from fifthwise.theory.read_roman import SEVENTHS, Sevenths, read_roman
from fifthwise.theory.respell import player_reading, without_doubles
from fifthwise.theory.signs import plain_signs
from fifthwise.theory.write_chord import quality_text, write_letters, write_number, write_roman

__all__ = [
    "MINOR_WAYS",
    "MODES",
    "PLAIN_WAYS",
    "SEVENTHS",
    "ChordFault",
    "Degree",
    "FoundKey",
    "Interval",
    "Key",
    "KeyFault",
    "LastingChord",
    "LetterChord",
    "LikelyKey",
    "Metre",
    "MetreFault",
    "MinorWay",
    "NoteFault",
    "NoteName",
    "NumberChord",
    "Numbering",
    "PlainWay",
    "Quality",
    "Sevenths",
    "SpelledPitch",
    "TheoryError",
    "between",
    "called_chords",
    "chord_degrees",
    "chord_notes",
    "chord_tones",
    "degree_interval",
    "degree_of",
    "find_key",
    "in_fewest_accidentals",
    "interval_name",
    "make_quality",
    "move_key",
    "nearest_interval",
    "note_of",
    "pitch_classes",
    "plain_accidentals",
    "plain_signs",
    "player_reading",
    "quality_text",
    "quality_tones",
    "read_chord",
    "read_degree",
    "read_key",
    "read_letter_chord",
    "read_metre",
    "read_note",
    "read_number_chord",
    "read_pitch",
    "read_roman",
    "recount",
    "same_sound_keys",
    "to_letters",
    "to_number",
    "transpose",
    "without_doubles",
    "write_letters",
    "write_number",
    "write_roman",
]
