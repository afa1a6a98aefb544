"""When a bass plays: on every change, and on the beats that the feel and the metre ask for.

- two-beat: the first beat and the middle of the bar (1 and 3 in 4/4, both in 2/2 and 6/8, 1 and 4 in 5/4).
- waltz: the first and the last of three beats.
- walking: every beat.
- held: where the chord changes, and at each bar line.

Common practice, no source. A chord that rings, and one that is stopped, has its change alone.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import zip_longest
from typing import Literal

from fifthwise.chart import PlayedBar, Timeline, groove
from fifthwise.strings.lines.beat import beat_starts, on_beat
from fifthwise.strings.lines.changes import Change
from fifthwise.theory import Metre

__all__ = ["BassBeat", "BassStyle", "bass_beats", "style_of"]

BassStyle = Literal["two-beat", "waltz", "walking", "held"]
STYLES: dict[str, BassStyle] = {
    "swing": "walking",
    "shuffle": "walking",
    "blues": "walking",
    "ballad": "held",
}
WALTZ_BEATS = 3


@dataclass(frozen=True, slots=True)
class BassBeat:
    """A place where the bass plays.

    Attributes
    ----------
    change : int
        Index of the chord that sounds.
    on_change : bool
        Whether the chord begins here.
    leads : bool
        Whether it is short, and the next note another chord's bass, so that it may lead there.
    walks : bool
        Whether every tone of the chord will do; otherwise its root and its fifth.
    bar : int
        Index into the timeline's bars.
    """

    at: Fraction
    length: Fraction
    change: int
    on_change: bool
    leads: bool
    walks: bool
    bar: int
    on_beat: bool


def style_of(feel: str, metre: Metre) -> BassStyle:
    """How a bass plays a feel: walking in swing, shuffle and blues, held in a ballad; otherwise by metre."""
    named = STYLES.get(groove(feel))
    if named == "walking" and len(beat_starts(metre)) == WALTZ_BEATS and groove(feel) != "swing":
        named = None
    if named:
        return named
    return "waltz" if len(beat_starts(metre)) == WALTZ_BEATS else "two-beat"


def bass_beats(
    timeline: Timeline, changes: tuple[Change, ...], style: BassStyle | None = None
) -> tuple[BassBeat, ...]:
    """Every place where the bass plays, in order of time.

    Parameters
    ----------
    style : str, optional
        One for the whole song; without it each bar has its feel's own.
    """
    styles = [style or style_of(bar.feel, bar.metre) for bar in timeline.bars]
    bars = [(index, bar) for index, bar in enumerate(timeline.bars) if not bar.overlays]
    beats = [(at, index) for index, bar in bars for at in _bar_beats(bar, styles[index])]
    found: list[_Place] = []
    place = 0
    for number, change in enumerate(changes):
        found.append(_Place(change.starts_at, number, True, change.bar))
        first = max(change.starts_at, change.written_at) + _room(timeline, change)
        while place < len(beats) and beats[place][0] < change.end:
            at, index = beats[place]
            if at >= first and not change.rings and not change.stopped:
                found.append(_Place(at, number, False, index))
            place += 1
    return tuple(_timed(timeline, found, changes, styles))


@dataclass(frozen=True, slots=True)
class _Place:
    at: Fraction
    change: int
    on_change: bool
    bar: int


def _room(timeline: Timeline, change: Change) -> Fraction:
    """How soon after a change the next beat may be played: a felt beat, or half of one after a late chord."""
    metre = timeline.bars[change.bar].metre
    shortest = min(Fraction(1), metre.beat)
    return shortest / 2 if change.starts_at > change.written_at else shortest


def _bar_beats(bar: PlayedBar, style: BassStyle) -> Iterator[Fraction]:
    starts = beat_starts(bar.metre)
    chosen = _chosen(style, len(starts))
    offset = bar.start + bar.length - bar.metre.length
    for beat in chosen:
        if offset + starts[beat] >= bar.start:
            yield offset + starts[beat]


def _chosen(style: BassStyle, beats: int) -> tuple[int, ...]:
    if style == "walking":
        return tuple(range(beats))
    if style == "held" or beats == 1:
        return (0,)
    return (0, beats - 1) if style == "waltz" else (0, (beats + 1) // 2)


def _timed(
    timeline: Timeline, found: list[_Place], changes: tuple[Change, ...], styles: list[BassStyle]
) -> Iterator[BassBeat]:
    for place, after in zip_longest(found, found[1:]):
        change, bar = changes[place.change], timeline.bars[place.bar]
        length = (min(change.end, after.at) if after else change.end) - place.at
        leads = (
            after is not None
            and after.on_change
            and changes[after.change].bass != change.bass
            and after.at - place.at <= bar.metre.tempo_unit
            and styles[place.bar] != "two-beat"
        )
        walks = styles[place.bar] == "walking"
        yield BassBeat(
            place.at, length, place.change, place.on_change, leads, walks, place.bar, on_beat(bar, place.at)
        )
