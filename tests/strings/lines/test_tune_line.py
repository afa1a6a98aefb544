"""A chart's tune as a line for the fingers, and the octave that suits an instrument."""

from fractions import Fraction

import pytest

from fifthwise.chart import one_pitch
from fifthwise.strings import LEVELS, LineFault, Unplayable, instrument_of
from fifthwise.strings.fingering import finger_line
from fifthwise.strings.lines import fitted_tune, tune_line, tune_wheres
from fifthwise.theory import read_key
from tests.strings.lines.songs import song

VIOLIN, CELLO = instrument_of("violin"), instrument_of("cello")


def sounds(line):
    """The pitches as text."""
    return [" ".join(map(str, note.pitches)) for note in line.notes]


def test_degrees_become_pitches_above_the_unmarked_one():
    """Octave marks count from the octave that begins at the unmarked 1; the degrees stay beside them."""
    line = tune_line(*song("1 | 4\ntune: 5, 7, 1 b3 | 1' #4 - 5", key="G"), 4)
    assert sounds(line) == ["D4", "F#4", "G4", "Bb4", "G5", "C#5", "D5"]
    assert " ".join(str(note.degrees[0]) for note in line.notes) == "5 7 1 b3 1 #4 5"
    assert line.notes[5].length == 2


def test_two_at_once_stand_low_to_high_with_their_own_pins():
    """A double stop is sorted by pitch, and its degrees and pins go with it."""
    line = tune_line(*song("1\ntune: 5&1 - - -\nfingers: A0&D0 . . .", key="D"), 4)
    (note,) = line.notes
    assert sounds(line) == ["D4 A4"]
    assert (note.degrees[0].step, note.degrees[1].step, note.pins) == (1, 5, ("D0", "A0"))


def test_holds_rests_chops_and_slurs_are_kept():
    """A hold lengthens over the bar line, a rest and a chop leave a gap, a slur stays with its note."""
    line = tune_line(*song("1 | 4\ntune: 1 x 0 5_ | - 6 - {5}3", key="G"), 4)
    assert sounds(line) == ["G4", "D5", "E5", "B4"]
    assert [note.starts_at for note in line.notes] == [0, 3, 5, 7]
    assert [note.length for note in line.notes] == [1, 2, 2, 1]
    assert [note.slur for note in line.notes] == [False, True, False, False]


def test_phrases_begin_with_a_section_and_after_a_beat_of_rest():
    """A rest of half a beat begins none."""
    line = tune_line(*song("# a\n1 | 1\ntune: 1 (1 0) 1 0 | 5 5 - -\n# b\n4\ntune: 6 6 - -"), 4)
    assert [note.phrase_start for note in line.notes] == [True, False, False, True, False, True, False]


@pytest.mark.parametrize(
    ("metre", "bars", "tune", "beats"),
    [
        ("6/8", "1", "(1 2 3) (4 - 5)", [True, False, False, True, False]),
        ("7/8 2+2+3", "1", "1 2 3 4 5 6 7", [True, False, True, False, True, False, False]),
        ("2/2", "1", "(1 2) (3 4)", [True, False, True, False]),
        ("4/4", "[pickup 3/2] 0", "(5,) 1", [False, True]),
    ],
)
def test_beats_are_those_of_the_metre(metre, bars, tune, beats):
    """The felt beats; the groups of an uneven metre; a pickup's counted from the bar line it leads to."""
    line = tune_line(*song(f"{bars}\ntune: {tune}", meter=metre), 4)
    assert [note.on_beat for note in line.notes] == beats


@pytest.mark.parametrize(
    ("shift", "name"), [("+2", "A4"), ("-2", "F4"), ("+6", "Db5"), ("-5", "D4"), ("+5", "C5")]
)
def test_after_a_change_of_key_the_one_is_the_nearest(shift, name):
    """The unmarked 1 goes the shorter way, up at a tritone, and is spelled in the key that holds."""
    chart, timeline = song(f"1\ntune: 1 - - -\n# b\n[key {shift}] 1\ntune: 1 - - -", key="G")
    assert sounds(tune_line(chart, timeline, 4)) == ["G4", name]


def test_a_minor_song_counts_from_its_own_one():
    """Counted from six the 1 of A minor is C; counted from one it is A."""
    for minor, one in (("from-six", "C4"), ("from-one", "A4"), ("natural", "A4")):
        chart, _ = song("1", key="A minor", minor=minor)
        assert str(one_pitch(chart, read_key("A minor"), 4)) == one


def test_a_written_octave_holds_where_it_can_be_played():
    """The chart's octave beats a cheaper one; the player's wish beats both."""
    chart, timeline = song("1\ntune: 1 2 3 5", key="A", octave=4)
    fitted = fitted_tune(chart, timeline, VIOLIN)
    assert (fitted.octave, fitted.moved) == (4, 0)
    assert fitted_tune(chart, timeline, VIOLIN, octave=3).moved == -1


def test_a_tune_too_low_goes_to_an_octave_that_can_be_played():
    """A baritone's octave lies below the violin; the tune says how far it was moved."""
    chart, timeline = song("1\ntune: 5, 1 2 3", key="A", octave=3)
    fitted = fitted_tune(chart, timeline, VIOLIN)
    assert (fitted.octave, fitted.moved) == (4, 1)
    assert str(fitted.line.notes[0].pitches[0]) == "E4"


@pytest.mark.parametrize("level", LEVELS)
def test_a_floating_tune_takes_the_octave_that_costs_least(level):
    """No octave that can be played is cheaper."""
    chart, timeline = song("1 | 4\ntune: 1 2 3 5 | 6 5 3 1", key="Bb")
    for instrument in (VIOLIN, CELLO):
        fitted = fitted_tune(chart, timeline, instrument, level)
        costs = []
        for octave in range(0, 8):
            try:
                costs.append(finger_line(tune_line(chart, timeline, octave), instrument, level).cost)
            except Unplayable:
                continue
        assert fitted.fingering.cost == pytest.approx(min(costs))


def test_a_note_that_no_hand_reaches_is_told_with_its_bar():
    """The fault names the bar, its section, and the note in it."""
    chart, timeline = song("# verse\n1 | 4\ntune: 1 2 3 4 | 1''' - - -", key="G", octave=4)
    with pytest.raises(Unplayable, match=r"bar 2 \(verse\), note 1: G7 lies above"):
        fitted_tune(chart, timeline, VIOLIN, octave=4)


def test_a_song_without_a_tune_is_told():
    """Chops alone are no tune."""
    for body in ("1 | 4", "1\ntune: x x x x"):
        with pytest.raises(
            LineFault, match=r"Net Loft: the song has no tune\. Write its tune in 'tune:' lines"
        ):
            fitted_tune(*song(body), VIOLIN)


def test_repeats_and_verses_are_played_out_and_each_note_knows_its_bar():
    """There is one bar name a note, in playing order."""
    chart, timeline = song("# a\n|: 1 | 4 :|\ntune: 1 - - - | 6 - - 0")
    line = tune_line(chart, timeline, 4)
    assert sounds(line) == ["G4", "E5", "G4", "E5"]
    assert tune_wheres(timeline) == tuple(f"bar {number} (a), note 1" for number in (1, 2, 3, 4))
    assert line.tempo_bpm == Fraction(100)
