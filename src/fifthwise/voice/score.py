"""How a song sits for a singer with its tonic at one pitch, as numbers.

The cost is a sum of parts, each kept so that it can be told. Distances are semitones, shares are of
the tune's weight: its beats, held notes counting half as much again. Reserves and the tessitura shift
follow Herbst, Duus, Jers and Svec, Int. J. Research in Choral Singing 4(1), 2012: UR and LR are what
the voice has left above and below the song, TS = (LR - UR) / 2. The cycle dose (Titze, Svec and
Popolo, JSLHR 46, 2003, 919-932) counts vibrations of the vocal folds; here it is told only as a ratio.
"""

from dataclasses import dataclass
from fractions import Fraction

from fifthwise.voice.level import Level, levels_of
from fifthwise.voice.singer import Singer, turn_zone
from fifthwise.voice.tune import SungTune
from fifthwise.voice.weights import WEIGHTS, Weights

__all__ = ["CostParts", "Sitting", "cost_parts", "sit", "sit_levels", "tessitura_shift"]


@dataclass(frozen=True, slots=True)
class CostParts:
    """The cost by its causes."""

    below_usable: float
    above_usable: float
    below_comfort: float
    above_comfort: float
    turns: float
    upper: float
    lower: float

    @property
    def total(self) -> float:
        """The cost."""
        usable, comfort = (self.below_usable, self.above_usable), (self.below_comfort, self.above_comfort)
        return sum((*usable, *comfort, self.turns, self.upper, self.lower))


@dataclass(frozen=True, slots=True)
class Sitting:
    """How a song sits with its tonic at a MIDI note.

    Attributes
    ----------
    in_comfort : float
        Share of the time, 0 to 1.
    in_turns_beats : Fraction
        Beats in the singer's change-over, short notes too; 0 where lengths are not known.
    upper_reserve, lower_reserve : int
        Semitones left above and below; negative where the voice does not reach.
    tessitura_shift : float
        Semitones by which the song lies above (or, negative, below) the middle of the usable range.
    cycle_dose : float or None
        Vibrations against the same time sung on the middle of the comfort range; ``None`` where
        lengths are not known.
    """

    tonic: int
    parts: CostParts
    in_comfort: float
    in_turns_beats: Fraction
    upper_reserve: int
    lower_reserve: int
    tessitura_shift: float
    cycle_dose: float | None


def sit(tune: SungTune, singer: Singer, tonic: int, weights: Weights = WEIGHTS) -> Sitting:
    """Measure how a tune sits for a singer with its tonic at a MIDI note."""
    return sit_levels(levels_of(tune, weights), singer, tonic, weights, timed=tune.timed)


def sit_levels(
    levels: tuple[Level, ...], singer: Singer, tonic: int, weights: Weights, *, timed: bool
) -> Sitting:
    """Do what ``sit`` does with levels gathered beforehand."""
    upper, lower = _reserves(levels, singer, tonic)
    total = sum((level.beats for level in levels), Fraction(0))
    easy = _beats_within(levels, tonic, singer.comfort.low.midi, singer.comfort.high.midi)
    zone = turn_zone(singer)
    in_turns = _beats_within(levels, tonic, *zone) if zone and timed else Fraction(0)
    return Sitting(
        tonic,
        cost_parts(levels, singer, tonic, weights),
        float(easy / total),
        in_turns,
        upper,
        lower,
        tessitura_shift(levels, singer, tonic),
        _cycle_dose(levels, singer, tonic) if timed else None,
    )


def tessitura_shift(levels: tuple[Level, ...], singer: Singer, tonic: int) -> float:
    """By how much a song lies above the middle of the usable range, in semitones."""
    upper, lower = _reserves(levels, singer, tonic)
    return (lower - upper) / 2


def _reserves(levels: tuple[Level, ...], singer: Singer, tonic: int) -> tuple[int, int]:
    """Semitones left above and below."""
    upper = singer.usable.high.midi - (tonic + levels[-1].semitones)
    lower = (tonic + levels[0].semitones) - singer.usable.low.midi
    return upper, lower


def cost_parts(levels: tuple[Level, ...], singer: Singer, tonic: int, weights: Weights) -> CostParts:
    """What a song costs a singer with its tonic at a MIDI note."""
    usable, comfort, zone = singer.usable, singer.comfort, turn_zone(singer)
    upper, lower = _reserves(levels, singer, tonic)
    turns = sum(
        level.long_share for level in levels if zone and zone[0] <= tonic + level.semitones <= zone[1]
    )
    return CostParts(
        weights.below_usable * _below(levels, usable.low.midi - tonic),
        weights.above_usable * _above(levels, usable.high.midi - tonic),
        weights.below_comfort * _below(levels, comfort.low.midi - tonic),
        weights.above_comfort * _above(levels, comfort.high.midi - tonic),
        weights.turns * float(turns),
        weights.upper * max(0, weights.reserve - upper),
        weights.lower * max(0, weights.reserve - lower),
    )


def _below(levels: tuple[Level, ...], floor: int) -> float:
    """Mean semitones below a floor."""
    return float(sum(level.share * (floor - level.semitones) for level in levels if level.semitones < floor))


def _above(levels: tuple[Level, ...], ceiling: int) -> float:
    """Mean semitones above a ceiling."""
    return float(
        sum(level.share * (level.semitones - ceiling) for level in levels if level.semitones > ceiling)
    )


def _beats_within(levels: tuple[Level, ...], tonic: int, low: int, high: int) -> Fraction:
    return sum((level.beats for level in levels if low <= tonic + level.semitones <= high), Fraction(0))


def _cycle_dose(levels: tuple[Level, ...], singer: Singer, tonic: int) -> float:
    middle = (singer.comfort.low.midi + singer.comfort.high.midi) / 2
    total = float(sum(level.beats for level in levels))
    return (
        float(sum(float(level.beats) * 2 ** ((tonic + level.semitones - middle) / 12) for level in levels))
        / total
    )
