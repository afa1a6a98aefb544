"""Basses: the chord's bass on every change, and what lies between by feel and metre."""

from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.strings import LineFault, Unplayable, instrument_of
from fifthwise.strings.fingering import LineNote, fingering_faults
from fifthwise.strings.lines import BASS, bass_line, changes_of, chord_roles
from fifthwise.strings.lines.bass_beats import bass_beats, style_of
from fifthwise.strings.lines.bass_line import _offered
from fifthwise.strings.lines.reach import octaves_of
from fifthwise.strings.lines.weights import BASS_COSTS
from fifthwise.theory import read_metre
from tests.strings.lines.reading import cheapest
from tests.strings.lines.songs import song
from tests.strings.lines.strategies import progressions

CELLO, BASS_VIOL = instrument_of("cello"), instrument_of("double bass")
FEELS = {
    "4/4": "swing",
    "2/2": "two-step",
    "3/4": "waltz",
    "6/8": "ballad",
    "7/8 2+2+3": "straight",
    "12/8": "blues",
}


def starts(body, **head):
    """When the bass plays, in quarters."""
    made = song(body, **head)
    return [note.note.starts_at for note in bass_line(*made, CELLO, "all").fingering.notes]


@settings(deadline=None, max_examples=80)
@given(st.data(), st.sampled_from(sorted(FEELS)), st.sampled_from((CELLO, BASS_VIOL)))
def test_every_note_on_a_change_is_the_bass_of_the_chord(data, metre, instrument):
    """Root or slash bass, at the time at which the chord sounds, in any metre and feel."""
    made = data.draw(
        progressions(meter=metre, feel=FEELS[metre]) if metre in ("4/4", "12/8") else _whole(metre)
    )
    line = bass_line(*made, instrument, "all")
    notes = {note.note.starts_at: note.note for note in line.fingering.notes}
    assert len(notes) == len(line.fingering.notes) == len(line.bars)
    for change in changes_of(*made):
        assert notes[change.starts_at].pitches[0].name == change.bass
        assert notes[change.starts_at].degrees[0] == (change.chord.bass or change.chord.root)
    assert fingering_faults(line.fingering, instrument, "all") == ()


def _whole(metre):
    """Progressions of whole bars, since two chords need not share such a bar."""
    chords = st.lists(
        st.sampled_from(("1", "4", "5/7", "6-.push", "57.stop", "NC", "4.hold", "2-")), max_size=6
    )
    return chords.map(lambda bars: song(" | ".join(["1", *bars]), meter=metre, feel=FEELS[metre]))


@settings(deadline=None, max_examples=60)
@given(progressions(feel="swing"), st.sampled_from((None, "two-beat", "waltz", "walking", "held")))
def test_notes_follow_each_other_within_their_chords(made, style):
    """None overlaps the next, and none sounds when no chord does."""
    line = bass_line(*made, CELLO, "all", style=style)
    notes = [note.note for note in line.fingering.notes]
    for before, after in pairwise(notes):
        assert 0 < before.length <= after.starts_at - before.starts_at
    for note in notes:
        assert any(
            c.starts_at <= note.starts_at and note.starts_at + note.length <= c.end for c in changes_of(*made)
        )


@settings(deadline=None, max_examples=60)
@given(progressions(feel="swing", marks=("",)))
def test_a_walk_leads_into_the_next_bass(made):
    """The last note before another bass is a tone of its chord, or a semitone, a step or a fifth from it."""
    line, changes = bass_line(*made, CELLO, "all"), changes_of(*made)
    beats = bass_beats(made[1], changes)
    for at, beat in enumerate(beats[:-1]):
        note, after = line.fingering.notes[at].note.pitches[0], line.fingering.notes[at + 1].note.pitches[0]
        if beat.leads and not beat.on_change:
            apart = (after.midi - note.midi) % 12
            tones = {tone.note for tone in chord_roles(changes[beat.change])}
            assert note.name in tones or apart in (1, 2, 10, 11, 5)
            assert note.midi % 12 != after.midi % 12


