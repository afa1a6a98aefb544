from dataclasses import replace
from fractions import Fraction

import pytest
from hypothesis import given

from fifthwise.theory import Numbering, SpelledPitch, between, move_key, note_of, read_key, read_pitch
from fifthwise.voice import (
    NoTune,
    Range,
    SungTune,
    best_key,
    rank_keys,
    read_singer,
    sit,
    sung_pitch,
)
from fifthwise.voice.ranking import EQUAL_COST
from tests.voice.strategies import pitch_at, singers, sung, sung_tunes, unhurried, weights

MAREN = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")
# Eight bars of 4/4 from the 5 below to the 5 above the tonic. Of 36 parts (32 beats, held notes counting
# half as much again) the lowest note has 6 and the highest 5.
EIGHT_BARS = SungTune(
    read_key("C"),
    (
        *[sung("5", -1, 2)] * 2,
        sung("5", 0, 2),
        *[sung("5")] * 2,
        sung("1", 0, 2),
        *[sung("6", -1)] * 3,
        *[sung("1")] * 8,
        *[sung("2")] * 6,
        *[sung("3")] * 5,
    ),
)


def test_the_worked_example_comes_out():
    """D and Eb tie at 0.07, then Db 0.10, C 0.20, E 0.21; TS -0.5 and +0.5, UR 5 and 4.

    Source: the formula by hand, for a tune from 5 semitones below to 7 above its tonic, usable F3-D5,
    comfort A3-Bb4. In D and Eb every note is comfortable and both reserves are above 2, so 0.07 can only be
    time in a change-over, which the example does not name. Taken here: Bb4 (so A4 to B4), a sixth of the
    tune's weight on its lowest note, 5/36 on its highest. Then D, Eb: 0.5 x 5/36 = 0.069; Db: 0.6 x 1/6 =
    0.1; C: 0.6 x 2/6 = 0.2; E: 1.0 x 5/36 + 0.5 x 5/36 = 0.208.
    """
    fits = rank_keys(EIGHT_BARS, replace(MAREN, turns=(read_pitch("Bb4"),)))
    told = [(str(fit.key), str(fit.tonic), round(fit.cost, 2)) for fit in fits[:5]]
    assert told == [
        ("D", "D4", 0.07),
        ("Eb", "Eb4", 0.07),
        ("Db", "Db4", 0.10),
        ("C", "C4", 0.20),
        ("E", "E4", 0.21),
    ]
    assert fits[0].cost == pytest.approx(fits[1].cost)
    assert [fit.sitting.tessitura_shift for fit in fits[:2]] == [-0.5, 0.5]
    assert [fit.sitting.upper_reserve for fit in fits[:2]] == [5, 4]
    assert [fit.sitting.lower_reserve for fit in fits[:2]] == [4, 5]


@unhurried
@given(sung_tunes(), singers())
def test_twelve_sounding_keys_once_each(tune, singer):
    """Every sounding key is ranked once, in at most six sharps or flats, and keeps the song's mode."""
    fits = rank_keys(tune, singer)
    assert sorted(fit.key.tonic.pitch_class for fit in fits) == list(range(12))
    assert all(abs(fit.key.signature) <= 6 and fit.key.mode == tune.home.mode for fit in fits)
    assert [fit.key.signature % 12 for fit in fits if fit.also] == [6]


@unhurried
@given(sung_tunes(), singers(), weights())
def test_no_other_octave_is_cheaper(tune, singer, table):
    """Trying every octave finds nothing that costs less than the octave kept."""
    for fit in rank_keys(tune, singer, weights=table):
        octaves = (sit(tune, singer, fit.tonic.midi + 12 * by, table).parts.total for by in range(-6, 7))
        assert fit.cost <= min(octaves) + 1e-6


@unhurried
@given(sung_tunes(), singers())
def test_only_ties_are_settled_by_the_band(tune, singer):
    """No key stands before one that costs the singer clearly less."""
    costs = [fit.cost for fit in rank_keys(tune, singer)]
    assert all(cost <= later + EQUAL_COST for at, cost in enumerate(costs) for later in costs[at:])


