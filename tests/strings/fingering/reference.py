"""The costs of docs/fingering.md, written a second time: plain loops, apart from the search, note by note.

``every_hand`` tries every string, centre, shape and finger; ``move`` tells what one hand after another costs.
"""

import itertools
from dataclasses import dataclass
from math import gcd, inf, log2

import numpy as np

from fifthwise.strings.fingering import LONG_S, SHORT_S

FINGERS = (-1, 0, 1, 2, 3, 4)
LETTERS = "CDEFGAB"


@dataclass(frozen=True)
class Held:
    """One way to play a note: ``stops`` as (string, stop, finger, partial)."""

    stops: tuple
    centre: int
    thumb: bool
    cost: float


def every_hand(note, instrument, level, costs, tempo, harmonics=False):
    """Every way to play a note, by trying everything."""
    long = note.length * 60 / tempo >= LONG_S
    low, high = dict(instrument.frame.levels)[level]
    found = []
    for places in itertools.product(*(_places(pitch, instrument, harmonics) for pitch in note.pitches)):
        strings = [string for string, _, _ in places]
        if len(places) == 2 and abs(strings[0] - strings[1]) != 1:
            continue
        if len(places) == 2 and any(partial for _, _, partial in places):
            continue
        for centre in range(low, high + 1):
            for fingers in itertools.product(FINGERS, repeat=len(places)):
                stops = tuple(
                    (*place[:2], finger, place[2]) for place, finger in zip(places, fingers, strict=True)
                )
                found += _held(note, stops, centre, instrument, costs, long)
    return found


def _places(pitch, instrument, harmonics):
    """(string, stop, partial) of every place that sounds a pitch."""
    for string, own in enumerate(instrument.strings):
        above = pitch.midi - own.midi
        if 0 <= above <= instrument.highest:
            yield string, above, 0
        for partial in (2, 3, 4) if harmonics else ():
            # only the node nearest to the nut: the others lie at the same place or far from it
            share = min(k / partial for k in range(1, partial) if gcd(k, partial) == 1)
            if round(12 * log2(partial)) == above:
                yield string, round(-12 * log2(1 - share)), partial


def _held(note, stops, centre, instrument, costs, long):
    frame = instrument.frame
    stopped = [each for each in stops if each[2] != 0]
    if not _possible(note, stops, stopped, instrument):
        return
    there = costs.height * max(0, centre - max(frame.home)) + costs.high * max(0, centre - 7)
    there += 0 if centre in frame.home else costs.away
    if not stopped:
        for thumb in {shape.by_thumb for shape in frame.shapes(centre)}:
            yield Held(stops, centre, thumb, there + costs.long_open * long)  # once for both strings
        return
    pairs = zip(stops, note.pitches, strict=True)
    there += sum(_own(*stop, pitch, centre, instrument, costs, long) for stop, pitch in pairs)
    there += costs.barre if len(stopped) == 2 and stopped[0][2] == stopped[1][2] else 0
    wanted = [(finger, stop - centre) for _, stop, finger, _ in stopped]
    for shape in frame.shapes(centre):
        reach = {(each.finger, each.offset): each.cost for each in shape.reaches}
        if all(each in reach for each in wanted) and not (shape.double and len(stops) == 1):
            held = shape.cost + sum(reach[each] for each in wanted)
            yield Held(stops, centre, shape.by_thumb, there + held)


def _possible(note, stops, stopped, instrument):
    """Whether open strings have no finger, pins are kept and two fingers do not cross."""
    pins = note.pins or "." * len(stops)
    for pin, (string, stop, finger, _) in zip(pins, stops, strict=True):
        if (finger == 0) != (stop == 0) or not _pinned(pin, string, finger, instrument):
            return False
    if len(stopped) < 2:
        return True
    (_, low, one, _), (_, high, other, _) = stopped
    if low == high or one == other:
        return low == high and one == other
    # neighbouring fingers a minor third, the next but one a major third, the outer two a tenth's nine
    widest = {1: 3, 2: 4}.get(abs(other - one), 9)
    return (high - low) * (other - one) > 0 and abs(high - low) <= widest


