"""One voice over the chords: what guide lines and pads have in common."""

from collections.abc import Callable, Iterable, Sequence

from fifthwise.chart import Timeline
from fifthwise.strings.fingering import Costs, Fingering, LineNote, finger_choices
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.beat import Bars, on_beat
from fifthwise.strings.lines.changes import Change
from fifthwise.strings.lines.faults import fingered, out_of_reach
from fifthwise.strings.lines.reach import octaves_of, reached
from fifthwise.strings.lines.tones import Tone
from fifthwise.strings.lines.voice import Register, within_register
from fifthwise.strings.lines.weights import ToneWeights

__all__ = ["Offered", "one_voice", "tone_cost"]

Offered = Callable[[Change], Iterable[Tone]]


def tone_cost(tone: Tone, weights: ToneWeights) -> float:
    """What a tone costs by its role."""
    return weights.altered if tone.altered else float(getattr(weights, tone.role))


def one_voice(
    timeline: Timeline,
    groups: Sequence[Sequence[Change]],
    instrument: Instrument,
    level: Level,
    register: Register | None,
    offered: Offered,
    weights: ToneWeights,
    costs: Costs,
) -> Fingering:
    """Search one tone for each chord, a repeated chord once.

    Parameters
    ----------
    groups : sequence of sequence of Change
        Chords, each with its repetitions.
    offered : callable
        The tones that a chord offers, of which the best in sum is taken.

    Raises
    ------
    Unplayable
        A chord has none of them under the hand.
    """
    sounds = within_register(reached(instrument, level), register)
    bars = Bars(timeline)
    places = [_choices(group, bars, offered(group[0]), sounds, weights) for group in groups]
    for group, choices in zip(groups, places, strict=True):
        if not choices:
            raise out_of_reach(group[0], level)
    return fingered(
        lambda: finger_choices(tuple(places), timeline.bars[0].tempo_bpm, instrument, level, costs=costs),
        [group[0].where for group in groups],
    )


def _choices(
    group: Sequence[Change],
    bars: Bars,
    tones: Iterable[Tone],
    sounds: frozenset[int],
    weights: ToneWeights,
) -> tuple[LineNote, ...]:
    first = group[0]
    beat = on_beat(bars.at(first.starts_at), first.starts_at)
    return tuple(
        LineNote(
            (pitch,),
            first.starts_at,
            group[-1].end - first.starts_at,
            on_beat=beat,
            degrees=(tone.degree,),
            cost=tone_cost(tone, weights),
        )
        for tone in tones
        for pitch in octaves_of(tone.note, sounds)
    )
