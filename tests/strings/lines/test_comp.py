"""Double stops over a progression: worked results, laws, brute force, and chord tones by mir_eval."""

import itertools
from dataclasses import replace

import mir_eval
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.strings import LevelFault, LineFault, Unplayable, instrument_of
from fifthwise.strings.fingering import LineNote, fingering_faults
from fifthwise.strings.lines import changes_of, chord_roles, comp, sung_register
from fifthwise.strings.lines.comp import pair_cost
from fifthwise.strings.lines.reach import octaves_of
from fifthwise.strings.lines.weights import COMP, COMP_COSTS
from fifthwise.theory import read_note, read_pitch
from tests.harte import every_label, number_text
from tests.strings.lines.reading import cheapest, line_fingers, line_pitches
from tests.strings.lines.songs import song
from tests.strings.lines.strategies import progressions

VIOLIN, VIOLA, CELLO = map(instrument_of, ("violin", "viola", "cello"))


@pytest.mark.parametrize(
    ("key", "chords", "pitches", "fingers"),
    [
        ("G", "1 | 4 | 1 | 5", "G4+B4 G4+C5 G4+B4 F#4+A4", "3,1 3,2 3,1 2,0"),
        ("C", "1 | 4 | 1 | 5", "C4+E4 C4+F4 C4+E4 B3+D4", "3,1 3,2 3,1 2,0"),
        ("D", "1 | 4 | 1 | 5", "D5+F#5 D5+G5 D5+F#5 C#5+E5", "3,1 3,2 3,1 2,0"),
        ("Bb", "1 | 4 | 1 | 5", "Bb3+D4 Bb3+Eb4 Bb3+D4 A3+F4", "2,0 2,1 2,0 1,2"),
        ("C", "1 | 5 | 6- | 4", "C5+E5 B4+G5 C5+A5 C5+A5", "2,0 1,2 2,3 2,3"),
    ],
)
def test_worked_progressions_in_first_position(key, chords, pitches, fingers):
    """Thirds and sixths by the nearest way; one string over the shape is the same a fifth away.

    Derived by arithmetic for another table of weights, without height; common practice, no source.
    """
    line = comp(*song(chords, key=key), VIOLIN, weights=replace(COMP, high=0))
    assert line_pitches(line) == pitches
    assert line_fingers(line) == fingers


def test_three_and_seven_move_by_the_nearest_way():
    """In 2 5 1 with sevenths each voice holds or falls a step: 4+1, 4+7, 3+7.

    Guide tones 3 and 7, nearest step: common practice. C: 2-7 has F and C, 57 F and B, 1maj7 E and B.
    """
    line = comp(*song("2-7 | 57 | 1maj7", key="C"), VIOLIN)
    assert line_pitches(line) == "F4+C5 F4+B4 E4+B4"


def height(instrument, *pitches):
    """What tones above the highest open string cost, written a second time."""
    top = instrument.strings[-1].midi
    return sum(COMP.high * (pitch.midi - top) for pitch in pitches if pitch.midi > top)


def test_a_comp_lies_under_the_voice():
    """Height alone sends shapes an octave down that would lie at the top of the highest string.

    Common practice, no source: back-up is played below the singer.
    """
    chart, timeline = song("1 | 5/7 | 6- | 4 5", key="A")
    assert line_pitches(comp(chart, timeline, VIOLIN)).split()[0] == "A4+C#5"
    careless = comp(chart, timeline, VIOLIN, weights=replace(COMP, high=0))
    assert line_pitches(careless).split()[0] == "C#5+A5"


