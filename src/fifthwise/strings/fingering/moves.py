"""What it costs a hand to go from one note to the next, for every pair of ways to play them.

Each cost is a table of shape (rows before, rows after); ``Moves`` keeps apart what depends on how the two
notes are joined, so that one table serves them all. A move that no hand makes costs ``inf``.
"""

from dataclasses import dataclass
from itertools import product

import numpy as np
from numpy.typing import NDArray

from fifthwise.strings.fingering.costs import Costs
from fifthwise.strings.fingering.hands import NO_STRING, Hands
from fifthwise.strings.frame import OPEN

__all__ = ["Link", "Moves", "moves_between", "moves_cost"]

Table = NDArray[np.float64]
Ints = NDArray[np.int64]
MANY = 4096  # pairs of hands; with fewer, weighing each costs less than reading it
STRING_LENGTH = 100.0  # distances are in hundredths of it


@dataclass(frozen=True, slots=True)
class Link:
    """How a note is joined to the one before.

    Attributes
    ----------
    slurred : bool
        Both lie under one bow.
    rested : bool
        A rest lies between.
    short : bool
        The note before leaves no time.
    on_beat : bool
        The note begins on the beat or a phrase.
    """

    slurred: bool = False
    rested: bool = False
    short: bool = False
    on_beat: bool = False


@dataclass(frozen=True, slots=True, eq=False)
class Moves:
    """Costs from every hand before to every hand after.

    Attributes
    ----------
    plain : ndarray
        In separate bows, without a rest, off the beat.
    shifted : ndarray
        1 where the hand shifts.
    heard : ndarray
        What a rest takes off a shift.
    crossed : ndarray
        Strings that the bow crosses.
    """

    plain: Table
    shifted: Table
    heard: Table
    crossed: Table


def moves_between(before: Hands, after: Hands, costs: Costs) -> Moves:
    """Tell what every move costs, however the notes are joined."""
    shifted = before.centres[:, None] != after.centres[None, :]
    shifted |= before.thumbs[:, None] != after.thumbs[None, :]
    quiet = before.opens[:, None] | after.opens[None, :]
    length = np.abs(_along(before)[:, None] - _along(after)[None, :]) * costs.distance
    heard = np.where(shifted & ~quiet, costs.quiet + length / 2, 0.0)
    shift = np.where(shifted, costs.shift + length - np.where(quiet, costs.quiet + length / 2, 0.0), 0.0)
    crossed = np.abs(before.bows[:, None] - after.bows[None, :])
    plain = shift + costs.crossing * crossed + costs.skip * (crossed >= 2)
    plain += _fingers_cost(before, after, shifted, costs)
    if costs.motion or costs.change or costs.repeat:
        plain += _motion(before, after, costs)
    return Moves(plain, shifted.astype(np.float64), heard, crossed)


def moves_cost(moves: Moves, link: Link, costs: Costs) -> Table:
    """Tell what every move costs where two notes are joined so."""
    total = moves.plain
    each = costs.slur_shift * link.slurred + costs.short_shift * link.short - costs.beat_shift * link.on_beat
    if each:
        total = total + each * moves.shifted
    if link.rested:
        total = total - moves.heard
    if link.slurred:
        total = total + costs.slur_crossing * moves.crossed
    return total


def _along(hands: Hands) -> NDArray[np.float64]:
    """Where each hand lies, in hundredths of the string's length."""
    return STRING_LENGTH * (1 - 2.0 ** (-hands.centres / 12))


def _fingers_cost(before: Hands, after: Hands, shifted: NDArray[np.bool_], costs: Costs) -> Table:
    """What the fingers before and after make of each other, each with each.

    Hands share their stops: where hands are many, each pair of stops is weighed once and read from there.
    """
    total = np.zeros(shifted.shape)
    columns = product(range(before.stops.shape[1]), range(after.stops.shape[1]))
    if total.size < MANY:
        for old, new in columns:
            held, then = before.kinds[before.places[:, old]], after.kinds[after.places[:, new]]
            total += _finger_cost(held, then, shifted, costs)
        return total
    variants = [_finger_cost(before.kinds, after.kinds, np.bool_(moved), costs) for moved in (False, True)]
    tables, width = np.stack(variants).ravel(), len(after.kinds)
    variant = shifted * variants[0].size
    for old, new in columns:
        total += tables.take(variant + (before.places[:, old, None] * width + after.places[None, :, new]))
    return total


def _finger_cost(held: Ints, then: Ints, shifted: NDArray[np.bool_] | np.bool_, costs: Costs) -> Table:
    """What one stop before and one after make of each other; stops are (string, stop, finger)."""
    string, stop, finger = (held[:, None, part] for part in range(3))
    strings, stops, fingers = (then[None, :, part] for part in range(3))
    used = (finger != OPEN) & (fingers != OPEN) & (string != NO_STRING) & (strings != NO_STRING)
    same_string, same_finger, apart = string == strings, finger == fingers, np.abs(stops - stop)
    stayed = used & same_string & ~shifted
    total = np.where(stayed & ((fingers - finger) * (stops - stop) < 0), np.inf, 0.0)
    total += np.where(stayed & (apart == 0) & ~same_finger, costs.substitute, 0.0)
    carried = used & same_string & same_finger & (apart > 0)
    total += np.where(carried & (apart > 1), costs.same_finger, 0.0)
    total += np.where(carried & (apart == 1), np.where(shifted, -costs.slide, costs.creep), 0.0)
    hopped = used & same_finger & ~shifted & (np.abs(string - strings) == 1)
    return total + np.where(hopped, np.where(apart == 0, costs.fifth, costs.hop), 0.0)


def _motion(before: Hands, after: Hands, costs: Costs) -> Table:
    """What it costs that the voices move, or stay, each to its like."""
    columns = min(before.sounds.shape[1], after.sounds.shape[1])
    table = np.zeros((len(before.hands), len(after.hands)))
    for column in range(columns):
        old, new = before.sounds[:, column, None], after.sounds[None, :, column]
        moved = np.abs(new - old)
        cost = costs.motion * moved + np.where(moved > 0, costs.change, costs.repeat)
        table += np.where((old == NO_STRING) | (new == NO_STRING), 0.0, cost)
    return table
