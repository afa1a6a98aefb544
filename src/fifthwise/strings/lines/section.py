"""Two to four strings together: each chord voiced among them, with the least motion.

The search is exact over joint states, one voicing of all players a chord. Motion is a distance between
voicings, so a voicing that costs no less than another one and the way from that one to it can be left out:
whatever follows it follows the other at no more. What is left out so can never be on a path that is better.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from fifthwise.chart import Chart, Timeline
from fifthwise.strings.errors import LineFault, Unplayable
from fifthwise.strings.fingering import Fingering, Line, LineNote, finger_line
from fifthwise.strings.lines.beat import Bars, on_beat
from fifthwise.strings.lines.changes import Change, changes_of
from fifthwise.strings.lines.faults import fingered
from fifthwise.strings.lines.result import ChartLine, groups_of, spread
from fifthwise.strings.lines.tones import Tone, chord_roles
from fifthwise.strings.lines.voicings import Floats, Ints, Player, Top, Voicings, voicings
from fifthwise.strings.lines.weights import SECTION, SectionWeights
from fifthwise.theory import Degree

__all__ = ["Section", "section"]

FEWEST, MOST = 2, 4
DOMINATORS = 64  # voicings that others are held against
Groups = tuple[tuple[Change, ...], ...]


@dataclass(frozen=True, slots=True)
class Section:
    """Parts for several players.

    Attributes
    ----------
    parts : tuple of ChartLine
        Low to high.
    cost : float
        Of the voicings and their motion; what the fingers cost is in each part.
    """

    parts: tuple[ChartLine, ...]
    cost: float


def section(
    chart: Chart,
    timeline: Timeline,
    players: Sequence[Player],
    *,
    top: ChartLine | None = None,
    weights: SectionWeights = SECTION,
) -> Section:
    """Voice a song's chords for two to four players.

    Parameters
    ----------
    players : sequence of (Instrument, Level)
        Low to high. A cello or double bass at the bottom has the chord's bass.
    top : ChartLine, optional
        What the highest player has, such as a ``harmony`` or a tune; the others are voiced under it. Without
        it the top voice is led by guide tones.

    Raises
    ------
    LineFault
        Fewer than two players or more than four, or the song has no chords.
    Unplayable
        A chord cannot be voiced so; names the bar and the chord.
    """
    if not FEWEST <= len(players) <= MOST:
        count = f"{len(players)} player{'s' * (len(players) != 1)}"
        raise LineFault(count, "players", f"Name {FEWEST} to {MOST}, low to high")
    groups = groups_of(changes_of(chart, timeline))
    voiced = players if top is None else players[:-1]
    layers = []
    for group in groups:
        layer = voicings(group[0], voiced, _top_over(group, top), weights)
        if not len(layer.picks):
            what = f"no voicing of the chord fits {_named(players)}"
            raise Unplayable(
                what, group[0].where, "Choose wider levels, other instruments or another top voice"
            )
        layers.append(layer)
    rows, cost = best_rows(layers, weights.motion)
    parts = tuple(
        _part(timeline, groups, layers, rows, player, voiced[player]) for player in range(len(voiced))
    )
    return Section(parts if top is None else (*parts, top), cost)


def best_rows(layers: Sequence[Voicings], motion: float) -> tuple[tuple[int, ...], float]:
    """Choose a row of each layer so that their costs and the motion between them are least.

    Parameters
    ----------
    motion : float
        Each semitone that a voice moves; not below 0.

    Returns
    -------
    rows, cost
    """
    totals, came, kept = layers[0].costs, [], [_undominated(layers[0].sounds, layers[0].costs, motion)]
    for before, after in pairwise(layers):
        ways = totals[kept[-1], None] + motion * _distance(before.sounds[kept[-1]], after.sounds)
        best = ways.argmin(axis=0)
        came.append(kept[-1][best])
        totals = ways[best, np.arange(best.size)] + after.costs
        kept.append(_undominated(after.sounds, totals, motion))
    row = int(totals.argmin())
    rows, cost = [row], float(totals[row])
    for back in reversed(came):
        rows.append(int(back[rows[-1]]))
    return tuple(reversed(rows)), cost


def _distance(before: Ints, after: Ints) -> Floats:
    """Semitones that the voices move, shape (rows before, rows after)."""
    total = np.zeros((len(before), len(after)))
    for voice in range(before.shape[1]):
        total += np.abs(before[:, voice, None] - after[None, :, voice])
    return total


def _undominated(sounds: Ints, totals: Floats, motion: float) -> Ints:
    """The rows that may still be on a best path, the cheapest first."""
    order = totals.argsort(kind="stable")
    ordered, sorted_totals = sounds[order], totals[order]
    best = ordered[:DOMINATORS]
    reached = sorted_totals[: len(best), None] + motion * _distance(best, ordered)
    earlier = np.arange(len(best))[:, None] < np.arange(len(ordered))[None, :]
    dominated = (earlier & (reached <= sorted_totals[None, :])).any(axis=0)
    return order[~dominated]


def _top_over(group: tuple[Change, ...], top: ChartLine | None) -> Top | None:
    """What a given top voice has over a chord; ``None`` where it rests."""
    if top is None:
        return None
    start, end = group[0].starts_at, group[-1].until
    notes = [
        each.note
        for each in top.fingering.notes
        if each.note.starts_at < end and each.note.starts_at + each.note.length > start
    ]
    if not notes:
        return None
    degree = notes[0].degrees[0] if notes[0].degrees else None
    lowest = min(note.pitches[0].midi for note in notes)
    return Top(notes[0].pitches[0].midi, lowest, _tone(group[0], degree))


def _tone(change: Change, degree: Degree | None) -> Tone | None:
    return next((tone for tone in chord_roles(change) if tone.degree == degree), None)


def _part(
    timeline: Timeline,
    groups: Groups,
    layers: Sequence[Voicings],
    rows: Sequence[int],
    player: int,
    who: Player,
) -> ChartLine:
    line = Line(tuple(_notes(timeline, groups, layers, rows, player)), timeline.bars[0].tempo_bpm)
    wheres = [group[0].where for group in groups]
    fingering: Fingering = fingered(lambda: finger_line(line, *who), wheres)
    return spread(timeline, fingering, groups)


def _notes(
    timeline: Timeline, groups: Groups, layers: Sequence[Voicings], rows: Sequence[int], player: int
) -> Iterator[LineNote]:
    bars = Bars(timeline)
    for group, layer, row in zip(groups, layers, rows, strict=True):
        pitch, tone = layer.voice(row, player)
        first = group[0]
        length = group[-1].end - first.starts_at
        beat = on_beat(bars.at(first.starts_at), first.starts_at)
        yield LineNote((pitch,), first.starts_at, length, on_beat=beat, degrees=(tone.degree,))


def _named(players: Sequence[Player]) -> str:
    return ", ".join(instrument.label.lower() for instrument, _ in players)