@settings(deadline=None, max_examples=25)
@given(
    st.lists(st.sampled_from(("1", "4", "57", "6-", "2-7", "b7maj7")), min_size=2, max_size=3, unique=True),
    st.sampled_from(("G", "Bb", "E", "Ab")),
    st.sampled_from((VIOLIN, VIOLA, CELLO)),
)
def test_no_choice_of_pairs_and_fingers_is_cheaper(chords, key, instrument):
    """The search finds what trying every pair with every finger finds, by costs written a second time."""
    chart, timeline = song(" | ".join(chords), key=key)
    changes = changes_of(chart, timeline)
    sounds = range(28, 100)
    places = []
    for change in changes:
        tones = chord_roles(change)
        voices = [(pitch, tone) for tone in tones for pitch in octaves_of(tone.note, sounds)]
        places.append(
            [
                LineNote(
                    (a[0], b[0]),
                    change.starts_at,
                    change.length,
                    cost=pair_cost(a, b, tones) + height(instrument, a[0], b[0]),
                )
                for a, b in itertools.permutations(voices, 2)
                if a[0].midi < b[0].midi
            ]
        )
    found = comp(chart, timeline, instrument)
    least = cheapest(places, instrument, "first", COMP_COSTS, timeline.bars[0].tempo_bpm)
    assert found.fingering.cost == pytest.approx(least)


@settings(deadline=None, max_examples=60)
@given(progressions(), st.sampled_from(("half", "third")), st.sampled_from((VIOLIN, VIOLA, CELLO)))
def test_every_pair_is_two_chord_tones_that_a_hand_can_stop(made, level, instrument):
    """Two tones of the chord on neighbouring strings, one note a chord, repeated chords alike."""
    chart, timeline = made
    line, changes = comp(chart, timeline, instrument, level), changes_of(chart, timeline)
    assert len(line.fingering.notes) == len(changes) == len(line.bars)
    assert fingering_faults(line.fingering, instrument, level) == ()
    before = None
    for note, change in zip(line.fingering.notes, changes, strict=True):
        names = {tone.note for tone in chord_roles(change)}
        assert {pitch.name for pitch in note.note.pitches} <= names
        assert len(note.stops) == 2
        assert (note.note.starts_at, note.note.length) == (change.starts_at, change.length)
        if change.again:
            assert note.stops == before
        before = note.stops


def test_every_pair_is_of_the_chord_by_mir_eval():
    """Over all chord labels of 370 songs no tone sounds that mir_eval's encoding does not have.

    Burgoyne, Wild and Fujinaga, ISMIR 2011: the labels; Raffel et al., "mir_eval", ISMIR 2014.
    """
    one = read_note("C")
    labels = [label for label in every_label() if number_text(label, one) != "NC"]
    chart, timeline = song(" | ".join(number_text(label, one) for label in labels), key="C")
    assert len(timeline.entries) == len(labels) > 600
    line, of = comp(chart, timeline, VIOLIN), {}
    for note, change in zip(line.fingering.notes, changes_of(chart, timeline), strict=True):
        of[change.entry] = note
    for at, label in enumerate(labels):
        root, bitmap, _ = mir_eval.chord.encode(label.partition("/")[0], reduce_extended_chords=True)
        sounding = {int(root + place) % 12 for place in bitmap.nonzero()[0]}
        assert {pitch.midi % 12 for pitch in of[at].note.pitches} <= sounding, label


@settings(deadline=None, max_examples=30)
@given(progressions(most=4, marks=("",)))
def test_a_wider_level_is_never_dearer(made):
    """What can be played in first position can be played with more positions."""
    costs = [comp(*made, VIOLIN, level).fingering.cost for level in ("half", "third")]
    assert costs[1] <= costs[0] + 1e-9


def test_the_third_is_not_doubled_and_a_bare_fifth_is_avoided():
    """Of pairs at the same place, 3 with root costs least of a triad's, two thirds most."""
    (change,) = changes_of(*song("1", key="C"))
    tones = {tone.role: tone for tone in chord_roles(change)}

    def cost(low, high):
        pair = [(read_pitch(name), tones[role]) for name, role in (low, high)]
        return pair_cost(*pair, chord_roles(change))

    third_root = cost(("E4", "third"), ("C5", "root"))
    bare = cost(("C4", "root"), ("G4", "fifth"))
    assert third_root < cost(("E4", "third"), ("G4", "fifth")) < bare
    assert (
        bare < cost(("E4", "third"), ("E5", "third"))
        or cost(("E4", "third"), ("E5", "third")) > third_root + 2
    )


