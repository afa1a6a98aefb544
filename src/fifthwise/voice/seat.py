"""A tune, a singer and a key brought together, and what reasons ask of the three."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.theory import Key, SpelledPitch
from fifthwise.voice.level import Core, Heights
from fifthwise.voice.score import Sitting
from fifthwise.voice.singer import Singer
from fifthwise.voice.tune import SungNote, SungTune, sung_pitch

__all__ = ["Seat", "beats_of", "notes_at", "only_after_lift", "pitch_of"]


@dataclass(frozen=True, slots=True)
class Seat:
    """A tune as one singer sings it in one key.

    Attributes
    ----------
    heights : mapping of int to sequence of SungNote
        The tune's, as ``heights_of`` gives them.
    """

    tune: SungTune
    heights: Heights
    singer: Singer
    key: Key
    tonic: SpelledPitch
    sitting: Sitting
    octave_shift: int | None
    core: Core


def pitch_of(note: SungNote, seat: Seat) -> SpelledPitch:
    """A note as it is sung here."""
    return sung_pitch(note, seat.key, seat.tonic)


def notes_at(seat: Seat, semitones: int) -> Sequence[SungNote]:
    """The notes at one distance from the tonic."""
    return seat.heights[semitones]


def beats_of(notes: Sequence[SungNote]) -> Fraction:
    """Time on all of them."""
    return sum((note.beats for note in notes), Fraction(0))


def only_after_lift(notes: Sequence[SungNote]) -> bool:
    """Whether they come only after a change of key."""
    return all(note.lift for note in notes)
