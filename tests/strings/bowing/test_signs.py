import unicodedata
from importlib import resources

import pytest
from music21 import articulations, note, spanner, stream
from music21.musicxml.m21ToXml import GeneralObjectExporter

from fifthwise.strings.bowing import STROKES, sign_of, signs


def test_every_stroke_has_a_sign_and_a_letter_of_its_own():
    """The table of signs holds the kinds of strokes and the accent, each with its own letter."""
    assert {sign.stroke for sign in signs()} == {*STROKES, "accent"}
    letters = [sign.text for sign in signs()]
    assert all(len(letter) == 1 and letter.isascii() for letter in letters)
    assert len(set(letters)) == len(letters)


@pytest.mark.parametrize(
    ("stroke", "name"),
    [
        ("down", "MUSICAL SYMBOL COMBINING DOWN BOW"),
        ("up", "MUSICAL SYMBOL COMBINING UP BOW"),
        ("slurred", "CHARACTER TIE"),
        ("chop", "MULTIPLICATION SIGN"),
        ("accent", "GREATER-THAN SIGN"),
    ],
)
def test_glyphs_are_the_signs_that_unicode_names(stroke, name):
    """Source: the Unicode Character Database, through unicodedata."""
    assert unicodedata.name(sign_of(stroke).glyph) == name


def test_the_letters_are_in_every_font_that_we_carry():
    """What the fonts lack has a letter that they hold: coverage.txt lists what they hold."""
    text = resources.files("fifthwise.page").joinpath("fonts/coverage.txt").read_text("utf-8")
    ranges = [tuple(int(end, 16) for end in line.split("-")) for line in text.split()]
    held = [sign for sign in signs() if any(low <= ord(sign.text) <= high for low, high in ranges)]
    assert held == list(signs())


def exported():
    """MusicXML of notes with bows, an accent, a slur and both chop heads, as music21 writes it."""
    down, up, chop, ghost = (note.Note("A4") for _ in range(4))
    down.articulations = [articulations.DownBow(), articulations.Accent()]
    up.articulations = [articulations.UpBow()]
    chop.notehead = "x"
    ghost.notehead, ghost.noteheadParenthesis = "x", True
    measure = stream.Measure([down, up, chop, ghost, note.Rest()])
    measure.insert(0, spanner.Slur(down, up))
    return GeneralObjectExporter(measure).parse().decode()


@pytest.mark.parametrize("stroke", [*STROKES, "accent"])
def test_musicxml_elements_are_those_that_music21_writes(stroke):
    """Source: music21's MusicXML 4.0 export of DownBow, UpBow, Accent, Slur, noteheads and Rest."""
    assert f"<{sign_of(stroke).musicxml}" in exported()
