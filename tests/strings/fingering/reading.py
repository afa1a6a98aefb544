"""Lines as short texts, and fingers as short texts.

A line: ``D4 E4~ F#4*1/2 r B4+G5 A4:D4``. ``~`` slurs on, ``*`` gives another length than a quarter, ``r`` is
a rest, ``+`` sounds together, ``:`` pins. Fingers: ``D0 A1 G3+D1``, a harmonic with its partial: ``D3'4``.
"""

import re
from fractions import Fraction
from itertools import pairwise

from fifthwise.strings import THUMB, instrument_of, string_name
from fifthwise.strings.fingering import Line, LineNote, finger_line
from fifthwise.theory import read_pitch

WORD = re.compile(r"([^~*:]+)(~?)(?:\*([\d/]+))?(?::(.+))?\Z")


def line(text, tempo=100, **every):
    """A line from its text; ``every`` note gets what is named."""
    notes, at = [], Fraction(0)
    for word in text.split():
        names, slur, length, pins = WORD.match(word).groups()
        quarters = Fraction(length or 1)
        if names != "r":
            pitches = tuple(read_pitch(name) for name in names.split("+"))
            bound = tuple(pins.split("+")) if pins else ()
            notes.append(LineNote(pitches, at, quarters, bool(slur), pins=bound, **every))
        at += quarters
    return Line(tuple(notes), Fraction(tempo))


def fingers(fingering, instrument):
    """The fingers of a fingering as text."""
    return " ".join(
        "+".join(
            string_name(instrument, stop.string)
            + ("T" if stop.finger == THUMB else str(stop.finger))
            + (f"'{stop.harmonic}" if stop.harmonic else "")
            for stop in note.stops
        )
        for note in fingering.notes
    )


def fingered(text, name="violin", level="first", **settings):
    """The best fingers of a line, as text."""
    instrument = instrument_of(name) if isinstance(name, str) else name
    return fingers(finger_line(line(text), instrument, level, **settings), instrument)


def shifts(fingering):
    """How often the hand moves, onto the thumb and off it included."""
    return sum(old.centre != new.centre for old, new in pairwise(fingering.notes))