def test_a_two_beat_has_root_and_fifth():
    """In a two-step the first beat has the root, the second the fifth, above or below.

    Common practice, no source.
    """
    line = bass_line(*song("1 | 4 | 5 | 1", key="G", meter="2/2", feel="two-step"), BASS_VIOL)
    degrees = [str(note.note.degrees[0]) for note in line.fingering.notes]
    assert degrees == ["1", "5", "4", "1", "5", "2", "1", "5"]
    assert [note.note.starts_at for note in line.fingering.notes] == [0, 2, 4, 6, 8, 10, 12, 14]


@pytest.mark.parametrize(
    ("metre", "feel", "beats"),
    [
        ("4/4", "straight", [0, 2]),
        ("4/4", "swing", [0, 1, 2, 3]),
        ("4/4", "ballad", [0]),
        ("3/4", "waltz", [0, 2]),
        ("3/4", "swing", [0, 1, 2]),
        ("2/4", "two-step", [0, 1]),
        ("6/8", "straight", [0, Fraction(3, 2)]),
        ("12/8", "slow blues", [0, Fraction(3, 2), 3, Fraction(9, 2)]),
        ("9/8", "jig", [0, 3]),
        ("5/4", "straight", [0, 3]),
        ("7/8 2+2+3", "straight", [0, 2]),
        ("1/4", "straight", [0]),
    ],
)
def test_beats_follow_feel_and_metre(metre, feel, beats):
    """The places of one bar whose chord goes on.

    Common practice, no source.
    """
    assert starts("1", meter=metre, feel=feel) == beats


def test_slashes_are_kept_and_a_rung_chord_has_its_bass_alone():
    """A stop is short, a silence is silent, a push comes early and its beat is not played again."""
    line = bass_line(*song("1/3 | 4.hold | NC | 5.push | 1.stop", key="C"), CELLO)
    assert [str(note.note.degrees[0]) for note in line.fingering.notes] == ["3", "5", "4", "5", "2", "1"]
    assert [(note.note.starts_at, note.note.length) for note in line.fingering.notes] == [
        (0, 2), (2, 2), (4, 4), (Fraction(23, 2), Fraction(5, 2)), (14, 2), (16, Fraction(1, 2)),
    ]  # fmt: skip


@settings(deadline=None, max_examples=15)
@given(
    st.lists(st.sampled_from(("1", "4", "57", "1/3")), min_size=2, max_size=2, unique=True),
    st.sampled_from(("walking", "two-beat", "held")),
    st.sampled_from(("G", "Bb")),
)
def test_no_bass_is_cheaper(chords, style, key):
    """The search finds what trying every note that is offered with every finger finds."""
    chart, timeline = song(" | ".join(chords), key=key, meter="2/4")
    changes = changes_of(chart, timeline)
    beats = bass_beats(timeline, changes, style)
    places = []
    for at, beat in enumerate(beats):
        after = changes[beats[at + 1].change] if beat.leads else None
        offered = _offered(chart.numbering, changes[beat.change], beat, after, BASS)
        places.append(
            [
                LineNote(
                    (p,), beat.at, beat.length, on_beat=beat.on_beat, cost=cost + BASS.height * (p.midi - 36)
                )
                for note, cost in offered.items()
                for p in octaves_of(note, range(36, 64))
            ]
        )
    line = bass_line(chart, timeline, CELLO, style=style)
    assert line.fingering.cost == pytest.approx(cheapest(places, CELLO, "first", BASS_COSTS, 100))


def test_a_style_is_named_by_feel_then_by_metre():
    """Swing walks even in three; a waltz is known by its three beats."""
    assert style_of("swing, brushes", read_metre("3/4")) == "walking"
    assert style_of("blues", read_metre("9/8")) == "waltz"
    assert style_of("anything", read_metre("3/4")) == "waltz"


def test_a_bass_out_of_reach_is_told_with_its_bar():
    """Eb is not in the first position of a double bass; half position has it."""
    made = song("# a\n1 | b7", key="F")
    with pytest.raises(
        Unplayable, match=r"bar 2 \(a\), chord b7: its bass, Eb, is out of reach in first position"
    ):
        bass_line(*made, BASS_VIOL)
    assert bass_line(*made, BASS_VIOL, "half").fingering.notes
    with pytest.raises(LineFault, match="no chords"):
        bass_line(*song("NC"), BASS_VIOL)
