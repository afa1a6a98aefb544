"""Guide lines and pads: laws, brute force, and what the trade says of 3s and 7s."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.strings import LineFault, Unplayable, instrument_of
from fifthwise.strings.fingering import LineNote, fingering_faults
from fifthwise.strings.lines import GUIDE, changes_of, chord_roles, guide_line, pad
from fifthwise.strings.lines.reach import octaves_of
from fifthwise.strings.lines.single import tone_cost
from fifthwise.strings.lines.weights import GUIDE_COSTS
from fifthwise.theory import read_pitch
from tests.strings.lines.reading import cheapest
from tests.strings.lines.songs import song
from tests.strings.lines.strategies import progressions

VIOLIN, VIOLA, CELLO = map(instrument_of, ("violin", "viola", "cello"))
SEVENTHS = ("2-7", "57", "1maj7", "6-7", "4maj7", "7ø7", "3-7", "#4o7", "67")


def role_of(note, change):
    """What a note is to the chord."""
    return next(tone.role for tone in chord_roles(change) if tone.note == note.note.pitches[0].name)


def test_three_and_seven_fall_by_step_through_the_cycle():
    """Each note of a cycle of sevenths is a 3 or a 7, and none moves further than a whole step.

    Guide tones 3 and 7, nearest step, common practice: in 2-7 57 1maj7 in C, F F E or C B B.
    """
    made = song("1maj7 | 4maj7 | 7ø7 | 3-7 | 6-7 | 2-7 | 57 | 1maj7", key="C")
    line = guide_line(*made, VIOLIN)
    sounds = [note.note.pitches[0].midi for note in line.fingering.notes]
    assert max(abs(new - old) for old, new in pairwise(sounds)) <= 2
    roles = [
        role_of(note, change) for note, change in zip(line.fingering.notes, changes_of(*made), strict=True)
    ]
    assert roles in (["third", "seventh"] * 4, ["seventh", "third"] * 4)


@settings(deadline=None)
@given(st.lists(st.sampled_from(SEVENTHS), min_size=1, max_size=8), st.sampled_from(("C", "Eb", "A", "F#")))
def test_a_chord_with_a_seventh_has_its_three_or_seven(chords, key):
    """No other tone of such a chord is taken."""
    made = song(" | ".join(chords), key=key)
    line = guide_line(*made, VIOLIN)
    roles = [
        role_of(note, change) for note, change in zip(line.fingering.notes, changes_of(*made), strict=True)
    ]
    assert set(roles) <= {"third", "seventh"}


@settings(deadline=None, max_examples=40)
@given(
    st.lists(st.sampled_from(("1", "4", "57", "2-7", "5sus", "1(5)")), min_size=2, max_size=4, unique=True),
    st.sampled_from(("G", "Bb")),
    st.sampled_from((VIOLIN, CELLO)),
)
def test_no_guide_line_is_cheaper(chords, key, instrument):
    """The search finds what trying every tone in every octave with every finger finds."""
    chart, timeline = song(" | ".join(chords), key=key)
    places = []
    for change in changes_of(chart, timeline):
        tones = [tone for tone in chord_roles(change) if tone.role != "colour"]
        if {"third", "seventh"} <= {tone.role for tone in tones}:
            tones = [tone for tone in tones if tone.role in ("third", "seventh")]
        places.append(
            [
                LineNote((pitch,), change.starts_at, change.length, cost=tone_cost(tone, GUIDE))
                for tone in tones
                for pitch in octaves_of(tone.note, range(28, 100))
            ]
        )
    line = guide_line(chart, timeline, instrument)
    assert line.fingering.cost == pytest.approx(cheapest(places, instrument, "first", GUIDE_COSTS, 100))


@settings(deadline=None)
@given(progressions(), st.sampled_from((VIOLIN, VIOLA, CELLO)))
def test_a_guide_line_has_one_tone_for_each_chord(made, instrument):
    """A tone of the chord at the chord's time, under a hand."""
    line = guide_line(*made, instrument, "half")
    assert fingering_faults(line.fingering, instrument, "half") == ()
    for note, change in zip(line.fingering.notes, changes_of(*made), strict=True):
        assert note.note.pitches[0].name in {tone.note for tone in chord_roles(change)}
        assert note.note.starts_at == change.starts_at


def fewest(changes):
    """How few tones hold through some chords: from the left, each as long as one tone lasts."""
    count, common, end = 0, set(), None
    for change in changes:
        names = {tone.note for tone in chord_roles(change)}
        common = common & names if change.starts_at == end else set()
        if not common:
            count, common = count + 1, names
        end = change.end if not change.stopped else None
    return count


@settings(deadline=None, max_examples=60)
@given(progressions(most=8), st.sampled_from((VIOLIN, VIOLA)))
def test_a_pad_has_as_few_tones_as_there_can_be(made, instrument):
    """Taking the longest common tone from the left gives the fewest stretches; the pad has no more."""
    line, changes = pad(*made, instrument, "half"), changes_of(*made)
    assert len(line.fingering.notes) == fewest(changes)
    assert fingering_faults(line.fingering, instrument, "half") == ()


@settings(deadline=None, max_examples=60)
@given(progressions(most=8))
def test_a_pad_sounds_whenever_a_chord_does(made):
    """Under each chord one tone of it is held from its start to its end."""
    line = pad(*made, VIOLIN)
    for change in changes_of(*made):
        (held,) = [
            note.note
            for note in line.fingering.notes
            if note.note.starts_at <= change.starts_at
            and change.end <= note.note.starts_at + note.note.length
        ]
        assert held.pitches[0].name in {tone.note for tone in chord_roles(change)}


def test_one_tone_holds_through_one_and_four():
    """The 1 belongs to 1, 4 and 6-; an NC ends it."""
    line = pad(*song("1 | 4 | 6- | 1 | NC | 1", key="D"), VIOLIN)
    assert [(note.note.starts_at, note.note.length) for note in line.fingering.notes] == [(0, 16), (20, 4)]
    assert str(line.fingering.notes[0].note.degrees[0]) == "1"


def test_a_register_binds_one_voice():
    """What lies outside is not taken; where nothing is left the fault names bar and chord."""
    made = song("# a\n1 | 4 | 5", key="G")
    low, high = read_pitch("G4"), read_pitch("D5")
    for make in (guide_line, pad):
        for note in make(*made, VIOLIN, register=(low, high)).fingering.notes:
            assert low.midi <= note.note.pitches[0].midi <= high.midi
        with pytest.raises(
            Unplayable, match=r"bar 2 \(a\), chord 4: no tone of the chord lies under the hand"
        ):
            make(*made, VIOLIN, register=(read_pitch("B4"), read_pitch("B4")))


@pytest.mark.parametrize("make", [guide_line, pad])
def test_a_song_without_chords_has_no_line(make):
    """It is told, not made empty."""
    with pytest.raises(LineFault, match="no chords"):
        make(*song("NC"), VIOLIN)