@unhurried
@given(sung_tunes(), singers())
def test_an_octave_higher_singer_sings_the_same_keys_an_octave_up(tune, singer):
    """The order of keys is the same, each tonic an octave higher."""
    up = [
        Range(pitch_at(r.low.midi + 12), pitch_at(r.high.midi + 12)) for r in (singer.usable, singer.comfort)
    ]
    turns = tuple(pitch_at(turn.midi + 12) for turn in singer.turns)
    high = rank_keys(tune, replace(singer, usable=up[0], comfort=up[1], turns=turns))
    for here, there in zip(rank_keys(tune, singer), high, strict=True):
        assert (there.key, there.cost) == (here.key, here.cost)
        assert there.tonic == SpelledPitch(here.tonic.fifths, here.tonic.octave + 1)


@unhurried
@given(sung_tunes(), singers())
def test_pitches_are_spelled_by_their_degree(tune, singer):
    """A note is named by its number in the key that holds, and sounds as far from the tonic as written."""
    numbering = Numbering("from-one")
    for fit in rank_keys(tune, singer):
        for note in tune.notes:
            pitch = sung_pitch(note, fit.key, fit.tonic)
            holds = move_key(fit.key, note.lift, sharps=fit.key.signature > 0)
            assert pitch.midi == fit.tonic.midi + note.above_home.semitones
            assert pitch.name == note_of(note.degree, numbering.one(holds))


@unhurried
@given(sung_tunes(), singers())
def test_top_and_bottom_are_the_ends_of_the_tune(tune, singer):
    """The reserves are what is left beyond them."""
    for fit in rank_keys(tune, singer):
        assert singer.usable.high.midi - fit.top.midi == fit.sitting.upper_reserve
        assert fit.bottom.midi - singer.usable.low.midi == fit.sitting.lower_reserve


def test_a_tie_goes_to_the_key_with_open_strings():
    """D and Eb cost the singer the same; D has three open strings among 1, 4 and 5."""
    first, second = rank_keys(EIGHT_BARS, replace(MAREN, turns=(read_pitch("Bb4"),)))[:2]
    assert (str(first.key), str(second.key)) == ("D", "Eb")


def test_many_ties_come_in_the_bands_order():
    """One comfortable note costs nothing in any key, so the band alone decides.

    By hand: of 1, 4 and 5 three are open strings in G, D and A, two in C and E. All have an open shape.
    Accidentals for Bb, Eb and F horns: G 3 + 4 + 2 = 9, D 4 + 5 + 3 = 12, A 5 + 6 + 4 = 15; C 6, E 6 + 5 + 5.
    """
    fits = rank_keys(SungTune(read_key("C"), (sung("1"),)), MAREN)
    assert [str(fit.key) for fit in fits[:5]] == ["G", "D", "A", "C", "E"]


def test_open_strings_never_outweigh_the_singer():
    """Eb wins as soon as D costs a little more, however handy D is."""
    narrower = replace(MAREN, comfort=Range(read_pitch("Bb3"), read_pitch("Bb4")))
    assert str(best_key(EIGHT_BARS, narrower).key) == "Eb"


def test_the_last_chorus_counts():
    """A tune that goes up a whole step at its end is ranked lower than without that."""
    lifted = SungTune(
        read_key("C"), (*EIGHT_BARS.notes, *(a_whole_step_up(note) for note in EIGHT_BARS.notes))
    )
    plain, modulating = best_key(EIGHT_BARS, MAREN), best_key(lifted, MAREN)
    assert modulating.sitting.upper_reserve >= 2
    assert modulating.tonic.midi < plain.tonic.midi
    assert modulating.top.midi - modulating.tonic.midi == 9


def a_whole_step_up(note):
    """The same note after a change of key."""
    return sung(str(note.degree), 0 if note.above_home.semitones >= 0 else -1, note.beats, 2)


def test_six_sharps_and_six_flats_are_both_named():
    """Gb is listed with F# beside it; a song from a sharp key has it the other way round."""
    flat = next(fit for fit in rank_keys(EIGHT_BARS, MAREN) if fit.also)
    assert (str(flat.key), str(flat.also)) == ("Gb", "F#")
    sharp = next(fit for fit in rank_keys(replace(EIGHT_BARS, home=read_key("D")), MAREN) if fit.also)
    assert (str(sharp.key), str(sharp.also)) == ("F#", "Gb")


