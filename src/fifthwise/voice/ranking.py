"""All twelve keys ranked by how a song sits for a singer, each in its best octave.

The singer's cost ranks. Keys whose costs are as good as equal are put in the order that is handier for
the band; nothing else about the band counts.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from fifthwise.theory import Key, SpelledPitch, move_key, same_sound_keys, transpose
from fifthwise.voice.band import BandTerms, band_terms
from fifthwise.voice.level import Core, Heights, Level, core_of, heights_of, levels_of
from fifthwise.voice.reasons import tell_reasons
from fifthwise.voice.score import Sitting, cost_parts, sit_levels, tessitura_shift
from fifthwise.voice.seat import Seat
from fifthwise.voice.singer import Singer
from fifthwise.voice.tune import SungTune, sung_pitch
from fifthwise.voice.weights import WEIGHTS, Weights

__all__ = ["EQUAL_COST", "KeyFit", "best_key", "rank_keys"]

EQUAL_COST = 0.005  # half of the last figure that is shown


@dataclass(frozen=True, slots=True)
class KeyFit:
    """How a song sits in one key.

    Attributes
    ----------
    key : Key
        In the fewest accidentals.
    also : Key or None
        The other name, where six flats and six sharps are as good.
    tonic, one : SpelledPitch
        The sung tonic, and the unmarked 1 next to it (they differ in minor counted from six).
    octave_shift : int or None
        Octaves above where the tune is written; ``None`` where it floats.
    cost : float
        0 is easy throughout.
    top, bottom : SpelledPitch
        The highest and lowest sung note.
    reasons : tuple of str
        Two to four, the most telling first, without full stops.
    """

    key: Key
    also: Key | None
    tonic: SpelledPitch
    one: SpelledPitch
    octave_shift: int | None
    cost: float
    sitting: Sitting
    top: SpelledPitch
    bottom: SpelledPitch
    reasons: tuple[str, ...]
    band: BandTerms


def rank_keys(tune: SungTune, singer: Singer, *, weights: Weights = WEIGHTS) -> tuple[KeyFit, ...]:
    """Rank the twelve sounding keys for a singer, best first.

    Parameters
    ----------
    tune : SungTune
        What is sung; its home key gives the mode.
    singer : Singer
        Usable and comfortable range, change-over notes if any.
    weights : Weights, optional
        What each discomfort costs.

    Returns
    -------
    tuple of KeyFit
        Twelve, each sounding key once, in the octave that costs least (of octaves that cost the same,
        the one nearest to the middle of the usable range, then the lower).
    """
    levels = levels_of(tune, weights)
    sharps = tune.home.signature > 0
    keys = (move_key(tune.home, semitones, sharps=sharps) for semitones in range(12))
    gathered = _Gathered(tune, heights_of(tune), core_of(levels, timed=tune.timed))
    fits = (_fit(key, gathered, singer, _best_octave(key, levels, tune, singer, weights)) for key in keys)
    return tuple(_settle_ties(sorted(fits, key=_cost_order)))


def best_key(tune: SungTune, singer: Singer, *, weights: Weights = WEIGHTS) -> KeyFit:
    """The key that ranks first."""
    return rank_keys(tune, singer, weights=weights)[0]


def _best_octave(
    key: Key, levels: tuple[Level, ...], tune: SungTune, singer: Singer, weights: Weights
) -> Sitting:
    lowest = singer.usable.low.midi - levels[-1].semitones - 12
    highest = singer.usable.high.midi - levels[0].semitones + 12
    tonics = (midi for midi in range(lowest, highest + 1) if midi % 12 == key.tonic.pitch_class)

    def order(midi: int) -> tuple[float, float, int]:
        cost = cost_parts(levels, singer, midi, weights).total
        return round(cost, 9), abs(tessitura_shift(levels, singer, midi)), midi

    return sit_levels(levels, singer, min(tonics, key=order), weights, timed=tune.timed)


@dataclass(frozen=True, slots=True)
class _Gathered:
    """A tune, and what is the same of it in every key."""

    tune: SungTune
    heights: Heights
    core: Core


def _fit(key: Key, gathered: _Gathered, singer: Singer, sitting: Sitting) -> KeyFit:
    tune, heights = gathered.tune, gathered.heights
    tonic = _pitch_at(key, sitting.tonic)
    top, bottom = heights[max(heights)][0], heights[min(heights)][0]
    shift = None if tune.written is None else _octaves_from(tune.written, tonic)
    seat = Seat(tune, heights, singer, key, tonic, sitting, shift, gathered.core)
    return KeyFit(
        key,
        _other_name(key),
        tonic,
        transpose(tonic, tune.one),
        shift,
        sitting.parts.total,
        sitting,
        sung_pitch(top, key, tonic),
        sung_pitch(bottom, key, tonic),
        tell_reasons(seat),
        band_terms(key),
    )


def _pitch_at(key: Key, midi: int) -> SpelledPitch:
    return SpelledPitch(key.tonic.fifths, (midi - SpelledPitch(key.tonic.fifths, 0).midi) // 12)


def _other_name(key: Key) -> Key | None:
    others = (other for other in same_sound_keys(key) if other != key)
    return next((other for other in others if abs(other.signature) == abs(key.signature)), None)


def _octaves_from(written: SpelledPitch, tonic: SpelledPitch) -> int:
    """Octaves left once the tonic has gone the nearest way to its new name; a tritone counts as near."""
    away = tonic.midi - written.midi
    octaves = (abs(away) + 5) // 12
    return octaves if away > 0 else -octaves


def _cost_order(fit: KeyFit) -> tuple[float, int, int]:
    return fit.cost, abs(fit.key.signature), fit.key.signature


def _tie_order(fit: KeyFit) -> tuple[tuple[int, int, int], float, float, int]:
    return fit.band.tie_rank, abs(fit.sitting.tessitura_shift), fit.cost, fit.key.signature


def _settle_ties(fits: list[KeyFit]) -> Iterator[KeyFit]:
    """Put each run of keys that cost as good as its first in the band's order."""
    while fits:
        run = [fit for fit in fits if fit.cost <= fits[0].cost + EQUAL_COST]
        yield from sorted(run, key=_tie_order)
        fits = fits[len(run) :]
