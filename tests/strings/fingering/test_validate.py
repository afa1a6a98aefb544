"""Each rule of the validator has a fingering that breaks it, and is named."""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from fifthwise.strings import LEVELS, Unplayable, instrument_of
from fifthwise.strings.fingering import Shift, Stop, finger_line, fingering_faults
from tests.strategies import instruments, lines
from tests.strings.fingering.reading import line

VIOLIN, CELLO = instrument_of("violin"), instrument_of("cello")


def sound(text, instrument=VIOLIN, level="first", **settings):
    """A fingering without faults."""
    found = finger_line(line(text), instrument, level, **settings)
    assert fingering_faults(found, instrument, level) == ()
    return found


def with_stop(fingering, at, which, **changes):
    """The fingering with one stop changed."""
    note = fingering.notes[at]
    stops = list(note.stops)
    stops[which] = replace(stops[which], **changes)
    return with_note(fingering, at, stops=tuple(stops))


def with_note(fingering, at, **changes):
    """The fingering with one note changed."""
    notes = list(fingering.notes)
    notes[at] = replace(notes[at], **changes)
    return replace(fingering, notes=tuple(notes))


def faults(fingering, instrument=VIOLIN, level="first"):
    """What the validator says, a line each."""
    return "\n".join(fingering_faults(fingering, instrument, level))


def test_a_stop_sounds_its_pitch():
    """A semitone off is another note."""
    broken = with_stop(sound("D4 F4"), 1, 0, stop=4)
    assert faults(broken) == "note 2: stop 4 on the D string does not sound F4"


def test_a_string_is_there():
    """A violin has four."""
    broken = with_stop(sound("D4 F4"), 1, 0, string=4)
    assert faults(broken) == "note 2: a string that a violin does not have"
    assert "does not have" in faults(with_stop(sound("D4 F4"), 0, 0, string=-1))


def test_a_stop_lies_on_the_fingerboard():
    """The highest stop is the instrument's."""
    short = replace(VIOLIN, highest=4)
    assert "note 1: stop 5 on the E string is off the fingerboard" in faults(sound("A5"), short)


@pytest.mark.parametrize(("at", "finger"), [(0, 1), (1, 0)])
def test_an_open_string_has_no_finger(at, finger):
    """Finger 0 and stop 0 go together."""
    broken = with_stop(sound("D4 F4"), at, 0, finger=finger)
    assert "an open string has no finger, a stop has one" in faults(broken)


def test_the_hand_lies_within_the_level():
    """Third position is not first."""
    broken = sound("A5 D6", level="third")
    assert faults(broken, level="third") == ""
    assert "third position is not in level 'first'" in faults(broken, level="first")


def test_the_shape_is_one_of_the_frame():
    """No violinist's hand is closed and extended, and no cellist's thumb lies in first position."""
    assert (
        faults(with_note(sound("F4"), 0, shape="closed")) == "note 1: no hand is 'closed' in first position"
    )
    broken = with_note(sound("E2", CELLO), 0, shape="thumb")
    assert "no hand is 'thumb' in first position" in faults(broken, CELLO)


def test_a_finger_reaches_its_stop():
    """The first finger does not stop what the second does."""
    assert faults(with_stop(sound("F#4"), 0, 0, finger=1)) == (
        "note 1: finger 1 does not reach stop 4 from first position"
    )
    assert "the thumb does not reach stop 4" in faults(with_stop(sound("F#4"), 0, 0, finger=-1))
    assert "finger 5 does not reach" in faults(with_stop(sound("F#4"), 0, 0, finger=5))


def test_a_cellist_reaches_with_the_hand_that_is_named():
    """A closed hand does not reach the major third."""
    found = sound("E2 F#2", CELLO)
    assert [note.shape for note in found.notes] == ["closed", "extended"]
    assert "finger 4 does not reach" in faults(with_note(found, 1, shape="closed"), CELLO)


def test_a_stretch_for_double_stops_is_for_them_alone():
    """A tenth is reached with the first finger low; one note is not."""
    tenth = sound("A3+C5")
    assert tenth.notes[0].shape == "stretched"
    broken = with_note(sound("A3"), 0, shape="stretched")
    assert faults(broken) == "note 1: a hand is 'stretched' for double stops alone"


def test_two_notes_lie_side_by_side():
    """A bow does not leave out a string."""
    note = sound("B3+G4").notes[0]
    broken = with_note(
        sound("B3+G4"),
        0,
        note=replace(note.note, pitches=line("B3 B4").notes[0].pitches + line("B4").notes[0].pitches),
        stops=(Stop(0, 4, 2), Stop(2, 2, 1)),
    )
    assert "two notes at once lie on strings side by side" in faults(broken)


