from fractions import Fraction

from music21 import abcFormat

from tests.outside.fiddle_tunes import COLLECTIONS, files_of, tune_of

# Invented.
TEXT = """X:1
M:6/8
L:1/8
K:D
"4"A|(d^ge) f2"_3"g|"tr"g-g"04"c {fg}[ce] z|
"""


def read(text):
    """The tune of one text."""
    handler = abcFormat.ABCHandler()
    handler.process(text)
    return tune_of(handler.tokens, "invented")


def test_a_tune_is_read_note_by_note():
    """Key and accidentals hold, ties join, grace notes and rests sound nothing."""
    notes = read(TEXT).line.notes
    pitches = [" ".join(map(str, note.pitches)) for note in notes]
    assert pitches == ["A4", "D5", "G#5", "E5", "F#5", "G#5", "G5", "C#5", "C#5 E5"]
    assert [note.length for note in notes] == [Fraction(each, 2) for each in (1, 1, 1, 1, 2, 1, 2, 1, 1)]
    assert notes[-1].starts_at == Fraction(10, 2)


def test_slurs_and_beats_are_those_of_the_text():
    """A slur goes on to the next note; a bar of six eighths has two beats."""
    notes = read(TEXT).line.notes
    assert [note.slur for note in notes] == [False, True, True, *[False] * 6]
    assert [note.on_beat for note in notes] == [True, True, False, False, True, False, True, False, True]


def test_a_digit_over_a_note_is_its_finger():
    """Where a digit stands above or below it; two digits are none."""
    assert read(TEXT).digits == (4, None, None, None, None, 3, None, None, None)


def test_the_collections_are_there():
    """As many files as when they were counted."""
    assert {name: len(files_of(name)) for name in COLLECTIONS} == COLLECTIONS
