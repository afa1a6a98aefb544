"""A second voice to a tune: intervals by music21, chord tones on strong beats, brute force."""

import music21
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.strings import LineFault, Unplayable, instrument_of
from fifthwise.strings.fingering import LineNote, fingering_faults
from fifthwise.strings.lines import HARMONY, changes_of, chord_roles, harmony, tune_line
from fifthwise.strings.lines.changes import change_at
from fifthwise.strings.lines.weights import HARMONY_COSTS
from fifthwise.theory import SpelledPitch, note_of
from tests.strings.lines.reading import cheapest, line_pitches
from tests.strings.lines.songs import song
from tests.strings.lines.strategies import KEYS

VIOLIN, VIOLA, CELLO = map(instrument_of, ("violin", "viola", "cello"))
MAJOR = ("C", "G", "D", "A", "F", "Bb", "Eb")
STEPS = ("1", "2", "3", "4", "5", "6", "7", "1'", "(1 2)", "-", "0")


@st.composite
def tunes(draw, keys=KEYS, most=3):
    """A chart with a tune over it, in the octave that begins at its 1."""
    chords, lines = [], []
    for _ in range(draw(st.integers(1, most))):
        chords.append(draw(st.sampled_from(("1", "4", "57", "6-", "2-", "NC", "b7", "5/7"))))
        beats = [
            draw(st.sampled_from(STEPS[:8])),
            *draw(st.lists(st.sampled_from(STEPS), min_size=3, max_size=3)),
        ]
        lines.append(" ".join(beats))
    body = f"{' | '.join(chords)}\ntune: {' | '.join(lines)}"
    return song(body, key=draw(st.sampled_from(keys)))


def music21_pitch(pitch):
    """The same pitch as music21 spells it."""
    return music21.pitch.Pitch(f"{str(pitch.name).replace('b', '-')}{pitch.octave}")


def pairs(line, tune):
    """The second voice's pitch beside the tune's, wherever both sound."""
    for note, written in zip(line.fingering.notes, tune.notes, strict=True):
        for pitch in note.note.pitches:
            if pitch != written.pitches[0]:
                yield pitch, written.pitches[0]


@settings(deadline=None, max_examples=60)
@given(tunes(), st.sampled_from(("below", "above")), st.booleans())
def test_the_second_voice_lies_a_third_to_a_sixth_away_on_its_side(made, side, with_tune):
    """Every interval is a third, fourth, fifth or sixth by music21: no second, no unison, no crossing."""
    for instrument in (VIOLIN, CELLO):
        try:
            line = harmony(*made, instrument, "all", side=side, with_tune=with_tune)
        except Unplayable:
            assert not with_tune
            continue
        assert fingering_faults(line.fingering, instrument, "all") == ()
        for second, tune in pairs(line, tune_line(*made, line.octave)):
            interval = music21.interval.Interval(music21_pitch(second), music21_pitch(tune))
            assert interval.generic.undirected in (3, 4, 5, 6)
            assert 3 <= abs(interval.semitones) <= 9
            assert (interval.semitones > 0) == (side == "below")


@settings(deadline=None, max_examples=60)
@given(tunes(), st.sampled_from(("below", "above")))
def test_the_tune_stays_as_it_is(made, side):
    """Each double stop holds the tune's own note, at its own time; alone it is the tune's."""
    line = harmony(*made, VIOLIN, "third", side=side)
    tune = tune_line(*made, line.octave)
    for note, written in zip(line.fingering.notes, tune.notes, strict=True):
        assert written.pitches[0] in note.note.pitches
        assert (note.note.starts_at, note.note.length) == (written.starts_at, written.length)
        assert written.degrees[0] == note.note.degrees[note.note.pitches.index(written.pitches[0])]


@settings(deadline=None, max_examples=60)
@given(tunes())
def test_the_second_voice_is_of_the_key_or_the_chord(made):
    """Each pitch is a step of the scale, or a tone of the chord that holds."""
    chart, timeline = made
    line = harmony(chart, timeline, VIOLIN, "third")
    tune = tune_line(chart, timeline, line.octave)
    scale = {note_of(degree, chart.numbering.one(chart.key)) for degree in chart.numbering.scale(chart.key)}
    try:
        changes = changes_of(chart, timeline)
    except LineFault:
        changes = ()
    for note, written in zip(line.fingering.notes, tune.notes, strict=True):
        held = change_at(changes, written.starts_at)
        chord = {tone.note for tone in chord_roles(held)} if held else set()
        for pitch in note.note.pitches:
            if pitch != written.pitches[0]:
                assert pitch.name in scale | chord


