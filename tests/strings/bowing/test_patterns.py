from fractions import Fraction
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from music21 import meter

from fifthwise.chart import FEELS, groove
from fifthwise.strings.bowing import STROKES, UnknownBowing, bowing_named, bowing_names, bowings_for
from fifthwise.strings.bowing.groups import group_starts
from fifthwise.strings.bowing.table import bowing_table
from fifthwise.theory import Metre, read_metre
from tests.strategies import metres

USUAL = ("2/4", "3/4", "4/4", "5/4", "2/2", "6/8", "9/8", "12/8", "7/8 2+2+3")
BOWED = ("down", "up")


def accepted():
    """Every metre that a chart accepts: up to 32 counts, up to 9 in a named group."""
    even = st.builds(Metre, st.integers(1, 32), st.sampled_from((2, 4)))
    groups = st.lists(st.integers(1, 9), min_size=1, max_size=8).filter(lambda parts: sum(parts) <= 32)
    return metres() | even | groups.map(lambda parts: Metre(sum(parts), 8, tuple(parts)))


@given(st.sampled_from(sorted(FEELS)), accepted())
def test_every_feel_and_metre_has_a_pattern_with_strokes_on_real_places(feel, metre):
    """Strokes fill the bar without a gap, on counts, their halves or quarters, and one of them sounds."""
    found = bowings_for(feel, metre)
    assert found
    count = Fraction(4, metre.unit)
    for bowing in found:
        assert bowing.metre == metre
        reached = Fraction(0)
        for stroke in bowing.strokes:
            assert stroke.onset == reached
            assert stroke.length > 0
            assert stroke.kind in STROKES
            assert (stroke.onset / count).denominator in (1, 2, 4)
            reached += stroke.length
        assert reached == metre.length
        assert any(stroke.kind != "rest" for stroke in bowing.strokes)


@given(st.sampled_from(sorted(FEELS)), accepted())
def test_a_feels_own_patterns_come_before_its_familys(feel, metre):
    """Once a pattern of the family has come, none of the feel's own follows; no name comes twice."""
    found = bowings_for(feel, metre)
    own = [groove(feel) in bowing.feels for bowing in found]
    assert own == sorted(own, reverse=True)
    assert len({bowing.name for bowing in found}) == len(found)


@given(st.sampled_from(sorted(FEELS)), accepted())
def test_a_pattern_never_begins_up_and_slurs_come_from_a_bow(feel, metre):
    """The rule of the down-bow holds in patterns, and a slur goes on from a bow, round the bar line too."""
    for bowing in bowings_for(feel, metre):
        kinds = [stroke.kind for stroke in bowing.strokes]
        assert kinds[0] != "up"
        for before, now in pairwise([kinds[-1], *kinds]):
            assert now != "slurred" or before in (*BOWED, "slurred")


@pytest.mark.parametrize("metre", USUAL)
def test_a_bar_slurred_into_goes_on_from_an_up_bow(metre):
    """Played bar after bar, its last bow is up, so the first new one turns down."""
    for name in bowing_names():
        for bowing in (b for feel in FEELS for b in bowings_for(feel, read_metre(metre)) if b.name == name):
            bows = [stroke.kind for stroke in bowing.strokes if stroke.kind in BOWED]
            if bowing.strokes[0].kind == "slurred":
                assert (bows[0], bows[-1]) == ("down", "up")


@pytest.mark.parametrize("metre", USUAL)
@pytest.mark.parametrize(
    "name", ["simple shuffle", "slurred shuffle", "saw stroke", "two and two", "train bow"]
)
def test_plain_bowings_turn_with_every_bow(name, metre):
    """No hook and no retake, over the bar line neither."""
    try:
        bowing = bowing_named(name, read_metre(metre))
    except UnknownBowing:
        assert metre not in bowing_table()["patterns"][name]["bars"]
        return
    bows = [stroke.kind for stroke in bowing.strokes if stroke.kind in BOWED]
    assert all(before != now for before, now in pairwise([*bows, bows[0]]))


@pytest.mark.parametrize(
    ("metre", "theirs"),
    [
        ("7/8 2+2+3", "2/8+2/8+3/8"),
        ("7/8 2+3+2", "2/8+3/8+2/8"),
        ("5/8 3+2", "3/8+2/8"),
        ("8/8 3+3+2", "3/8+3/8+2/8"),
        ("6/8", "6/8"),
        ("9/8", "9/8"),
        ("12/8", "12/8"),
        ("6/4", "6/4"),
        ("9/4", "9/4"),
    ],
)
def test_groups_begin_where_music21_counts_its_beats(metre, theirs):
    """Source: music21, TimeSignature.getBeatOffsets of the same metre, groups written as a sum."""
    offsets = [Fraction(offset) for offset in meter.TimeSignature(theirs).getBeatOffsets()]
    assert list(group_starts(read_metre(metre))) == offsets
    downs = [
        stroke.onset
        for stroke in bowing_named("down on each group", read_metre(metre)).strokes
        if stroke.kind == "down"
    ]
    assert downs == offsets