def test_a_seventh_and_a_colour_are_wanted():
    """Over 57 the pair 3 and 7 costs less than 3 and root; over 5+ the raised fifth less than the root."""
    for chord, wanted, other in (("57", "seventh", "root"), ("5+", "fifth", "root")):
        (change,) = changes_of(*song(chord, key="C"))
        tones = {tone.role: tone for tone in chord_roles(change)}
        low = (read_pitch("B4"), tones["third"])
        costs = [
            pair_cost(low, (read_pitch("F5"), tones[role]), chord_roles(change)) for role in (wanted, other)
        ]
        assert costs[0] < costs[1]


def test_a_register_binds_and_the_singer_is_left_room():
    """No pitch leaves the register; where the tune lies in the fifth octave the pairs go below it."""
    chart, timeline = song("1 | 4 | 5 | 1\ntune: 5 5 6 5 | 6 6 5 5 | 5 5 7 5 | 1' 1' 5 5", key="D", octave=4)
    sung = sung_register(chart, timeline)
    assert tuple(map(str, sung)) == ("A4", "B4")
    free, clear = comp(chart, timeline, VIOLIN), comp(chart, timeline, VIOLIN, sung=sung)

    def within(line):
        return sum(
            sung[0].midi <= pitch.midi <= sung[1].midi
            for n in line.fingering.notes
            for pitch in n.note.pitches
        )

    assert within(clear) == 0 <= within(free)
    low = comp(chart, timeline, VIOLIN, register=(read_pitch("G3"), read_pitch("A4")))
    assert all(pitch.midi <= 69 for note in low.fingering.notes for pitch in note.note.pitches)


def test_a_floating_tune_tells_no_register():
    """Without an octave nothing is known; with the ends alone they are it."""
    assert sung_register(*song("1\ntune: 1 2 3 4")) is None
    ends = sung_register(*song("1", key="G", octave=4, lowest="5,", highest="3"))
    assert tuple(map(str, ends)) == ("D4", "B4")


def test_a_chord_that_no_two_fingers_take_has_one_tone():
    """A bare root, and a chord whose tones lie out of each other's reach, is played alone."""
    line = comp(*song("1 | #1(no3 no5) | 1", key="C"), VIOLIN)
    assert [len(note.stops) for note in line.fingering.notes] == [2, 1, 2]
    line = comp(*song("2-7 | 4", key="Bb"), instrument_of("double bass"))
    assert len(line.fingering.notes[1].stops) == 1


def test_a_chord_that_no_hand_takes_is_told_with_its_bar():
    """The fault names bar, section, chord and level."""
    narrow = (read_pitch("Ab3"), read_pitch("A3"))
    with pytest.raises(
        Unplayable, match=r"bar 2 \(a\), chord 1: no tone of the chord lies under the hand in first"
    ):
        comp(*song("# a\n2- | 1", key="G"), VIOLIN, register=narrow)


def test_what_cannot_be_asked_is_told():
    """A level that is not known, a song without chords."""
    with pytest.raises(LevelFault, match="'fifth' is no level"):
        comp(*song("1"), VIOLIN, "fifth")
    with pytest.raises(LineFault, match="no chords"):
        comp(*song("NC"), VIOLIN)


def test_a_very_long_song_is_done_in_time(timed):
    """Five thousand chords take seconds, not minutes."""
    chart, timeline = song("# a x32\n" + " | ".join(["1 4 / 5", "6- 2-7 / 57"] * 27), key="Eb")
    assert len(timeline.entries) > 5000
    with timed(10):
        assert len(comp(chart, timeline, VIOLIN, "third").bars) == len(timeline.entries)
