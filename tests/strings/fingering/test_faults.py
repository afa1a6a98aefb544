from dataclasses import replace
from fractions import Fraction

import pytest

from fifthwise.strings import LevelFault, LineFault, Unplayable, instrument_of, tuned
from fifthwise.strings.fingering import COSTS, Line, LineNote, finger_choices, finger_line, fingerings
from tests.strings.fingering.reading import line

VIOLIN = instrument_of("violin")


@pytest.mark.parametrize(
    ("text", "level", "words"),
    [
        # what lies beyond the strings
        (
            "A4 C3",
            "first",
            "note 2: C3 lies below the violin's lowest string, G3. Play it an octave higher, C4.",
        ),
        ("C8", "all", "note 1: C8 lies above all that a violin stops. Play it an octave lower, C7."),
        ("A0", "all", "note 1: A0 lies below the violin's lowest string, G3. Take it out of the line."),
        # what the level does not reach
        (
            "A5 D6",
            "first",
            "note 2: D6 is out of reach in first position. Choose level 'third' (positions up to third); ",
        ),
        (
            "A6",
            "third",
            "note 1: A6 is out of reach in positions up to third. Choose level 'all' (all positions); ",
        ),
        # what does not go together
        ("G3+Ab3", "all", "note 1: G3 with Ab3 cannot be stopped together in all positions. "),
        (
            "G3+B5",
            "first",
            "note 1: G3 with B5 cannot be stopped together in first position. Choose level 'all'",
        ),
        (
            "E4+D6",
            "first",
            "note 1: E4 with D6 is out of reach in first position. Play E4 alone.",
        ),
        # pins that cannot be
        ("A4:G1", "first", "note 1: A4 cannot be played as pinned, G1. Free it with '.'."),
        ("A4:D0", "first", "note 1: A4 cannot be played as pinned, D0. Free it with '.'."),
        ("D5:T", "first", "note 1: D5 cannot be played as pinned, T. Free it with '.'."),
        ("B3+G4:3+.", "first", "note 1: B3 with G4 cannot be played as pinned, 3. Free it with '.'."),
        ("C3:G1", "first", "note 1: C3 lies below the violin's lowest string, G3. "),
    ],
)
def test_what_cannot_be_played_says_which_note_and_the_nearest_way(text, level, words):
    """Each fault names its note, why, and what would be playable."""
    for ask in (finger_line, fingerings):
        with pytest.raises(Unplayable) as raised:
            ask(line(text), VIOLIN, level)
        assert str(raised.value).startswith(words)


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("A4 G3+D4+A4+E5", "note 2: 4 notes at once. Keep two of them; a bow sounds two strings at once."),
        ("G3+D4+B4", "note 1: 3 notes at once. "),
        ("A4:Z1", "note 1: 'Z1' pins no finger. Write string and finger, as in 'A2' or 'D0', or '.'."),
        ("A4:A5", "note 1: 'A5' pins no finger. "),
        ("A4:C1", "note 1: 'C1' names a string that a violin does not have. Its strings are G, D, A, E."),
        ("D4+A4:D0", "note 1: 1 pins for 2 notes at once. Pin one finger a note, '.' where it is free."),
    ],
)
def test_what_is_no_line_says_so(text, words):
    """A line that cannot be read is a fault of the line, wherever it is played."""
    with pytest.raises(LineFault) as raised:
        finger_line(line(text), VIOLIN, "all")
    assert str(raised.value).startswith(words)


def test_a_note_has_a_pitch():
    """Silence is written as a gap."""
    empty = LineNote((), Fraction(0), Fraction(1))
    with pytest.raises(LineFault, match="note 1: a note without a pitch"):
        finger_line(Line((empty,)), VIOLIN)


def test_notes_come_in_order_of_time():
    """A note that begins before the one before it is a slip."""
    late, early = line("A4 B4").notes
    with pytest.raises(LineFault, match="note 2: it begins before the note before it"):
        finger_line(Line((early, late)), VIOLIN)


@pytest.mark.parametrize("tempo", [0, -60])
def test_a_tempo_is_more_than_nothing(tempo):
    """At no speed nothing is long or short."""
    with pytest.raises(LineFault, match="quarters a minute is no tempo"):
        finger_line(line("A4", tempo), VIOLIN)


@pytest.mark.parametrize("notes", ["", "A4"])
def test_a_level_is_known(notes):
    """A level that no instrument has is told before anything is searched."""
    for ask in (finger_line, fingerings):
        with pytest.raises(LevelFault, match="level: 'fourth' is no level"):
            ask(line(notes), VIOLIN, "fourth")


def test_an_empty_line_has_an_empty_fingering():
    """Nothing to play costs nothing."""
    found = finger_line(Line(()), VIOLIN)
    assert (found.notes, found.cost, found.shifts) == ((), 0, ())
    assert fingerings(Line(()), VIOLIN) == (found,)


def test_none_asked_for_are_none():
    """Asked for no fingering, there is none, and no fault."""
    assert fingerings(line("A4"), VIOLIN, count=0) == ()
    assert fingerings(Line(()), VIOLIN, count=0) == ()


def test_fewer_are_found_where_there_are_no_more():
    """G3 in first position is the open string, whatever is asked for."""
    assert len(fingerings(line("G3"), VIOLIN, count=5)) == 1


def test_a_note_that_no_finger_goes_on_to_is_named():
    """Where nothing may take a finger's place, pins can leave none."""
    strict = replace(COSTS, substitute=float("inf"))
    words = (
        "note 2: no finger is left for F#4 after the note before it. Free a pin beside it, or choose a wider"
    )
    for ask in (finger_line, fingerings):
        with pytest.raises(Unplayable, match=words):
            ask(line("F#4:D2 F#4:D3"), VIOLIN, costs=strict)


def test_a_place_offers_only_what_can_be_played():
    """A choice that is out of reach is left out; where all are, the first is named."""
    high, low, sound = (line(text).notes[0] for text in ("C8", "C2", "A4"))
    chosen = finger_choices(((high, sound, low),), Fraction(100), VIOLIN)
    assert chosen.notes[0].note == sound
    with pytest.raises(Unplayable, match="C8 lies above all that a violin stops"):
        finger_choices(((high, low),), Fraction(100), VIOLIN)


def test_a_pin_that_moves_the_hand_is_the_reason():
    """G4 is under the hand in first position, but not where it is pinned."""
    found = finger_line(line("A4:A0 B4:A1 G4:D1 A4:D2"), VIOLIN, "third")
    assert [shift.reason for shift in found.shifts] == ["G4 as pinned is out of reach in first position"]


def test_a_retuned_string_has_its_own_name():
    """In AEAE a pin to A is either A string; one with its octave is that one."""
    retuned = tuned(VIOLIN, "AEAE")
    assert finger_line(line("A4:A0"), retuned).notes[0].stops[0].string == 2
    assert finger_line(line("D4:A3"), retuned).notes[0].stops[0].string == 0
    assert finger_line(line("C#5:A42"), retuned).notes[0].stops[0].finger == 2
    with pytest.raises(LineFault, match="Its strings are A3, E4, A4, E5"):
        finger_line(line("D4:D0"), retuned)
