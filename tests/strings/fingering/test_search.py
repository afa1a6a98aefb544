from itertools import pairwise

import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fifthwise.strings import LEVELS, Unplayable, instrument_of
from fifthwise.strings.fingering import COSTS, finger_line, fingering_faults, fingerings
from tests.strategies import costs, instruments, lines
from tests.strings.fingering.reading import line
from tests.strings.fingering.reference import every_cost, move

MOST = {"first": 4, "half": 4, "third": 3, "all": 2}
HIGHEST = {"first": 8, "half": 8, "third": 11, "all": 20}


@st.composite
def cases(draw, weights=costs):
    """An instrument, a level and a short line in its range."""
    instrument, level = draw(instruments()), draw(st.sampled_from(LEVELS))
    written = draw(lines(instrument, HIGHEST[level], MOST[level]))
    return written, instrument, level, draw(weights()), draw(st.booleans())


def shown(layers):
    """For each layer, the number of what each of its hands shows."""
    for hands in layers:
        numbers = {}
        yield np.array([numbers.setdefault(frozenset(hand.stops), len(numbers)) for hand in hands])


def best_shown(layers, totals):
    """The cost of each fingering that shows other fingers, the best first."""
    keys = np.zeros((), dtype=np.int64)
    for numbers in shown(layers):
        keys = keys[..., None] * (numbers.max() + 1) + numbers
    best = {}
    for key, cost in zip(keys.ravel().tolist(), totals.ravel().tolist(), strict=True):
        best[key] = min(cost, best.get(key, np.inf))
    return sorted(cost for cost in best.values() if np.isfinite(cost))


@settings(max_examples=500)
@given(cases())
def test_no_fingering_is_cheaper(case):
    """The search finds what trying every hand for every note finds, by costs that are written apart."""
    written, instrument, level, weights, harmonics = case
    _, totals = every_cost(written, instrument, level, weights, harmonics)
    if totals is None:
        with pytest.raises(Unplayable):
            finger_line(written, instrument, level, costs=weights, harmonics=harmonics)
        return
    found = finger_line(written, instrument, level, costs=weights, harmonics=harmonics)
    assert found.cost == pytest.approx(totals.min())
    assert fingering_faults(found, instrument, level) == ()


@settings(max_examples=150)
@given(cases(), st.integers(1, 8))
def test_the_next_best_are_the_next_best(case, count):
    """Several fingerings are the cheapest that show different fingers, in order; the first is the best."""
    written, instrument, level, weights, harmonics = case
    layers, totals = every_cost(written, instrument, level, weights, harmonics)
    assume(totals is not None)
    found = fingerings(written, instrument, level, count, costs=weights, harmonics=harmonics)
    assert [each.cost for each in found] == pytest.approx(best_shown(layers, totals)[:count])
    assert len({tuple(frozenset(note.stops) for note in each.notes) for each in found}) == len(found)
    assert found[0] == finger_line(written, instrument, level, costs=weights, harmonics=harmonics)
    assert all(fingering_faults(each, instrument, level) == () for each in found)


@settings(max_examples=60)
@given(cases())
def test_a_fingering_costs_what_its_hands_and_moves_cost(case):
    """The cost that is told belongs to the hands that are shown."""
    written, instrument, level, weights, harmonics = case
    layers, totals = every_cost(written, instrument, level, weights, harmonics)
    assume(totals is not None)
    for each in fingerings(written, instrument, level, 3, costs=weights, harmonics=harmonics):
        assert each.cost == pytest.approx(cost_of(each, layers, weights, written.tempo_bpm))


def cost_of(fingering, layers, weights, tempo):
    """The cheapest of the hands that show a fingering, whether the thumb is on the strings or not."""
    totals = None
    for at, (note, hands) in enumerate(zip(fingering.notes, layers, strict=True)):
        stops = tuple((s.string, s.stop, s.finger, s.harmonic) for s in note.stops)
        here = [hand for hand in hands if hand.stops == stops and hand.centre == note.centre]
        if totals is None:
            totals = [(hand, hand.cost) for hand in here]
            continue
        before = fingering.notes[at - 1].note
        totals = [
            (new, min(t + move(old, new, before, note.note, weights, tempo) for old, t in totals) + new.cost)
            for new in here
        ]
    return min(total for _, total in totals)


@settings(max_examples=100)
@given(cases(weights=lambda: st.just(COSTS)))
def test_a_wider_level_never_costs_more(case):
    """What a hand may do at one level it may do at the next."""
    written, instrument, _, weights, harmonics = case
    found = []
    for level in LEVELS:
        try:
            found.append(finger_line(written, instrument, level, costs=weights, harmonics=harmonics).cost)
        except Unplayable:
            found.append(np.inf)
    assert all(after <= before + 1e-9 for before, after in pairwise(found))


def test_a_line_of_one_note_is_its_cheapest_hand():
    """Nothing but the note decides."""
    violin = instrument_of("violin")
    layers, totals = every_cost(line("E5"), violin, "first", COSTS)
    assert len(layers[0]) == 2
    assert finger_line(line("E5"), violin).cost == totals.min() == 0