def test_one_finger_is_in_one_place():
    """Two places need two fingers, and one place across the strings needs one."""
    assert "finger 2 is in two places at once" in faults(with_stop(sound("B3+F4"), 0, 0, finger=2))
    assert "two fingers at one place" in faults(with_stop(sound("B3+F#4"), 0, 1, finger=3))


def test_the_higher_finger_is_nearer_to_the_bridge():
    """Fingers do not cross over two strings."""
    crossed = with_stop(with_stop(sound("B3+G4"), 0, 0, finger=3), 0, 1, finger=2)
    assert "the higher finger lies nearer to the bridge" in faults(crossed)


def test_neighbouring_fingers_lie_no_more_than_a_minor_third_apart():
    """The third finger low and the fourth high, a major third away, is no hand for a double stop.

    Source: from memory; finger patterns are counted with gaps up to a minor third.
    """
    found = sound("A4+C5:D4+A2")
    assert [(stop.finger, stop.stop) for stop in found.notes[0].stops] == [(4, 7), (2, 3)]
    wide = with_stop(found, 0, 1, finger=3)
    assert "fingers 4 and 3 do not lie 4 semitones apart" in faults(wide)


def test_every_pitch_has_a_stop():
    """A double stop has two."""
    broken = with_note(sound("B3+G4"), 0, stops=sound("B3").notes[0].stops)
    assert faults(broken) == "note 1: 1 stops for 2 pitches"


def test_fingers_keep_their_order_while_the_hand_stays():
    """A lower finger does not stop what is higher on the same string; after a shift it may."""
    found = sound("F4 G4")
    crossed = with_stop(with_stop(found, 0, 0, finger=3), 1, 0, finger=2)
    assert "note 2: finger 2 crosses finger 3 while the hand stays" in faults(crossed)
    assert "crosses" not in faults(with_note(crossed, 1, centre=3))


def test_pins_are_kept():
    """String and finger are those that the player settled."""
    found = sound("E5:A4")
    other = sound("E5:E0").notes[0].stops
    broken = faults(with_note(found, 0, stops=other))
    assert "note 1: pinned A4, played on the E string" in broken
    assert "note 1: pinned A4, played with finger 0" in broken


def test_shifts_are_those_that_the_hand_makes():
    """None is left out, added, misplaced or without a reason."""
    found = sound("A4 B4 C5 D5 E5 F5 G5 A5 B5 C6 D6 E6", level="all")
    (shift,) = found.shifts
    for listed in [(), (shift, shift), (replace(shift, note=shift.note - 1),), (replace(shift, end=9),)]:
        assert "shifts listed" in faults(replace(found, shifts=listed), level="all")
    assert "a shift without a reason" in faults(
        replace(found, shifts=(replace(shift, reason=""),)), level="all"
    )
    assert "shifts listed" in faults(replace(sound("A4 B4"), shifts=(Shift(1, 2, 2, "none"),)))


def test_the_cost_is_a_number():
    """An endless cost is no fingering."""
    assert faults(replace(sound("A4"), cost=float("inf"))) == "the cost is inf"
    assert faults(replace(sound("A4"), cost=float("nan"))) == "the cost is nan"


def test_a_harmonic_is_touched_where_it_sounds():
    """The fourth partial of D sounds D6, touched a fourth above the open string.

    Source: physics of an ideal string: partial 4 is two octaves up, its node at a quarter of the string.
    """
    found = sound("D6", harmonics=True)
    assert found.notes[0].stops == (Stop(1, 5, 3, 4),)
    assert "partial 3 is not touched at stop 5" in faults(with_stop(found, 0, 0, harmonic=3))
    assert "partial 2 is not touched" in faults(with_stop(found, 0, 0, harmonic=2))
    assert "does not sound D6" in faults(with_stop(found, 0, 0, harmonic=0))
    assert "does not sound D6" in faults(with_stop(found, 0, 0, string=2))


@settings(max_examples=200)
@given(st.data())
def test_any_other_stop_is_a_fault(data):
    """A stop moved along its string, or to another, never passes for the same note."""
    instrument, level = data.draw(instruments()), data.draw(st.sampled_from(LEVELS))
    try:
        found = finger_line(data.draw(lines(instrument)), instrument, level)
    except Unplayable:
        assume(False)
    assert fingering_faults(found, instrument, level) == ()
    at = data.draw(st.integers(0, len(found.notes) - 1))
    which = data.draw(st.integers(0, len(found.notes[at].stops) - 1))
    away = data.draw(st.integers(-5, 5).filter(bool))
    field = data.draw(st.sampled_from(("stop", "string")))
    value = getattr(found.notes[at].stops[which], field) + away
    assert fingering_faults(with_stop(found, at, which, **{field: value}), instrument, level) != ()
