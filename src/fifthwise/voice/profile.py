"""The data of a picture: how long each pitch is sung, against what the singer reaches."""

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from fifthwise.theory import Degree, SpelledPitch
from fifthwise.voice.ranking import KeyFit
from fifthwise.voice.singer import Range, Singer, turn_zone
from fifthwise.voice.tune import SungNote, SungTune, sung_pitch

__all__ = ["Ease", "PitchTime", "SungProfile", "sung_profile"]

Ease = Literal["too low", "low", "easy", "high", "too high"]


@dataclass(frozen=True, slots=True)
class PitchTime:
    """Time on one spelled pitch.

    Attributes
    ----------
    degrees : tuple of Degree
        Its numbers, the longest sung first; several only where the song changes key.
    beats : Fraction
        Felt beats; 0 where lengths are not known.
    ease : Ease
        Too low and too high lie outside the usable range, low and high outside comfort.
    in_turns : bool
        Whether it lies in the singer's change-over.
    """

    pitch: SpelledPitch
    degrees: tuple[Degree, ...]
    beats: Fraction
    ease: Ease
    in_turns: bool


@dataclass(frozen=True, slots=True)
class SungProfile:
    """A song in one key against a singer.

    Attributes
    ----------
    pitches : tuple of PitchTime
        Low to high, sung pitches only.
    turns : tuple of SpelledPitch
        As the singer named them.
    """

    fit: KeyFit
    pitches: tuple[PitchTime, ...]
    usable: Range
    comfort: Range
    turns: tuple[SpelledPitch, ...]


def sung_profile(tune: SungTune, singer: Singer, fit: KeyFit) -> SungProfile:
    """Measure the time on each pitch of a tune in one of its ranked keys."""
    by_pitch: dict[SpelledPitch, list[SungNote]] = {}
    for note in tune.notes:
        by_pitch.setdefault(sung_pitch(note, fit.key, fit.tonic), []).append(note)
    pitches = sorted(by_pitch, key=lambda pitch: (pitch.midi, pitch.fifths))
    rows = tuple(_pitch_time(pitch, by_pitch[pitch], singer, timed=tune.timed) for pitch in pitches)
    return SungProfile(fit, rows, singer.usable, singer.comfort, singer.turns)


def _pitch_time(pitch: SpelledPitch, notes: list[SungNote], singer: Singer, *, timed: bool) -> PitchTime:
    on: dict[Degree, Fraction] = {}
    for note in notes:
        on[note.degree] = on.get(note.degree, Fraction(0)) + note.beats
    degrees = tuple(sorted(on, key=lambda degree: (-on[degree], degree)))
    beats = sum(on.values(), Fraction(0)) if timed else Fraction(0)
    zone = turn_zone(singer)
    in_turns = zone is not None and zone[0] <= pitch.midi <= zone[1]
    return PitchTime(pitch, degrees, beats, _ease(pitch.midi, singer), in_turns)


def _ease(midi: int, singer: Singer) -> Ease:
    if midi < singer.usable.low.midi:
        return "too low"
    if midi > singer.usable.high.midi:
        return "too high"
    if midi < singer.comfort.low.midi:
        return "low"
    return "high" if midi > singer.comfort.high.midi else "easy"