def test_a_song_from_c_flat_is_ranked_in_everyday_keys():
    """A home of seven flats ranks as B would: the distances are the same."""
    flat, sharp = (rank_keys(replace(EIGHT_BARS, home=read_key(name)), MAREN) for name in ("Cb", "B"))
    assert [fit.cost for fit in flat] == [fit.cost for fit in sharp]
    assert "Cb" not in [str(fit.key) for fit in flat]


def test_a_minor_song_is_ranked_by_its_minor_tonic():
    """A song in G# minor is offered minor keys, its own among them, as Em or C#m."""
    tune = SungTune(read_key("G#m"), (sung("5", -1), sung("1"), sung("b3"), sung("5")))
    names = {fit.key.short for fit in rank_keys(tune, MAREN)}
    assert {"G#m", "Em", "C#m", "Bbm"} <= names
    assert all(name.endswith("m") for name in names)


def test_a_tune_of_one_note_is_put_near_the_middle():
    """One note costs nothing wherever it is comfortable; of two octaves the nearer to the middle is kept.

    By hand: the middle of F3-D5 is 63.5. A3 (57) and A4 (69) are both comfortable, and so are Bb3 (58) and
    Bb4 (70): A4 and Bb3 are nearer.
    """
    fits = rank_keys(SungTune(read_key("C"), (sung("1"),)), MAREN)
    assert all(fit.cost == 0 for fit in fits)
    assert {"A4", "Bb3"} <= {str(fit.tonic) for fit in fits}


def test_a_singer_with_a_fifth_of_range_still_gets_an_answer():
    """Where no key can be sung through, every cost is above 1 and a reason names the end of the voice."""
    small = read_singer("Jonna", usable="C4-G4", comfort="D4-F4")
    fits = rank_keys(EIGHT_BARS, small)
    assert len(fits) == 12
    assert all(fit.cost > 1 for fit in fits)
    assert any("Jonna's" in reason for reason in fits[0].reasons)


def test_an_empty_tune_is_a_fault():
    """There is nothing to rank, and the mend is named."""
    with pytest.raises(NoTune, match=r"there is nothing to sing.*'tune:' lines, or 'lowest:' and 'highest:'"):
        SungTune(read_key("C"), ())


@pytest.mark.parametrize(
    ("written", "usable", "comfort", "shift"),
    [
        ("C4", "F3-D5", "A3-Bb4", 0),
        ("E4", "F3-D5", "A3-Bb4", 0),
        ("Ab3", "F3-D5", "A3-Bb4", 0),
        ("Ab4", "F3-D5", "A3-Bb4", 0),
        ("G3", "F3-D5", "A3-Bb4", 1),
        ("A4", "F3-D5", "A3-Bb4", -1),
        ("C5", "F3-D5", "A3-Bb4", -1),
        ("C4", "F4-D6", "A4-Bb5", 1),
        ("C3", "F4-D6", "A4-Bb5", 2),
    ],
)
def test_the_octave_is_told_against_what_is_written(written, usable, comfort, shift):
    """The written octave is a hint; D4 is in it from Ab3 to Ab4, half an octave each way."""
    tune = replace(EIGHT_BARS, written=read_pitch(written))
    fit = best_key(tune, read_singer("Maren", usable=usable, comfort=comfort))
    assert fit.octave_shift == shift


def test_a_floating_tune_has_no_octave_shift():
    """Nothing is written, so nothing is higher or lower than written."""
    assert best_key(EIGHT_BARS, MAREN).octave_shift is None


def test_one_and_tonic_differ_in_minor_counted_from_six():
    """With the tonic on A3 the unmarked 1 is the C4 above it."""
    tune = SungTune(read_key("Am"), (sung("6", -1, Fraction(4)),))
    from_six = replace(tune, one=between(read_pitch("A3"), read_pitch("C4")))
    fit = next(fit for fit in rank_keys(from_six, MAREN) if fit.key.short == "Am")
    assert fit.one.midi - fit.tonic.midi == 3
    assert str(fit.one.name) == "C"
