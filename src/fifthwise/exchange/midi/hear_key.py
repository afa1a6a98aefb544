"""The key of a song that says none, found from how long each pitch class sounds.

The durations of the twelve pitch classes are held against a profile of each of the 24 keys; the key whose
profile correlates best wins.

References
----------
C. L. Krumhansl, Cognitive Foundations of Musical Pitch, 1990: the method. D. Temperley, Music and
Probability, 2007: the profiles, counted from the Kostka-Payne corpus, in the figures that ``keycor`` of the
Humdrum extras has.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from fifthwise.exchange.midi.chord_text import TimedChord
from fifthwise.exchange.midi.raw import RawPart
from fifthwise.theory import Key, LastingChord, NoteName, find_key, in_fewest_accidentals

__all__ = ["HeardKey", "durations", "heard_key", "key_of_chords"]

PITCH_CLASSES = 12
# How often each degree sounds in a segment of the corpus, from the tonic up in semitones.
PROFILES = {
    "major": (0.748, 0.06, 0.488, 0.082, 0.67, 0.46, 0.096, 0.715, 0.104, 0.366, 0.057, 0.4),
    "minor": (0.712, 0.084, 0.474, 0.618, 0.049, 0.46, 0.105, 0.747, 0.404, 0.067, 0.133, 0.33),
}
SURE = 0.15  # by which the best correlation leads the next when the key can be taken as said


@dataclass(frozen=True, slots=True)
class HeardKey:
    """The key that fits best, the next best, and how sure the first is.

    Attributes
    ----------
    surety : float
        From 0, when two keys fit alike, to 1.
    """

    key: Key
    runner_up: Key
    surety: float


def durations(parts: Iterable[RawPart]) -> tuple[float, ...]:
    """How long each pitch class sounds, C first, in ticks; drums have none."""
    found = [0.0] * PITCH_CLASSES
    for part in parts:
        if not part.is_drums:
            for note in part.notes:
                found[note.midi % PITCH_CLASSES] += note.end - note.start
    return tuple(found)


def heard_key(sounding: Sequence[float]) -> HeardKey | None:
    """The key of pitch classes that sound so long; ``None`` where nothing sounds, or all alike."""
    fits = [
        (_correlation((*sounding[tonic:], *sounding[:tonic]), profile), _key(tonic, mode))
        for mode, profile in PROFILES.items()
        for tonic in range(PITCH_CLASSES)
    ]
    ranked = sorted(fits, key=lambda fit: -fit[0])
    (best, key), (second, runner_up) = ranked[:2]
    if best <= 0:
        return None
    return HeardKey(key, runner_up, min((best - second) / SURE, 1.0))


def _key(tonic: int, mode: str) -> Key:
    return in_fewest_accidentals(Key(NoteName(tonic * 7 % PITCH_CLASSES), mode))


def _correlation(one: Sequence[float], other: Sequence[float]) -> float:
    """Pearson's correlation; 0 where one of the two is flat."""
    mean_one, mean_other = sum(one) / PITCH_CLASSES, sum(other) / PITCH_CLASSES
    off_one = [value - mean_one for value in one]
    off_other = [value - mean_other for value in other]
    size = sqrt(sum(v * v for v in off_one) * sum(v * v for v in off_other))
    return sum(a * b for a, b in zip(off_one, off_other, strict=True)) / size if size else 0.0


def key_of_chords(chords: Sequence[TimedChord], end: Fraction) -> HeardKey | None:
    """The key of chords that are spelled out; ``None`` where there are none."""
    ends = [at for at, _ in chords[1:]] + [end]
    lasting = [
        LastingChord(chord, until - at)
        for (at, chord), until in zip(chords, ends, strict=False)
        if chord is not None and until > at
    ]
    found = find_key([lasting])
    return None if found is None else HeardKey(found.first, found.runner_up, found.sure)
