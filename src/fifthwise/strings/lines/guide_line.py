"""The line that tells the chords: their 3s and 7s, one voice, by the nearest step.

A chord with a seventh (or a sixth) offers its third and that; a triad its third, and its root and fifth at a
cost; what is suspended stands for the third. Guide tones 3 and 7, moved by the nearest step: common practice.
"""

from fifthwise.chart import Chart, Timeline
from fifthwise.strings.fingering import Costs
from fifthwise.strings.frame import Level
from fifthwise.strings.instrument import Instrument
from fifthwise.strings.lines.changes import Change, changes_of
from fifthwise.strings.lines.result import ChartLine, groups_of, spread
from fifthwise.strings.lines.single import one_voice
from fifthwise.strings.lines.tones import Tone, chord_roles
from fifthwise.strings.lines.voice import Register
from fifthwise.strings.lines.weights import GUIDE, GUIDE_COSTS, ToneWeights

__all__ = ["guide_line"]

TELLING = ("third", "seventh")


def guide_line(
    chart: Chart,
    timeline: Timeline,
    instrument: Instrument,
    level: Level = "first",
    *,
    register: Register | None = None,
    weights: ToneWeights = GUIDE,
    costs: Costs = GUIDE_COSTS,
) -> ChartLine:
    """Find the guide line of a song, one note a chord.

    Parameters
    ----------
    register : (SpelledPitch, SpelledPitch), optional
        Lowest and highest pitch to use.

    Raises
    ------
    LineFault
        The song has no chords.
    Unplayable
        A chord has no such tone under the hand; names the bar and the chord.
    """
    groups = groups_of(changes_of(chart, timeline))
    found = one_voice(timeline, groups, instrument, level, register, _telling, weights, costs)
    return spread(timeline, found, groups)


def _telling(change: Change) -> tuple[Tone, ...]:
    tones = chord_roles(change)
    telling = tuple(tone for tone in tones if tone.role in TELLING)
    return telling if len(telling) == len(TELLING) else tuple(t for t in tones if t.role != "colour")
