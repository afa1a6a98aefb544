import json

from hypothesis import given

from fifthwise.theory import read_key, read_pitch
from fifthwise.voice import SungTune, best_key, fit_record, rank_keys, read_singer
from tests.voice.strategies import singers, sung, sung_tunes, unhurried

FIELDS = [
    "key",
    "also",
    "tonic",
    "one",
    "octave_shift",
    "cost",
    "in_comfort",
    "upper_reserve",
    "lower_reserve",
    "tessitura_shift",
    "in_turns_beats",
    "cycle_dose",
    "top",
    "bottom",
    "reasons",
    "band",
]


@unhurried
@given(sung_tunes(), singers())
def test_a_record_survives_json(tune, singer):
    """Nothing but plain values: what is written is what comes back."""
    for fit in rank_keys(tune, singer):
        record = fit_record(fit)
        assert json.loads(json.dumps(record)) == record
        assert list(record) == FIELDS


def test_a_record_says_what_the_fit_says():
    """One fit, field by field, reckoned by hand: A3 to A4 in D, usable F3-D5."""
    maren = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4", turns="D4")
    tune = SungTune(read_key("D"), (sung("5", -1), sung("1"), sung("5")), written=read_pitch("D4"))
    record = fit_record(next(fit for fit in rank_keys(tune, maren) if str(fit.key) == "D"))
    assert (record["key"], record["also"], record["tonic"], record["octave_shift"]) == ("D", None, "D4", 0)
    assert (record["top"], record["bottom"]) == ("A4", "A3")
    assert (record["upper_reserve"], record["lower_reserve"], record["tessitura_shift"]) == (5, 4, -0.5)
    assert (record["cost"], record["in_comfort"], record["in_turns_beats"]) == (0.167, 1.0, 1.0)
    assert record["band"] == {
        "open_strings": ["D", "G", "A"],
        "capo": 0,
        "shape": "D",
        "horns": {
            "Bb": {"key": "E", "accidentals": 4},
            "Eb": {"key": "B", "accidentals": 5},
            "F": {"key": "A", "accidentals": 3},
        },
    }


def test_a_modulating_minor_song_is_written_short():
    """Keys are named as they are called on stage."""
    tune = SungTune(read_key("Em"), (sung("1"), sung("b3"), sung("1", lift=2)))
    maren = read_singer("Maren", usable="F3-D5", comfort="A3-Bb4")
    assert fit_record(best_key(tune, maren))["key"].endswith("m")