def _pinned(pin, string, finger, instrument):
    if pin in ("", "."):
        return True
    name = pin[:-1] if pin[-1] in "01234T" else pin
    wanted = {"T": -1, **{str(each): each for each in range(5)}}.get(pin[-1], finger)
    own = instrument.strings[string]
    return finger == wanted and name in ("", str(own.name), str(own))


def _own(string, stop, finger, partial, pitch, centre, instrument, costs, long):
    """What one finger costs, beyond its reach."""
    total = costs.harmonic if partial else 0
    if finger == 4:
        total += costs.fourth + (costs.long_fourth if long else 0)
    if finger == 0:
        return total + (costs.long_open if long else 0)
    if instrument.frame.plain and centre in instrument.frame.home and not partial:
        own = instrument.strings[string]
        letters = LETTERS.index(pitch.name.letter) + 7 * pitch.octave
        letters -= LETTERS.index(own.name.letter) + 7 * own.octave
        total += costs.spelling if letters != finger else 0
    return total


def move(old, new, before, after, costs, tempo):
    """What it costs to go from one hand to the next; ``before`` and ``after`` are their notes."""
    rested = after.starts_at > before.starts_at + before.length
    slurred = before.slur and not rested
    moved = old.centre != new.centre or old.thumb != new.thumb
    total = _shift(old, new, rested, costs) if moved else 0
    if moved:
        total += costs.slur_shift if slurred else 0
        total += costs.short_shift if (after.starts_at - before.starts_at) * 60 / tempo < SHORT_S else 0
        total -= costs.beat_shift if after.on_beat or after.phrase_start else 0
    crossed = abs(_bow(old) - _bow(new))
    total += costs.crossing * crossed + (costs.skip if crossed >= 2 else 0)
    total += costs.slur_crossing * crossed if slurred else 0
    for one, other in itertools.product(old.stops, new.stops):
        total += _fingers(one, other, moved, costs)
    for one, other in zip(before.pitches, after.pitches, strict=False):  # one may be alone
        apart = abs(one.midi - other.midi)
        total += costs.motion * apart + (costs.change if apart else costs.repeat)
    return total


def _shift(old, new, rested, costs):
    where = [100 * (1 - 2 ** (-hand.centre / 12)) for hand in (old, new)]
    length = costs.distance * abs(where[0] - where[1])
    is_open = any(all(finger == 0 for _, _, finger, _ in hand.stops) for hand in (old, new))
    return costs.shift + length - (costs.quiet + length / 2 if rested or is_open else 0)


def _bow(hand):
    return sum(each[0] for each in hand.stops) / len(hand.stops)


def _fingers(one, other, moved, costs):
    (string, stop, finger, _), (strings, stops, fingers, _) = one, other
    if 0 in (finger, fingers):
        return 0
    if string == strings:
        if finger == fingers and stop != stops:
            slid = abs(stops - stop) == 1
            return (-costs.slide if moved else costs.creep) if slid else costs.same_finger
        if moved:
            return 0
        if stop == stops and finger != fingers:
            return costs.substitute
        return inf if (fingers - finger) * (stops - stop) < 0 else 0
    if abs(string - strings) == 1 and finger == fingers and not moved:
        return costs.fifth if stop == stops else costs.hop
    return 0


def every_path(layers, moves):
    """The cost of every path through layers of hands, shape (rows, rows, …)."""
    total = np.zeros(())
    for at, hands in enumerate(layers):
        total = total[..., None] + np.array([hand.cost for hand in hands])
        if at:
            total = total + moves[at - 1].reshape((1,) * (at - 1) + moves[at - 1].shape)
    return total


def every_cost(line, instrument, level, costs, harmonics=False):
    """The hands of each note and the cost of every path; ``None`` where a note has no hand."""
    layers = [
        every_hand(note, instrument, level, costs, line.tempo_bpm, harmonics and len(note.pitches) == 1)
        for note in line.notes
    ]
    if not all(layers):
        return layers, None
    moves = [
        np.array(
            [
                [move(one, other, old, new, costs, line.tempo_bpm) for other in layers[at + 1]]
                for one in layers[at]
            ],
            dtype=float,
        )
        for at, (old, new) in enumerate(itertools.pairwise(line.notes))
    ]
    return layers, every_path(layers, moves)
