import pytest
from hypothesis import assume, example, given
from hypothesis import strategies as st

from fifthwise.theory import ChordFault, Quality, interval_name, make_quality, quality_tones
from fifthwise.theory.quality import BASES, ORDER, TRIADS
from tests.strategies import every_quality, qualities


def tone_names(quality):
    """The tones as chord books write them."""
    return " ".join(map(interval_name, quality_tones(quality)))


@given(qualities())
def test_a_settled_quality_stays_as_it_is(quality):
    """Making a quality of its own parts gives it again."""
    assert make_quality(quality.triad, quality.base, quality.changes) == quality


@given(qualities())
def test_tones_stand_in_order_and_no_note_twice(quality):
    """The root comes first, the rest by number, and no note is there in two octaves."""
    tones = quality_tones(quality)
    assert interval_name(tones[0]) == "1"
    assert [tone.steps for tone in tones] == sorted(tone.steps for tone in tones)
    assert len({tone.fifths for tone in tones}) == len(tones)


@given(
    st.sampled_from(sorted(TRIADS)),
    st.sampled_from(sorted(BASES)),
    st.lists(st.sampled_from(ORDER), max_size=4),
    st.randoms(use_true_random=False),
)
def test_the_order_of_changes_says_nothing(triad, base, changes, chance):
    """Changes in any order, and written twice, make one quality."""
    try:
        quality = make_quality(triad, base, tuple(changes))
    except ChordFault:
        assume(False)
    chance.shuffle(changes)
    assert make_quality(triad, base, (*changes, *changes[:1])) == quality


def test_equal_tones_are_equal_qualities():
    """No two of the qualities with up to two changes have the same tones."""
    found = every_quality(2)
    assert len({quality_tones(quality) for quality in found}) == len(found) > 2000


@given(qualities())
@example(Quality("", "", ("no3",)))
def test_only_a_chord_with_a_third_says_major_or_minor(quality):
    """A chord has a third unless that is suspended or left out."""
    thirds = {"3", "b3"} & set(tone_names(quality).split())
    assert quality.has_third == bool(thirds)


@pytest.mark.parametrize(
    ("triad", "base", "tones"),
    [
        ("", "", "1 3 5"),
        ("-", "", "1 b3 5"),
        ("o", "", "1 b3 b5"),
        ("+", "", "1 3 #5"),
        ("", "maj7", "1 3 5 7"),
        ("-", "7", "1 b3 5 b7"),
        ("", "7", "1 3 5 b7"),
        ("o", "7", "1 b3 b5 bb7"),
        ("ø", "7", "1 b3 b5 b7"),
        ("-", "maj7", "1 b3 5 7"),
        ("", "6", "1 3 5 6"),
        ("-", "6", "1 b3 5 6"),
        ("", "9", "1 3 5 b7 9"),
        ("", "maj9", "1 3 5 7 9"),
        ("-", "9", "1 b3 5 b7 9"),
        ("", "sus", "1 4 5"),
    ],
)
def test_shorthands_have_their_tones(triad, base, tones):
    """The shorthands of a chord syntax that was written down.

    Source: Harte, Sandler, Abdallah and Gómez, ISMIR 2005, table of shorthands; from memory.
    """
    assert tone_names(make_quality(triad, base)) == tones


@pytest.mark.parametrize(
    ("triad", "base", "changes", "tones"),
    [
        ("", "", ("5",), "1 5"),
        ("", "", ("no3", "no5"), "1"),
        ("", "", ("2",), "1 3 5 9"),
        ("", "", ("add9",), "1 3 5 9"),
        ("", "7", ("b9", "#11"), "1 3 5 b7 b9 #11"),
        ("", "7", ("b5", "#5"), "1 3 b5 #5 b7"),
        ("", "7", ("#5", "#9"), "1 3 #5 b7 #9"),
        ("", "69", (), "1 3 5 6 9"),
        ("", "11", (), "1 3 5 b7 9 11"),
        ("", "13", (), "1 3 5 b7 9 11 13"),
        ("", "7sus", (), "1 4 5 b7"),
        ("", "9sus", ("13",), "1 4 5 b7 9 13"),
        ("", "sus2", (), "1 2 5"),
        ("", "sus2", ("b7",), "1 2 5 b7"),
        ("", "sus", ("maj7",), "1 4 5 7"),
        ("+", "sus", (), "1 4 #5"),
        ("ø", "", (), "1 b3 b5 b7"),
        ("", "maj7", ("b7",), "1 3 5 b7 7"),
        ("-", "11", ("no5",), "1 b3 b7 9 11"),
    ],
)
def test_changes_change_the_tones(triad, base, changes, tones):
    """Added, altered and left-out notes. Common practice, no source."""
    assert tone_names(make_quality(triad, base, changes)) == tones


@pytest.mark.parametrize(
    ("written", "settled"),
    [
        (("-", "7", ("b5",)), Quality("ø", "7")),
        (("-", "", ("b5",)), Quality("o")),
        (("o", "", ("b7",)), Quality("ø", "7")),
        (("", "", ("#5",)), Quality("+")),
        (("", "", ("6",)), Quality("", "6")),
        (("", "", ("6", "9")), Quality("", "69")),
        (("", "", ("b7",)), Quality("", "7")),
        (("", "7", ("9", "11")), Quality("", "11")),
        (("", "maj9", ("11", "13")), Quality("", "maj13")),
        (("", "6", ("b7",)), Quality("", "7", ("add13",))),
        (("", "69", ("maj7",)), Quality("", "maj9", ("add13",))),
        (("", "sus4", ()), Quality("", "sus")),
        (("-", "sus", ("no3",)), Quality("", "sus")),
        (("-", "7", ("no3",)), Quality("", "7", ("no3",))),
        (("+", "", ("no5",)), Quality("", "", ("no5",))),
        (("o", "", ("no5",)), Quality("-", "", ("no5",))),
        (("o", "7", ("b5",)), Quality("o", "7")),
        (("", "9", ("add9",)), Quality("", "9")),
        (("", "7", ("addb9", "b10")), Quality("", "7", ("b9", "#9"))),
    ],
)
def test_one_chord_written_in_two_ways_is_one_value(written, settled):
    """The settled form is the shortest that says the same. Our own choice."""
    assert make_quality(*written) == settled


@pytest.mark.parametrize(
    ("written", "message"),
    [
        (("", "7", ("b7",)), r"a seventh cannot be added to '7'\. Leave one of the two out\."),
        (("o", "7", ("b7",)), r"a seventh cannot be added to '7'"),
        (("ø", "6", ()), r"a half-diminished chord has no '6'\. Write 'ø', or 'o' with it\."),
        (("ø", "maj7", ()), r"a half-diminished chord has no 'maj7'"),
        (("o", "sus", ()), r"a suspended chord has no third\. Write it as in '5sus' or '57sus\(b5\)'\."),
        (("", "7", ("b5", "no5")), r"the fifth is both altered and left out"),
        (("+", "7", ("b5",)), r"'\+' already has a #5\. Leave '\+' or the other fifth out\."),
        (("o", "7", ("#5",)), r"'o' already has a b5"),
        (("", "7", ("b8",)), r"'b8' changes no note of a chord\. Write as in '\(b9\)'"),
        (("", "7", ("",)), r"'' changes no note of a chord"),
    ],
)
def test_parts_that_contradict_are_refused(written, message):
    """The message says which two do not go together."""
    with pytest.raises(ChordFault, match=message):
        make_quality(*written)
