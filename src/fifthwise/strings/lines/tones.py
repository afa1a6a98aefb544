"""What each tone is to its chord: root, third, fifth, seventh or colour."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from fifthwise.strings.lines.changes import Change
from fifthwise.theory import Degree, Interval, NoteName, NumberChord, Quality

__all__ = ["Role", "Tone", "bass_tone", "chord_roles"]

Role = Literal["root", "third", "fifth", "seventh", "colour"]
ROLES: dict[int, Role] = {0: "root", 2: "third", 4: "fifth", 6: "seventh"}
FOURTH, SECOND, SIXTH = 3, 1, 5
PERFECT_FIFTH = 1
OCTAVE_STEPS = 7


@dataclass(frozen=True, slots=True)
class Tone:
    """A chord tone.

    Attributes
    ----------
    role : str
        What stands for the third in a suspended chord is its ``third``; a sixth without a seventh is its
        ``seventh``. Other tones are ``colour``.
    altered : bool
        A fifth that is not perfect, which says what the chord is.
    """

    note: NoteName
    degree: Degree
    role: Role
    altered: bool = False


def chord_roles(change: Change) -> tuple[Tone, ...]:
    """A chord's tones from the root up; a bass that is none of them is left to the bass."""
    return _roles(change.chord, change.one)


def bass_tone(change: Change) -> Tone:
    """What the bass plays on the change."""
    own = next((tone for tone in chord_roles(change) if tone.note == change.bass), None)
    return own or Tone(change.bass, change.degree(change.bass), "colour")


@lru_cache(maxsize=1024)
def _roles(chord: NumberChord, one: NoteName) -> tuple[Tone, ...]:
    found = []
    for interval in chord.quality.tones:
        degree = Degree(chord.root.fifths + interval.fifths)
        role = _role(chord.quality, interval)
        altered = role == "fifth" and interval.fifths != PERFECT_FIFTH
        found.append(Tone(NoteName(degree.fifths + one.fifths), degree, role, altered))
    return tuple(found)


def _role(quality: Quality, interval: Interval) -> Role:
    steps = {tone.steps for tone in quality.tones}
    suspended = FOURTH if FOURTH in steps else SECOND
    if interval.steps == suspended and not quality.has_third:
        return "third"
    if interval.steps == SIXTH and SIXTH + 1 not in steps:
        return "seventh"
    return ROLES.get(interval.steps, "colour")
