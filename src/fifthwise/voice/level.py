"""A tune gathered by height: how much of it lies at each distance from the tonic."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

from fifthwise.voice.tune import SungNote, SungTune
from fifthwise.voice.weights import WEIGHTS, Weights

__all__ = ["Core", "Heights", "Level", "core_of", "heights_of", "levels_of"]

Heights = Mapping[int, Sequence[SungNote]]

CORE = Fraction(3, 4)


@dataclass(frozen=True, slots=True)
class Level:
    """All notes at one distance from the tonic.

    Attributes
    ----------
    semitones : int
        Above the tonic.
    share, long_share : Fraction
        Of the tune's weight: all of it, and what lies in notes long enough to trouble a change-over.
    beats : Fraction
        Time on it.
    """

    semitones: int
    share: Fraction
    long_share: Fraction
    beats: Fraction


@dataclass(frozen=True, slots=True)
class Core:
    """The narrowest stretch that holds most of a tune.

    Attributes
    ----------
    low, high : int
        Semitones above the tonic.
    share : Fraction
        Of the time, at least three quarters; all of it where lengths are not known.
    """

    low: int
    high: int
    share: Fraction


def heights_of(tune: SungTune) -> Heights:
    """A tune's notes by their semitones above the tonic, lowest first; each height's as they are sung."""
    found: dict[int, list[SungNote]] = {}
    for note in tune.notes:
        found.setdefault(note.above_home.semitones, []).append(note)
    return dict(sorted(found.items()))


def levels_of(tune: SungTune, weights: Weights = WEIGHTS) -> tuple[Level, ...]:
    """Weigh a tune's notes by their height, lowest first."""
    total = _weigh(tune.notes, tune, weights)
    return tuple(_level(height, notes, tune, weights, total) for height, notes in heights_of(tune).items())


def _level(
    height: int, notes: Sequence[SungNote], tune: SungTune, weights: Weights, total: Fraction
) -> Level:
    long = [note for note in notes if tune.timed and note.beats >= weights.turn_beats]
    share, long_share = (_weigh(some, tune, weights) / total for some in (notes, long))
    return Level(height, share, long_share, sum((note.beats for note in notes), Fraction(0)))


def _weigh(notes: Iterable[SungNote], tune: SungTune, weights: Weights) -> Fraction:
    # A tune has many notes and few lengths, and fractions are slow to add.
    counted = Counter(note.beats for note in notes)
    return sum((count * _weight(beats, tune, weights) for beats, count in counted.items()), Fraction(0))


def _weight(beats: Fraction, tune: SungTune, weights: Weights) -> Fraction:
    held = tune.timed and beats >= weights.held_beats
    return beats * weights.held if held else beats


def core_of(levels: tuple[Level, ...], *, timed: bool) -> Core:
    """Find the narrowest stretch; of several, the one that holds the most, then the lowest."""
    total = _beats(levels)
    if not timed:
        return Core(levels[0].semitones, levels[-1].semitones, Fraction(1))
    cores = (
        Core(levels[i].semitones, levels[j - 1].semitones, _beats(levels[i:j]) / total)
        for i, j in combinations(range(len(levels) + 1), 2)
    )
    full = (core for core in cores if core.share >= CORE)
    return min(full, key=lambda core: (core.high - core.low, -core.share, core.low))


def _beats(levels: tuple[Level, ...]) -> Fraction:
    return sum((level.beats for level in levels), Fraction(0))
