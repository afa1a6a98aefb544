from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fifthwise.strings import Unplayable, instrument_of
from fifthwise.strings.fingering import COSTS, Line, LineNote, finger_choices, finger_line, pin_text
from fifthwise.theory import Interval, transpose
from tests.strategies import costs, instruments, lines
from tests.strings.fingering.reading import line, shifts
from tests.strings.fingering.reference import every_hand

IN_FIFTHS = ("violin", "viola", "cello", "five-string violin")
FIFTH = Interval(1, 0)


def found_or_none(*arguments, **settings):
    """The fingering, or ``None`` where there is none."""
    try:
        return finger_line(*arguments, **settings)
    except Unplayable:
        return None


@settings(max_examples=150)
@given(st.data())
def test_a_fifth_up_is_one_string_over(data):
    """Moved up a fifth and one string over, a passage keeps its fingers and its cost."""
    instrument = instrument_of(data.draw(st.sampled_from(IN_FIFTHS)))
    lower = replace(instrument, strings=instrument.strings[:-1])
    written = data.draw(lines(lower, pinned=False))
    found = found_or_none(written, lower, "third")
    assume(found is not None)
    pinned = with_pins(found, instrument, 0)
    higher = with_pins(found, instrument, 1)
    one, other = (finger_line(each, instrument, "third") for each in (pinned, higher))
    assert one.cost == pytest.approx(other.cost)
    assert [[replace(stop, string=stop.string + 1) for stop in note.stops] for note in one.notes] == [
        list(note.stops) for note in other.notes
    ]


def with_pins(found, instrument, strings):
    """The line of a fingering, so many strings over, each note pinned to its string and finger."""
    notes = (
        replace(
            note.note,
            pitches=tuple(transpose(pitch, FIFTH) for pitch in note.note.pitches)
            if strings
            else note.note.pitches,
            pins=tuple(str(instrument.strings[stop.string + strings].name) for stop in note.stops),
        )
        for note in found.notes
    )
    return Line(tuple(notes))


@settings(max_examples=150)
@given(st.data(), st.integers(0, 12), st.integers(1, 12))
def test_dearer_shifts_are_never_more(data, cheap, more):
    """Where a shift costs more, the best fingering has no more of them."""
    violin = instrument_of("violin")
    written = data.draw(lines(violin, 14, 6))
    dear, cheaper = (
        found_or_none(written, violin, "all", costs=replace(COSTS, shift=quarters / 4 + 0.01))
        for quarters in (cheap + more, cheap)
    )
    assume(cheaper is not None)
    assert shifts(dear) <= shifts(cheaper)


@settings(max_examples=150)
@given(st.data())
def test_backwards_costs_the_same(data):
    """In even notes without slurs, a passage and its reversal have fingerings of one cost."""
    instrument, weights = data.draw(instruments()), data.draw(costs())
    notes = data.draw(lines(instrument, pinned=False)).notes
    forth, back = (
        found_or_none(even(each), instrument, "third", costs=weights) for each in (notes, notes[::-1])
    )
    assume(forth is not None)
    assert forth.cost == pytest.approx(back.cost)


def even(notes):
    """The notes in quarters, one after the other."""
    return Line(tuple(LineNote(note.pitches, Fraction(at), Fraction(1)) for at, note in enumerate(notes)))


@settings(max_examples=150)
@given(st.data())
def test_pinned_to_its_fingers_a_line_keeps_them(data):
    """What was found is found again where every finger of it is pinned."""
    instrument = data.draw(instruments())
    found = found_or_none(data.draw(lines(instrument)), instrument, "third")
    assume(found is not None)
    pinned = tuple(
        replace(note.note, pins=tuple(pin_text(stop, instrument) for stop in note.stops))
        for note in found.notes
    )
    again = finger_line(Line(pinned), instrument, "third")
    assert again.cost == pytest.approx(found.cost)
    assert [note.stops for note in again.notes] == [note.stops for note in found.notes]


@settings(max_examples=100)
@given(st.data())
def test_choosing_among_notes_is_trying_each(data):
    """Where places offer several notes, the best is the best of all lines that they make."""
    violin = instrument_of("violin")
    weights = data.draw(costs())
    first, second = (even(data.draw(lines(violin, pinned=False)).notes[:2]) for _ in range(2))
    places = tuple(
        (one, replace(other, cost=data.draw(st.sampled_from((0.0, 0.5)))))
        for one, other in zip(first.notes, second.notes, strict=True)
    )
    every = [Line((one, other)) for one in places[0] for other in places[1]]
    alone = [found_or_none(each, violin, costs=weights) for each in every]
    possible = [found.cost for found in alone if found is not None]
    assume(possible)
    chosen = finger_choices(places, Fraction(100), violin, costs=weights)
    assert chosen.cost == pytest.approx(min(possible))


@settings(max_examples=150)
@given(st.data())
def test_what_is_said_to_be_out_of_reach_is(data):
    """A reason that names a note is true: no hand plays it from where the hand was."""
    instrument = data.draw(instruments())
    written = data.draw(lines(instrument, 14))
    found = found_or_none(written, instrument, "all")
    for shift in found.shifts if found else ():
        if "out of reach" not in shift.reason:
            assert shift.reason
            continue
        named = [
            note.note
            for note in found.notes[shift.note :]
            if shift.reason.startswith(" with ".join(map(str, note.note.pitches)))
        ]
        pinned = "as pinned" in shift.reason
        assert any(out_of_reach(each, instrument, shift.start, pinned) for each in named)


def out_of_reach(note, instrument, centre, pinned):
    """Whether no hand plays a note from there; where it is said to be pinned, one would without its pins."""
    free = hands_at(replace(note, pins=()), instrument, centre)
    return not hands_at(note, instrument, centre) and bool(free) == pinned


def hands_at(note, instrument, centre):
    """Every hand that plays a note from a centre."""
    return [hand for hand in every_hand(note, instrument, "all", COSTS, 100) if hand.centre == centre]


def test_five_thousand_notes_are_fingered():
    """A whole evening in one line ends, and is as good as its parts joined would be."""
    violin = instrument_of("violin")
    text = " ".join(["G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4"] * 500)
    found = finger_line(line(text), violin)
    once = finger_line(line("G3 A3 B3 C4 D4 E4 F#4 G4 A4 B4"), violin)
    assert len(found.notes) == 5000
    assert found.notes[0].stops == found.notes[10].stops == once.notes[0].stops
    # down from B4 to G3 the bow leaves out a string
    assert found.cost == pytest.approx(500 * once.cost + 499 * (2 * COSTS.crossing + COSTS.skip))
