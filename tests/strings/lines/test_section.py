"""Several players voicing the chords together: laws, and the search against one without pruning."""

from itertools import pairwise, product

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.strings import LineFault, Unplayable, instrument_of
from fifthwise.strings.fingering import fingering_faults
from fifthwise.strings.lines import SECTION, changes_of, chord_roles, harmony, section
from fifthwise.strings.lines.result import groups_of
from fifthwise.strings.lines.section import best_rows
from fifthwise.strings.lines.tones import bass_tone
from fifthwise.strings.lines.voicings import is_bass, voicings
from tests.strings.lines.songs import song
from tests.strings.lines.strategies import progressions

VIOLIN, VIOLA, CELLO, BASS = map(instrument_of, ("violin", "viola", "cello", "double bass"))
PLAYERS = (
    ((VIOLIN, "first"), (VIOLIN, "first")),
    ((VIOLA, "first"), (VIOLIN, "third")),
    ((CELLO, "half"), (VIOLIN, "first")),
    ((CELLO, "half"), (VIOLA, "first"), (VIOLIN, "first")),
    ((VIOLA, "half"), (VIOLIN, "half"), (VIOLIN, "third")),
    ((BASS, "half"), (CELLO, "third"), (VIOLA, "first"), (VIOLIN, "first")),
    ((CELLO, "all"), (VIOLA, "third"), (VIOLIN, "third"), (VIOLIN, "third")),
)
players = st.sampled_from(PLAYERS)


@settings(deadline=None, max_examples=60)
@given(progressions(), players)
def test_voices_do_not_cross_and_leave_no_gap(made, who):
    """Low to high, upper neighbours within an octave, every tone of the chord, every hand able."""
    found, changes = section(*made, who), changes_of(*made)
    assert len(found.parts) == len(who)
    for part, (instrument, level) in zip(found.parts, who, strict=True):
        assert fingering_faults(part.fingering, instrument, level) == ()
    for at, change in enumerate(changes):
        pitches = [part.fingering.notes[at].note.pitches[0] for part in found.parts]
        assert all(part.fingering.notes[at].note.starts_at == change.starts_at for part in found.parts)
        for voice, (low, high) in enumerate(pairwise(pitches)):
            assert low.midi <= high.midi
            assert high.midi - low.midi <= 12 or (voice == 0 and is_bass(who[0][0]))
        names = {tone.note for tone in chord_roles(change)} | {bass_tone(change).note}
        assert {pitch.name for pitch in pitches} <= names
        if is_bass(who[0][0]):
            assert pitches[0].name == change.bass


def unpruned(layers, motion):
    """The least cost by going on from every voicing, none left out."""
    totals = layers[0].costs
    for before, after in pairwise(layers):
        apart = np.abs(before.sounds[:, None, :] - after.sounds[None, :, :]).sum(axis=2)
        totals = (totals[:, None] + motion * apart).min(axis=0) + after.costs
    return float(totals.min())


@settings(deadline=None, max_examples=40)
@given(progressions(most=5), players, st.sampled_from((0.0, 0.05, 0.25, 2.0)))
def test_what_is_left_out_is_never_needed(made, who, motion):
    """The search with pruning costs what the search without it costs, and its rows cost that."""
    layers = [voicings(group[0], who, None, SECTION) for group in groups_of(changes_of(*made))]
    rows, cost = best_rows(layers, motion)
    assert cost == pytest.approx(unpruned(layers, motion))
    told = sum(layer.costs[row] for layer, row in zip(layers, rows, strict=True))
    for (old, before), (new, after) in pairwise(zip(layers, rows, strict=True)):
        told += motion * np.abs(old.sounds[before] - new.sounds[after]).sum()
    assert told == pytest.approx(cost)


