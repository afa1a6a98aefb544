"""Two voices under the song: a double stop for each chord, pairs and fingers searched together."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import permutations

from fifthwise.chart import Chart, Timeline
from fifthwise.strings.errors import Unplayable
from fifthwise.strings.fingering import Costs, LineNote, finger_choices
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.beat import Bars, on_beat
from fifthwise.strings.lines.changes import Change, changes_of
from fifthwise.strings.lines.faults import fingered, out_of_reach
from fifthwise.strings.lines.reach import octaves_of, reached, together
from fifthwise.strings.lines.result import ChartLine, groups_of, spread
from fifthwise.strings.lines.tones import Tone, chord_roles
from fifthwise.strings.lines.voice import Register, within_register
from fifthwise.strings.lines.weights import COMP, COMP_COSTS, CompWeights
from fifthwise.theory import Degree, SpelledPitch

__all__ = ["comp", "pair_cost"]

SECONDS = (1, 2)
PERFECT_FIFTH, C3 = 7, 48
SEMITONES = 12
Voice = tuple[SpelledPitch, Tone]


def comp(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    level: Level = "first",
    *,
    register: Register | None = None,
    sung: Register | None = None,
    weights: CompWeights = COMP,
    costs: Costs = COMP_COSTS,
) -> ChartLine:
    """Find a double stop for each chord: telling tones, smooth, under the hand.

    The choices for a chord are all pairs of its tones that can be stopped together; only where there are
    none, each tone alone. A chord that is repeated without a silence keeps its shape and counts once. What is
    least is the sum of the pairs' weights, of the semitones that both voices move, and of the fingers' costs.

    Parameters
    ----------
    register : (SpelledPitch, SpelledPitch), optional
        Lowest and highest pitch to use.
    sung : (SpelledPitch, SpelledPitch), optional
        Where the singer sings most, as ``sung_register`` tells it; each tone there costs ``in_voice``.
    weights, costs : CompWeights, Costs
        What a pair costs; what fingers and motion cost.

    Raises
    ------
    LineFault
        The song has no chords.
    Unplayable
        A chord has no tone under the hand; names the bar and the chord.
    """
    groups = groups_of(changes_of(chart, timeline))
    sounds = within_register(reached(instrument, level), register)
    top = max(string.midi for string in instrument.strings)
    asked = _Asked(sounds, together(instrument, level), sung, weights, top)
    tempo_bpm, wheres = timeline.bars[0].tempo_bpm, [group[0].where for group in groups]
    bars = Bars(timeline)
    while True:
        places = tuple(_place(group, bars, asked, level) for group in groups)
        search = partial(finger_choices, places, tempo_bpm, instrument, level, costs=costs)
        try:
            fingering = fingered(search, wheres)
        except Unplayable as fault:
            asked.play_alone(groups[wheres.index(fault.where)][0], fault)
        else:
            return spread(timeline, fingering, groups)


def pair_cost(
    low: Voice, high: Voice, tones: Iterable[Tone], sung: Register | None = None, weights: CompWeights = COMP
) -> float:
    """What two tones cost over a chord, fingers and motion apart.

    Parameters
    ----------
    low, high : (SpelledPitch, Tone)
        The lower and the higher one.
    tones : iterable of Tone
        All of the chord.
    """
    heard = (low[1], high[1])
    apart = high[0].midi - low[0].midi
    total = _told(heard, tuple(tones), weights)
    if low[1].note == high[1].note:
        total += weights.doubled + weights.doubled_third * (low[1].role == "third")
    if low[1].role == "root" and apart % SEMITONES == PERFECT_FIFTH:
        total += weights.bare_fifth
    total += _in_voice(low[0], sung, weights) + _in_voice(high[0], sung, weights)
    total += weights.muddy * (apart < PERFECT_FIFTH and low[0].midi < C3)
    return total + weights.second * (apart in SECONDS)


def _in_voice(pitch: SpelledPitch, sung: Register | None, weights: CompWeights) -> float:
    return weights.in_voice * (sung is not None and sung[0].midi <= pitch.midi <= sung[1].midi)


def _told(heard: tuple[Tone, ...], tones: tuple[Tone, ...], weights: CompWeights) -> float:
    """What of the chord is not heard, and what tells little of it."""
    has = {tone.role for tone in tones}
    got = {tone.role for tone in heard}
    total = weights.no_third * ("third" in has and "third" not in got)
    total += weights.no_seventh * ("seventh" in has and "seventh" not in got)
    total += sum(weights.root * (tone.role == "root") for tone in heard)
    total += sum(weights.fifth * (tone.role == "fifth" and not tone.altered) for tone in heard)
    coloured = [tone for tone in tones if _is_colour(tone)]
    return total + weights.no_colour * (bool(coloured) and not any(map(_is_colour, heard)))


def _is_colour(tone: Tone) -> bool:
    return tone.altered or tone.role == "colour"


class _Asked:
    """What is asked of a comp, and the choices for each chord, made once."""

    def __init__(
        self,
        sounds: frozenset[int],
        pairs: frozenset[tuple[int, int]],
        sung: Register | None,
        weights: CompWeights,
        top: int,
    ) -> None:
        self.sounds, self.pairs, self.sung, self.weights, self.top = sounds, pairs, sung, weights, top
        self.alone: set[tuple[Tone, ...]] = set()
        self._made: dict[tuple[Tone, ...], tuple[LineNote, ...]] = {}

    def play_alone(self, change: Change, fault: Unplayable) -> None:
        """Offer a chord's tones one by one, since no hand takes two; that failing too, it is a fault."""
        tones = chord_roles(change)
        if tones in self.alone:
            raise fault
        self.alone.add(tones)
        self._made.pop(tones, None)

    def choices(self, change: Change) -> tuple[LineNote, ...]:
        """Every pair of a chord's tones that may be stopped, or every tone, with its cost, without time."""
        tones = chord_roles(change)
        if tones not in self._made:
            voices = [(pitch, tone) for tone in tones for pitch in octaves_of(tone.note, self.sounds)]
            found = () if tones in self.alone else tuple(self._pairs(tones, voices))
            self._made[tones] = found or tuple(self._singles(tones, voices))
        return self._made[tones]

    def _pairs(self, tones: tuple[Tone, ...], voices: list[Voice]) -> Iterator[LineNote]:
        for low, high in permutations(voices, 2):
            if low[0].midi < high[0].midi and (low[0].midi, high[0].midi) in self.pairs:
                cost = pair_cost(low, high, tones, self.sung, self.weights)
                cost += self._height(low[0]) + self._height(high[0])
                yield _untimed((low[0], high[0]), (low[1].degree, high[1].degree), cost)

    def _singles(self, tones: tuple[Tone, ...], voices: list[Voice]) -> Iterator[LineNote]:
        for pitch, tone in voices:
            cost = _told((tone,), tones, self.weights) + _in_voice(pitch, self.sung, self.weights)
            yield _untimed((pitch,), (tone.degree,), cost + self._height(pitch))

    def _height(self, pitch: SpelledPitch) -> float:
        """What a tone above the highest open string costs."""
        return self.weights.high * max(0, pitch.midi - self.top)


def _untimed(pitches: tuple[SpelledPitch, ...], degrees: tuple[Degree, ...], cost: float) -> LineNote:
    return LineNote(pitches, Fraction(0), Fraction(0), degrees=degrees, cost=cost)


def _place(group: tuple[Change, ...], bars: Bars, asked: _Asked, level: Level) -> tuple[LineNote, ...]:
    """The choices for a chord; the first of them has the time of all."""
    first, choices = group[0], asked.choices(group[0])
    if not choices:
        raise out_of_reach(first, level)
    beat = on_beat(bars.at(first.starts_at), first.starts_at)
    length = group[-1].end - first.starts_at
    return (replace(choices[0], starts_at=first.starts_at, length=length, on_beat=beat), *choices[1:])
