"""The player's reading: an awkward chord respelled as a whole by twelve fifths.

Strict spelling is what is kept. A page may show, for a chord whose root has a double accidental or is
a Cb, Fb, E# or B# from outside the key, the same chord under its everyday name.
"""

from fifthwise.theory.chord import LetterChord
from fifthwise.theory.key import MODES, Key
from fifthwise.theory.note import NoteName

__all__ = ["player_reading", "without_doubles"]

AWKWARD = {-8, -7, 11, 12}  # Fb, Cb, E#, B#


def without_doubles(chord: LetterChord) -> LetterChord:
    """Respell a chord whose root has a double accidental; leave every other."""
    return _turn(chord) if abs(chord.root.alter) >= 2 else chord


def player_reading(chord: LetterChord, key: Key) -> LetterChord:
    """Respell a chord as a player would rather read it in a key."""
    root = chord.root
    chromatic = not -1 <= root.fifths - (key.tonic.fifths + MODES[key.mode]) <= 5
    if abs(root.alter) >= 2 or (root.fifths in AWKWARD and chromatic):
        return _turn(chord)
    return chord


def _turn(chord: LetterChord) -> LetterChord:
    by = 12 if chord.root.fifths < 0 else -12
    bass = None if chord.bass is None else NoteName(chord.bass.fifths + by)
    return LetterChord(NoteName(chord.root.fifths + by), chord.quality, bass)