@pytest.mark.parametrize("metre", ["2/4", "3/4", "4/4", "6/8", "9/8", "12/8"])
def test_the_backbeat_is_where_music21_hears_less_weight(metre):
    """Chops lie on beats that weigh less than the first. Source: music21, TimeSignature.getAccentWeight."""
    theirs = meter.TimeSignature(metre)
    beats = {Fraction(offset) for offset in theirs.getBeatOffsets()}
    chops = [
        s.onset for s in bowing_named("chop on the backbeat", read_metre(metre)).strokes if s.kind == "chop"
    ]
    assert chops
    assert set(chops) <= beats
    assert all(theirs.getAccentWeight(float(chop)) < theirs.getAccentWeight(0) for chop in chops)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        # Source: two teaching pages for fiddlers (dummies.com, "How to Play Bowing Patterns in Bluegrass
        # Fiddling"; fiddlingforolderfolks.com, "Shuffle Bowing"): a long down-bow and two short strokes, a
        # long up-bow and two short strokes, 2 and 4 accented; of four eighths two slurred and two apart.
        ("simple shuffle", "down 0-1, up> 1-3/2, down 3/2-2, up 2-3, down> 3-7/2, up 7/2-4"),
        (
            "slurred shuffle",
            "down 0-1/2, ~ 1/2-1, up> 1-3/2, down 3/2-2, up 2-5/2, ~ 5/2-3, down> 3-7/2, up 7/2-4",
        ),
        # Source: joeweed.com, worksheet "The slur three, bow one pattern": three slurred on an up-bow, one
        # accented down-bow on beats two and four.
        (
            "slur three, bow one",
            "~ 0-1/2, ~ 1/2-1, down> 1-3/2, up 3/2-2, ~ 2-5/2, ~ 5/2-3, down> 3-7/2, up 7/2-4",
        ),
    ],
)
def test_the_fiddle_shuffles_are_as_they_are_taught(name, expected):
    """Directions, slurs and accents of the shuffles in 4/4 are those of the pages named beside them."""
    strokes = bowing_named(name, read_metre("4/4")).strokes
    said = [f"{s.kind}{'>' * s.accent} {s.onset}-{s.onset + s.length}" for s in strokes]
    assert ", ".join(said).replace("slurred", "~") == expected


@pytest.mark.parametrize(
    ("feel", "metre", "first"),
    [
        ("straight", "4/4", "chop on the backbeat"),
        ("half-time", "4/4", "chop on 3"),
        ("funk", "4/4", "sixteenth chop"),
        ("shuffle", "4/4", "chop with a swung lead-in"),
        ("waltz", "3/4", "one down, two soft"),
        ("train", "2/4", "chop on the off-beats"),
        ("stomp", "7/8 2+2+3", "chop on the backbeat"),
        ("slow ballad", "5/4", "two bows a bar"),
        ("train", "7/8 2+2+3", "chop on the backbeat"),
    ],
)
def test_the_best_pattern_of_a_feel_comes_first(feel, metre, first):
    """A feel's own pattern for the metre, else its family's. Common practice, no source."""
    assert bowings_for(feel, read_metre(metre))[0].name == first


def test_every_groove_of_the_chart_language_has_patterns_of_its_own():
    """No groove lives on its family alone, and no pattern is for a groove that charts do not know."""
    named = {feel for row in bowing_table()["patterns"].values() for feel in row["feels"]}
    assert named == set(FEELS.values())
    assert set(bowing_table()["falls"]) == named - {"straight"}


def test_groups_that_go_without_saying_are_the_plain_metre():
    """6/8 3+3 has the strokes of 6/8."""
    assert bowing_named("saw stroke", read_metre("6/8 3+3")).strokes == (
        bowing_named("saw stroke", read_metre("6/8")).strokes
    )


@pytest.mark.parametrize(
    ("name", "metre", "message"),
    [
        ("simple shufle", "4/4", "'simple shufle' is not known. Did you mean 'simple shuffle'?"),
        ("zzz", "4/4", "'zzz' is not known. Known are chop on 3, sixteenth chop"),
        ("Down, Up,  up", "4/4", "'down, up, up' is not written for 4/4. Use it in 3/4, 6/8."),
    ],
)
def test_an_unknown_pattern_names_its_neighbour_or_its_metres(name, metre, message):
    """The fault says how to go on."""
    with pytest.raises(UnknownBowing) as caught:
        bowing_named(name, read_metre(metre))
    assert message in str(caught.value)
