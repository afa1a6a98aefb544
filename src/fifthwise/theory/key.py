"""Keys: a tonic and a mode, with at most seven sharps or flats.

The signature is the tonic's place on the line of fifths, moved by the mode. Key names are read as a
musician writes them: ``Eb``, ``F# minor``, ``Am``, ``D mixolydian``.
"""

import difflib
import re
from dataclasses import dataclass

from fifthwise.theory.degree import Degree
from fifthwise.theory.errors import KeyFault
from fifthwise.theory.note import NoteName, plain_accidentals, read_note

__all__ = ["MODES", "Key", "in_fewest_accidentals", "move_key", "read_key", "same_sound_keys"]

# Places on the line of fifths from the mode's tonic to the tonic of the major key with that signature.
MODES = {
    "major": 0,
    "minor": -3,
    "ionian": 0,
    "dorian": -2,
    "phrygian": -4,
    "lydian": 1,
    "mixolydian": -1,
    "aeolian": -3,
    "locrian": -5,
}
ALIASES = {"": "major", "maj": "major", "min": "minor", "m": "minor", "-": "minor", "mixo": "mixolydian"}
KEY = re.compile(r"([A-Ga-g](?:bb|##|b|#)?)\s*(.*)\Z")


@dataclass(frozen=True, slots=True, order=True)
class Key:
    """A key: its tonic and one of ``MODES``."""

    tonic: NoteName
    mode: str = "major"

    @property
    def signature(self) -> int:
        """Sharps (above 0) or flats (below 0)."""
        return self.tonic.fifths + MODES[self.mode]

    @property
    def is_minor(self) -> bool:
        """Whether this is a minor key, which songs may number in three ways."""
        return self.mode == "minor"

    @property
    def relative_major(self) -> NoteName:
        """The tonic of the major key with the same signature."""
        return NoteName(self.signature)

    @property
    def scale(self) -> tuple[Degree, ...]:
        """The seven degrees of the key's scale, counted from its tonic, in order of step."""
        shift = MODES[self.mode]
        return tuple(sorted((Degree(place + shift) for place in range(-1, 6)), key=lambda d: d.step))

    @property
    def short(self) -> str:
        """A short name as it is called on stage: ``Eb``, ``F#m``, ``D mixolydian``."""
        if self.mode == "major":
            return str(self.tonic)
        return f"{self.tonic}m" if self.is_minor else f"{self.tonic} {self.mode}"

    def __str__(self) -> str:
        return str(self.tonic) if self.mode == "major" else f"{self.tonic} {self.mode}"


def read_key(text: str) -> Key:
    """Read a key as a musician writes it.

    Raises
    ------
    KeyFault
        The text is no key, or the key has more than seven sharps or flats.
    """
    match = KEY.match(plain_accidentals(text.strip()))
    if not match:
        raise KeyFault(
            f"'{text}' is no key", "key", "Write a tonic and a mode, as in 'Eb', 'F#m' or 'D dorian'"
        )
    key = Key(read_note(match[1]), _read_mode(match[2].strip(), text))
    if abs(key.signature) > 7:
        kind = "sharps" if key.signature > 0 else "flats"
        raise KeyFault(
            f"'{key}' would have {abs(key.signature)} {kind}", "key", f"Write {in_fewest_accidentals(key)}"
        )
    return key


def _read_mode(word: str, whole: str) -> str:
    mode = "major" if word == "M" else ALIASES.get(word.lower(), word.lower())
    if mode in MODES:
        return mode
    near = difflib.get_close_matches(mode, MODES, n=1)
    hint = f"Did you mean '{near[0]}'?" if near else "Write major, minor or a mode, as in 'D dorian'"
    raise KeyFault(f"'{whole}' has no mode '{word}'", "key", hint)


def in_fewest_accidentals(key: Key, *, sharps: bool = False) -> Key:
    """Respell a key with the fewest accidentals; six flats beat six sharps unless ``sharps``."""
    place = (key.signature + 5) % 12 - 5
    if place == 6 and not sharps:
        place = -6
    return Key(NoteName(place - MODES[key.mode]), key.mode)


def same_sound_keys(key: Key) -> tuple[Key, ...]:
    """Every spelling of a key with at most seven accidentals, fewest first; at six flats, both."""
    places = (key.signature - 12, key.signature, key.signature + 12)
    kept = sorted((p for p in places if abs(p) <= 7), key=lambda p: (abs(p), -p))
    return tuple(Key(NoteName(p - MODES[key.mode]), key.mode) for p in kept)


def move_key(key: Key, semitones: int, *, sharps: bool = False) -> Key:
    """The key ``semitones`` higher, in the fewest accidentals; ``sharps`` settles a tie at six."""
    return in_fewest_accidentals(Key(NoteName(key.tonic.fifths + 7 * semitones), key.mode), sharps=sharps)