@settings(deadline=None, max_examples=20)
@given(st.lists(st.sampled_from(("1", "4", "57", "5/7")), min_size=2, max_size=3, unique=True))
def test_no_voicing_of_a_duo_is_cheaper(chords):
    """Every row of every chord is tried with every row of the next."""
    who = PLAYERS[2]
    layers = [
        voicings(group[0], who, None, SECTION) for group in groups_of(changes_of(*song(" | ".join(chords))))
    ]
    least = min(
        sum(layer.costs[row] for layer, row in zip(layers, rows, strict=True))
        + 0.25
        * sum(
            int(abs(int(a) - int(b)))
            for (old, before), (new, after) in pairwise(zip(layers, rows, strict=True))
            for a, b in zip(old.sounds[before], new.sounds[after], strict=True)
        )
        for rows in product(*(range(len(layer.costs)) for layer in layers))
    )
    assert best_rows(layers, 0.25)[1] == pytest.approx(least)


def test_every_voicing_is_there():
    """The rows of a trio are all the picks that neither cross nor leave a gap, found one by one."""
    (change,) = changes_of(*song("1", key="C"))
    who = PLAYERS[3]
    made = voicings(change, who, None, SECTION)
    wanted = {
        tuple(pitch.midi for pitch, _ in pick)
        for pick in product(*made.offered)
        if pick[0][0].midi <= pick[1][0].midi <= pick[2][0].midi <= pick[1][0].midi + 12
    }
    assert {tuple(map(int, row)) for row in made.sounds} == wanted
    assert len(made.sounds) == len(wanted)


def test_a_chord_is_whole_where_there_are_players_enough():
    """Four players have root, third and seventh of 2 5 1; the bass has the roots."""
    found = section(*song("2-7 | 57 | 1maj7", key="C"), PLAYERS[-1])
    for at, (third, seventh, root) in enumerate((("F", "C", "D"), ("B", "F", "G"), ("E", "B", "C"))):
        names = [str(part.fingering.notes[at].note.pitches[0].name) for part in found.parts]
        assert {third, seventh} <= set(names)
        assert names[0] == root


@pytest.mark.parametrize("side", ["below", "above"])
def test_a_given_top_voice_stays_above(side):
    """Under a second voice to the tune nobody goes above its lowest note over the chord."""
    made = song("1 | 4 | 57 | 1\ntune: 3 4 5 3 | 6 - 5 4 | 4 - 2 - | 3 - - 0", key="D", octave=4)
    top = harmony(*made, VIOLIN, "third", side=side, with_tune=False)
    found = section(*made, PLAYERS[3], top=top)
    assert found.parts[-1] is top
    for at, change in enumerate(changes_of(*made)):
        over = [n.note for n in top.fingering.notes if change.starts_at <= n.note.starts_at < change.until]
        for part in found.parts[:-1]:
            assert part.fingering.notes[at].note.pitches[0].midi <= min(note.pitches[0].midi for note in over)


def test_what_cannot_be_voiced_is_told():
    """Too few, too many, no chords, and a chord whose bass the bass cannot reach."""
    for who in (PLAYERS[0][:1], PLAYERS[-1] + PLAYERS[0]):
        with pytest.raises(LineFault, match=r"players: \d players?. Name 2 to 4, low to high"):
            section(*song("1"), who)
    with pytest.raises(LineFault, match="no chords"):
        section(*song("NC"), PLAYERS[0])
    with pytest.raises(
        Unplayable, match=r"bar 2 \(a\), chord b7: no voicing of the chord fits double bass, violin"
    ):
        section(*song("# a\n1 | b7", key="F"), ((BASS, "first"), (VIOLIN, "first")))


def test_a_long_song_for_four_is_done_in_time(timed):
    """Five thousand chords for four players take seconds."""
    chart, timeline = song("# a x32\n" + " | ".join(["1 4 / 5", "6- 2-7 / 57"] * 27), key="Eb")
    with timed(30):
        assert len(section(chart, timeline, PLAYERS[-1]).parts[0].bars) == len(timeline.entries) > 5000
