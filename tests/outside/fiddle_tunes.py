"""Fiddle tunes out of music21's corpus as lines, with the fingers that stand over some notes.

The tunes are those of Ryan's Mammoth Collection (1883) and of O'Neill's Music of Ireland (1903) as ABC text
that comes with music21 (``music21/corpus/ryansMammoth``, ``oneills1850``). The licence of the transcriptions
is not stated, so they are read where music21 lies and never copied. music21 reads the tokens; here they are
made notes: no grace notes, ties joined, accidentals held to the bar line, repeats not unfolded.
"""

import re
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cache
from pathlib import Path

from music21 import abcFormat, corpus

from fifthwise.strings.fingering import Line, LineNote
from fifthwise.theory import SpelledPitch, read_pitch

COLLECTIONS = {"ryansMammoth": 1059, "oneills1850": 39}
DIGIT = re.compile(r'"[_^<>@]?([0-4])"')
ACCIDENTAL = re.compile(r"[\^_=]+")
COMPOUND = re.compile(r"(3|6|9|12)/8")


@dataclass(frozen=True, slots=True)
class Tune:
    """One tune: its notes in order, and the digit over each, or ``None``."""

    title: str
    line: Line
    digits: tuple[int | None, ...]


@cache
def files_of(collection):
    """The files of a collection, in order of name."""
    folder = Path(corpus.__file__).parent / collection
    return sorted(folder.glob("*.abc"))


def tunes_of(path):
    """The tunes of one file."""
    handler = abcFormat.ABCHandler()
    handler.process(path.read_text("latin-1"))
    for number, part in sorted(handler.splitByReferenceNumber().items()):
        tune = tune_of(part.tokens, f"{path.stem} {number or ''}".strip())
        if tune.line.notes:
            yield tune


def tune_of(tokens, title):
    """The tune of some tokens."""
    reader = Reader()
    for token in tokens:
        reader.take(token)
    return Tune(title, Line(tuple(reader.notes)), tuple(reader.digits))


class Reader:
    """Goes through the tokens of a tune and keeps what it has come to."""

    def __init__(self):
        self.notes, self.digits = [], []
        self.at = self.bar_at = Fraction(0)
        self.beat = Fraction(1)
        self.held = {}  # accidentals of this bar, by letter and octave
        self.spanners = frozenset()  # slurs of the note before

    def take(self, token):
        """Take in one token."""
        if isinstance(token, abcFormat.ABCMetadata):
            if token.tag == "M":
                self.beat = Fraction(3, 2) if COMPOUND.match(token.data) else Fraction(1)
        elif isinstance(token, abcFormat.ABCBar):
            self.bar_at, self.held = self.at, {}
        elif isinstance(token, abcFormat.ABCNote) and not token.inGrace:
            self.take_note(token)

    def take_note(self, token):
        """Take in a note, a chord or a rest."""
        length = Fraction(token.quarterLength).limit_denominator(48)
        pitches = self.pitches_of(token)
        slurs = frozenset(id(slur) for slur in token.applicableSpanners)
        if pitches and token.tie in ("stop", "continue") and self.notes and self.notes[-1].pitches == pitches:
            self.notes[-1] = replace(self.notes[-1], length=self.notes[-1].length + length)
        elif pitches:
            if self.notes and slurs & self.spanners:
                self.notes[-1] = replace(self.notes[-1], slur=True)
            on_beat = (self.at - self.bar_at) % self.beat == 0
            self.notes.append(LineNote(pitches, self.at, length, on_beat=on_beat))
            digits = [int(found[1]) for text in token.chordSymbols if (found := DIGIT.fullmatch(text))]
            self.digits.append(digits[0] if len(digits) == 1 and len(pitches) == 1 else None)
        self.spanners = slurs if pitches else frozenset()
        self.at += length

    def pitches_of(self, token):
        """The pitches of a note or a chord, low to high; none for a rest."""
        if token.isRest:
            return ()
        parts = token.subTokens if isinstance(token, abcFormat.ABCChord) else [token]
        found = {self.pitch_of(part) for part in parts if not part.isRest}
        return tuple(sorted(found, key=lambda pitch: pitch.midi))

    def pitch_of(self, note) -> SpelledPitch:
        """A pitch, with the accidental that its bar holds."""
        name, octave = note.pitchName[:-1], note.pitchName[-1]
        if ACCIDENTAL.search(note.src.rpartition('"')[2]):
            self.held[name[0], octave] = name
        name = self.held.get((name[0], octave), name)
        return read_pitch(name.replace("-", "b").replace("n", "") + octave)


@cache
def all_tunes():
    """Every tune of both collections."""
    return [tune for name in COLLECTIONS for path in files_of(name) for tune in tunes_of(path)]