def test_thirds_and_sixths_below_a_tune():
    """1 2 3 over 1: sixths and thirds of the key; the strong beats have chord tones.

    Common practice, no source.
    """
    line = harmony(*song("1\ntune: 3 4 5 -", key="D", octave=4), VIOLIN)
    assert line_pitches(line).split()[0] == "D4+F#4"
    assert line.fingering.notes[-1].note.pitches[1] == SpelledPitch(3, 4)
    line = harmony(*song("5\ntune: 7, - 2 -", key="G", octave=4), VIOLIN, side="above")
    assert {str(tone) for note in line.fingering.notes for tone in note.note.degrees} <= {"7", "2", "5"}


def test_a_scale_step_gives_way_to_the_chord():
    """Over 57 in E minor the seventh step is D sharp, the third of the chord; over 1- it is D."""
    line = harmony(
        *song("57 | 1-\ntune: 2 - - - | 5 - - -", key="E minor", minor="from-one"), VIOLIN, "third"
    )
    names = [str(pitch.name) for pitch in line.fingering.notes[0].note.pitches]
    assert "D" not in names


@settings(deadline=None, max_examples=25)
@given(tunes(keys=("G", "Bb"), most=1), st.sampled_from(("below", "above")))
def test_no_second_voice_is_cheaper(made, side):
    """The search finds what trying every second voice with every finger finds."""
    chart, timeline = made
    if len(timeline.notes) > 4:
        return
    line = harmony(chart, timeline, VIOLIN, side=side, octave=4)
    tune = tune_line(chart, timeline, 4)
    try:
        changes = changes_of(chart, timeline)
    except LineFault:
        changes = ()
    places = [list(choices(chart, note, change_at(changes, note.starts_at), side)) for note in tune.notes]
    assert line.fingering.cost == pytest.approx(cheapest(places, VIOLIN, "first", HARMONY_COSTS, 100))


def choices(chart, note, change, side):
    """The tune alone, and with every note of the scale a third to a sixth away, with what each costs."""
    tune = note.pitches[0]
    yield LineNote(note.pitches, note.starts_at, note.length, on_beat=note.on_beat, cost=HARMONY.alone,
                   phrase_start=note.phrase_start)  # fmt: skip
    steps = {degree.step: degree for degree in chart.numbering.scale(chart.key)}
    chord = {tone.degree for tone in chord_roles(change)} if change else set()
    steps |= {degree.step: degree for degree in chord}
    weights = {3: HARMONY.third, 4: HARMONY.fourth, 5: HARMONY.fifth, 6: HARMONY.sixth}
    strong = note.starts_at % 2 == 0
    for degree in steps.values():
        for octave in range(2, 8):
            other = SpelledPitch(note_of(degree, chart.numbering.one(chart.key)).fifths, octave)
            apart = tune.midi - other.midi if side == "below" else other.midi - tune.midi
            interval = music21.interval.Interval(music21_pitch(tune), music21_pitch(other))
            if not (3 <= apart <= 9 and interval.generic.undirected in weights):
                continue
            cost = weights[interval.generic.undirected] + HARMONY.tritone * (apart == 6)
            if change and degree not in chord:
                cost += HARMONY.off_chord_strong if strong else HARMONY.off_chord_weak
            both = (other, tune) if side == "below" else (tune, other)
            yield LineNote(both, note.starts_at, note.length, on_beat=note.on_beat, cost=cost,
                           phrase_start=note.phrase_start)  # fmt: skip


def test_pins_bind_the_tune_and_not_the_second_voice():
    """A pinned note keeps its string and finger in the double stop."""
    line = harmony(*song("1\ntune: 3 - - -\nfingers: D2 . . .", key="D", octave=4), VIOLIN)
    (note,) = line.fingering.notes
    assert note.note.pins == (".", "D2")
    assert (note.stops[1].string, note.stops[1].finger) == (1, 2)


def test_two_notes_of_the_tune_at_once_stay():
    """A double stop of the tune gets no third voice."""
    line = harmony(*song("1\ntune: 1&3 - 5 -", key="D", octave=4), VIOLIN)
    assert line_pitches(line).split()[0] == "D4+F#4"


def test_a_second_voice_that_cannot_be_played_is_told():
    """Below the lowest string there is nothing for another player; in double stops the tune is left alone."""
    made = song("# a\n1\ntune: 1 - - -", key="G", octave=3)
    with pytest.raises(
        Unplayable, match=r"bar 1 \(a\), note 1: no second voice below G3 lies under the hand"
    ):
        harmony(*made, VIOLIN, with_tune=False, octave=3)
    line = harmony(*made, VIOLIN, octave=3)
    assert len(line.fingering.notes[0].stops) == 1
    with pytest.raises(LineFault, match="the song has no tune"):
        harmony(*song("1"), VIOLIN)
