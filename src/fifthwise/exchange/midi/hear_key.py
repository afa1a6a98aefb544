"""The key of a song that says none, found from how long each pitch class sounds.

The durations of the twelve pitch classes are held against a profile of each of the 24 keys; the key whose
profile correlates best wins.

References
----------
C. L. Krumhansl, Cognitive Foundations of Musical Pitch, 1990: the method, and the profiles of Krumhansl and
Kessler. J. Albrecht and D. Shanahan, "The Use of Large Corpora to Train a New Type of Key-Finding
Algorithm", Music Perception 31(1), 2013: the profiles.
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
# Krumhansl and Kessler's probe-tone ratings, from the tonic up in semitones.
PROFILES = {
    "major": (6.35, 2.23, 3.48, 2.33, 4.38, 4.09, 2.52, 5.19, 2.39, 3.66, 2.29, 2.88),
    "minor": (6.33, 2.68, 3.52, 5.38, 2.60, 3.53, 2.54, 4.75, 3.98, 2.69, 3.34, 3.17),
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
