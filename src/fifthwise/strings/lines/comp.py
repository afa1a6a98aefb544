"""Two voices under the song: a double stop for each chord, pairs and fingers searched together."""

from collections.abc import Iterable, Iterator
from itertools import combinations

from fifthwise.chart import Chart, Timeline
from fifthwise.strings.errors import Unplayable
from fifthwise.strings.fingering import LEVEL_NAMES, Costs, LineNote, finger_choices
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.beat import Bars, on_beat
from fifthwise.strings.lines.changes import Change, changes_of
from fifthwise.strings.lines.faults import fingered
from fifthwise.strings.lines.reach import octaves_of, reached
from fifthwise.strings.lines.result import ChartLine, groups_of, spread
from fifthwise.strings.lines.tones import Tone, chord_roles
from fifthwise.strings.lines.voice import Register, within_register
from fifthwise.strings.lines.weights import COMP, COMP_COSTS, CompWeights
from fifthwise.theory import SpelledPitch

__all__ = ["comp", "pair_cost"]

SECONDS = (1, 2)
PERFECT_FIFTH = 7
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

    The choices for a chord are all pairs of its tones that can be stopped together. A chord that is repeated
    without a silence keeps its shape and counts once. What is least is the sum of the pairs' weights, of the
    semitones that both voices move, and of the fingers' costs.

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
        A chord has no two tones under the hand; names the bar and the chord.
    """
    groups = groups_of(changes_of(chart, timeline))
    sounds = within_register(reached(instrument, level), register)
    bars = Bars(timeline)
    places = tuple(tuple(_choices(group, bars, sounds, sung, weights)) for group in groups)
    for group, choices in zip(groups, places, strict=True):
        if not choices:
            raise _no_pair(group[0], level)
    wheres = [group[0].where for group in groups]
    tempo_bpm = timeline.bars[0].tempo_bpm
    try:
        fingering = fingered(
            lambda: finger_choices(places, tempo_bpm, instrument, level, costs=costs), wheres
        )
    except Unplayable as fault:
        at = wheres.index(fault.where)
        raise _no_pair(groups[at][0], level) from fault
    return spread(fingering, groups)


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
    total = _missing(heard, tuple(tones), weights)
    total += sum(weights.root * (tone.role == "root") for tone in heard)
    total += sum(weights.fifth * (tone.role == "fifth" and not tone.altered) for tone in heard)
    if low[1].note == high[1].note:
        total += weights.doubled + weights.doubled_third * (low[1].role == "third")
    if low[1].role == "root" and apart % SEMITONES == PERFECT_FIFTH:
        total += weights.bare_fifth
    if sung is not None:
        total += sum(weights.in_voice * (sung[0].midi <= p.midi <= sung[1].midi) for p, _ in (low, high))
    return total + weights.second * (apart in SECONDS)


def _missing(heard: tuple[Tone, Tone], tones: tuple[Tone, ...], weights: CompWeights) -> float:
    """What of the chord is not heard."""
    has = {tone.role for tone in tones}
    got = {tone.role for tone in heard}
    total = weights.no_third * ("third" in has and "third" not in got)
    total += weights.no_seventh * ("seventh" in has and "seventh" not in got)
    coloured = [tone for tone in tones if _is_colour(tone)]
    return total + weights.no_colour * (bool(coloured) and not any(map(_is_colour, heard)))


def _is_colour(tone: Tone) -> bool:
    return tone.altered or tone.role == "colour"


def _choices(
    group: tuple[Change, ...],
    bars: Bars,
    sounds: frozenset[int],
    sung: Register | None,
    weights: CompWeights,
) -> Iterator[LineNote]:
    """Every pair of a chord's tones, with what it costs."""
    first, tones = group[0], chord_roles(group[0])
    length = group[-1].end - first.starts_at
    beat = on_beat(bars.at(first.starts_at), first.starts_at)
    voices = [(pitch, tone) for tone in tones for pitch in octaves_of(tone.note, sounds)]
    for low, high in combinations(sorted(voices, key=lambda voice: voice[0].midi), 2):
        if low[0].midi == high[0].midi:
            continue
        cost = pair_cost(low, high, tones, sung, weights)
        degrees = (low[1].degree, high[1].degree)
        yield LineNote((low[0], high[0]), first.starts_at, length, on_beat=beat, degrees=degrees, cost=cost)


def _no_pair(change: Change, level: Level) -> Unplayable:
    what = f"no two tones of the chord lie under the hand in {LEVEL_NAMES[level]}"
    return Unplayable(what, change.where, "Choose a wider level or register, or play one tone of it")
