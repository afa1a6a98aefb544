"""Pitches spelled by the key: each pitch class has one place on the line of fifths about the tonic.

From five fifths below the tonic to six above stand b2 b6 b3 b7 4 1 5 2 6 3 7 #4, in major and in minor. A
chromatic note that leads up by a semitone into a note of the key is the raised one (#1, #2, #5): common
practice, no source.
"""

from collections.abc import Sequence

from fifthwise.theory import Key, SpelledPitch

__all__ = ["spell_line", "spelled", "spelled_class"]

BELOW = 5  # fifths under the tonic at which the window begins
SEMITONES = 12
RAISED = (-5, -4, -3)  # b2, b6 and b3, which may be #1, #5 and #2


def spelled_class(pitch_class: int, key: Key) -> int:
    """The place on the line of fifths of a pitch class in a key."""
    low = key.tonic.fifths - BELOW
    return low + (pitch_class * 7 - low) % SEMITONES


def spelled(midi: int, fifths: int) -> SpelledPitch:
    """A pitch at its height, named by its place on the line of fifths."""
    pitch = SpelledPitch(fifths, 0)
    return SpelledPitch(fifths, (midi - pitch.midi) // SEMITONES)


def spell_line(midis: Sequence[int], keys: Sequence[Key]) -> list[SpelledPitch]:
    """Spell one note after the other, each in the key that holds where it stands."""
    found = []
    for at, (midi, key) in enumerate(zip(midis, keys, strict=True)):
        fifths = spelled_class(midi % SEMITONES, key)
        following = midis[at + 1] if at + 1 < len(midis) else None
        if fifths - key.tonic.fifths in RAISED and not _in_key(fifths, key) and following == midi + 1:
            above = spelled_class(following % SEMITONES, key)
            fifths += SEMITONES if _in_key(above, key) else 0
        found.append(spelled(midi, fifths))
    return found


def _in_key(fifths: int, key: Key) -> bool:
    return -1 <= fifths - key.signature <= 5
