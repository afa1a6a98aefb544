"""What each tone is to its chord, and how a degree and a chord are said in a song's own numbers."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from fifthwise.theory import (
    Degree,
    Interval,
    Key,
    NumberChord,
    Numbering,
    Quality,
    interval_name,
    write_number,
)

__all__ = ["COUNTED", "ChordTone", "Role", "chord_text", "chord_tones_of", "degree_text"]

Role = Literal["root", "third", "fifth", "seventh", "colour", "bass"]
ROLES: dict[int, Role] = {0: "root", 2: "third", 4: "fifth", 6: "seventh"}
FOURTH, SECOND, SIXTH = 3, 1, 5
PERFECT_FIFTH = 1
COUNTED = Numbering()


@dataclass(frozen=True, slots=True)
class ChordTone:
    """A tone of a chord.

    Attributes
    ----------
    degree, above : Degree
        Counted from the key's 1; counted from the chord's root.
    name : str
        As players call it over the chord: ``root``, ``b3``, ``5``, ``9``.
    role : str
        What is suspended for a third is the ``third``; a sixth without a seventh is the ``seventh``; ``bass``
        is a note under the slash that the chord does not have.
    altered : bool
        A fifth that is not perfect.
    """

    degree: Degree
    above: Degree
    name: str
    role: Role
    altered: bool = False


@lru_cache(maxsize=1024)
def chord_tones_of(chord: NumberChord) -> tuple[ChordTone, ...]:
    """A chord's tones from the root up, a strange bass last."""
    root = chord.root.fifths
    found = []
    for interval in chord.quality.tones:
        role = _role(chord.quality, interval)
        altered = role == "fifth" and interval.fifths != PERFECT_FIFTH
        above = Degree(interval.fifths)
        name = "root" if role == "root" else interval_name(interval)
        found.append(ChordTone(Degree(root + interval.fifths), above, name, role, altered))
    sounds = {tone.degree.semitones for tone in found}
    if chord.bass is not None and chord.bass.semitones not in sounds:
        above = Degree(chord.bass.fifths - root)
        found.append(ChordTone(chord.bass, above, str(above), "bass"))
    return tuple(found)


def _role(quality: Quality, interval: Interval) -> Role:
    steps = {tone.steps for tone in quality.tones}
    suspended = FOURTH if FOURTH in steps else SECOND
    if interval.steps == suspended and not quality.has_third:
        return "third"
    if interval.steps == SIXTH:  # beside a seventh it is a 13, an octave higher
        return "seventh"
    return ROLES.get(interval.steps, "colour")


def degree_text(degree: Degree, key: Key, numbering: Numbering = COUNTED) -> str:
    """A degree as the song writes it: in natural minor numbering b3 is 3."""
    return write_number(NumberChord(degree), lowers=numbering.lowers(key))


def chord_text(chord: NumberChord, key: Key, numbering: Numbering = COUNTED) -> str:
    """A chord as the song writes it."""
    scale = numbering.scale(key) if numbering.plain == "diatonic" else ()
    return write_number(chord, scale=scale, lowers=numbering.lowers(key))
