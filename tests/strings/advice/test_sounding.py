"""The chords as they sound, and the notes to land on through a song."""

import pytest

from fifthwise.chart import unfold
from fifthwise.strings.advice import landings, sounding_chords
from tests.chart.texts import chart_of


def heard(body, **fields):
    """Each chord as (text, first quarter, length)."""
    chords = sounding_chords(unfold(chart_of(body, **fields)))
    return [(each.text, float(each.starts_at), float(each.length)) for each in chords]


@pytest.mark.parametrize(
    ("body", "chords"),
    [
        ("1 | 5.push", [("1", 0, 3.5), ("5", 3.5, 4.5)]),
        ("1 | 5.late", [("1", 0, 4.5), ("5", 4.5, 3.5)]),
        ("1.push | 5", [("1", -0.5, 4.5), ("5", 4, 4)]),  # in the count-in
        ("1 | 5.stop", [("1", 0, 4), ("5", 4, 0.5)]),
        ("1 | NC | 0 | 5", [("1", 0, 4), ("5", 12, 4)]),
        ("1.hold | -", [("1", 0, 8)]),
        ("1 / / (/ 4) | 5.push", [("1", 0, 3.5), ("5", 3.5, 4.5)]),  # the push leaves the 4 no time
    ],
)
def test_chords_sound_from_push_to_stop(body, chords):
    """A push cuts what was there, a late chord lets it go on, a stop is an eighth; silence is no chord."""
    assert heard(f"# a\n{body}") == chords


def test_a_chord_that_comes_again_is_reached_as_before():
    """Struck again or after a rest, the 5 is still reached from the 1."""
    told = landings(sounding_chords(unfold(chart_of("# a\n1 | 5 | 5 | 0 | 5 | 4"))))
    assert told[1] == told[2] == told[3]
    assert [notes[0].words for notes in told] == [
        "3: the chord's 3",
        *["7: the chord's 3, a half step down from 1"] * 3,
        "6: the chord's 3, a step down from 7",
    ]
