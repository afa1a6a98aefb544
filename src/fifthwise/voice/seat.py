"""A tune, a singer and a key brought together, and what reasons ask of the three."""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.theory import Key, SpelledPitch
from fifthwise.voice.level import Core
from fifthwise.voice.score import Sitting
from fifthwise.voice.singer import Singer
from fifthwise.voice.tune import SungNote, SungTune, sung_pitch

__all__ = ["Seat", "beats_of", "notes_at", "only_after_lift", "pitch_of"]


@dataclass(frozen=True, slots=True)
class Seat:
    """A tune as one singer sings it in one key."""

    tune: SungTune
    singer: Singer
    key: Key
    tonic: SpelledPitch
    sitting: Sitting
    octave_shift: int | None
    core: Core


def pitch_of(note: SungNote, seat: Seat) -> SpelledPitch:
    """A note as it is sung here."""
    return sung_pitch(note, seat.key, seat.tonic)


def notes_at(seat: Seat, semitones: int) -> list[SungNote]:
    """The notes at one distance from the tonic."""
    return [note for note in seat.tune.notes if note.above_home.semitones == semitones]


def beats_of(notes: list[SungNote]) -> Fraction:
    """Time on all of them."""
    return sum((note.beats for note in notes), Fraction(0))


def only_after_lift(notes: list[SungNote]) -> bool:
    """Whether they come only after a change of key."""
    return all(note.lift for note in notes)
