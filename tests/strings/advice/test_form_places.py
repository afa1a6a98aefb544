"""Kick-off, tag and turnaround, as far as a chart says enough."""

import pytest

from fifthwise.chart import unfold
from fifthwise.strings.advice import form_places
from tests.chart.texts import chart_of

TUNED = "# verse\n1 | 5 | 1 | 4\ntune: 1 - - - | 2 - - - | 3 - - - | 4 - - -\n1 | 5\ntune: 1 - - - | 2 - - -"


def told(body, **fields):
    """The words of each place."""
    chart = chart_of(body, **fields)
    return [place.words for place in form_places(chart, unfold(chart))]


def test_a_tune_kicks_off_with_its_last_line():
    """Two to four bars at the end of the first part that has its tune there."""
    chart = chart_of(TUNED)
    first = form_places(chart, unfold(chart))[0]
    assert (first.kind, first.bars, first.chords) == ("kick-off", (4, 5), ())
    assert first.words == "Kick-off: the tune's last bars in the verse, bars 5 to 6."


@pytest.mark.parametrize(
    ("home", "key", "minor", "words"),
    [
        ("1", "G", "from-six", "Kick-off: 57 1."),
        ("6-", "Em", "from-six", "Kick-off: 37 6-."),
        ("1-", "Em", "from-one", "Kick-off: 57 1-."),
        ("1-", "Em", "natural", "Kick-off: 57 1-."),
    ],
)
def test_without_a_tune_the_5_leads_to_the_1(home, key, minor, words):
    """In a minor key the same, by the numbers of the song."""
    assert told(f"# a\n{home} | {home}", key=key, minor=minor)[0] == words


@pytest.mark.parametrize("name", ["intro", "Intro, fiddle alone", "kick-off", "turn"])
def test_a_song_with_an_intro_needs_no_kick_off(name):
    """It begins as it is written, even where the tune is written too."""
    assert told(f"# {name}\n1 | 5\n{TUNED}") == ["Tag: the last line once more, bars 7 to 8."]


def test_the_last_line_is_a_tag():
    """At most four bars of it."""
    assert told("# a\n1 | 4 | 5 | 1 | 4 | 5")[1] == "Tag: the last line once more, bars 3 to 6."


def test_a_repeated_line_is_a_tag_once():
    """The line as written, and not both of its passes."""
    assert told("# a\n1 | 5\n|: 4 | 1 :|")[1] == "Tag: the last line once more, bars 5 to 6."


@pytest.mark.parametrize("name", ["tag", "Outro", "tag, slower", "coda"])
def test_a_song_with_a_tag_is_offered_none(name):
    """It ends as it is written."""
    assert told(f"# verse\n1 | 4\n# {name}\n5 | 1") == ["Kick-off: 57 1."]


def test_two_bars_of_1_may_turn_round():
    """Where the next part begins on 1."""
    assert told("# a\n1 | 5 | 1 | 1\n# b\n1 | 4")[-1] == "Turnaround: 1 6- 2- 5, bars 3 to 4."


@pytest.mark.parametrize("body", ["# a\n|: 1 | 5 | 1 | 1 :|", "# a x2\n1 | 5 | 1 | 1"])
def test_a_part_that_comes_again_may_turn_round(body):
    """By a repeat as by a second playing; after the last pass nothing comes."""
    turns = [words for words in told(body) if words.startswith("Turnaround")]
    assert turns == ["Turnaround: 1 6- 2- 5, bars 3 to 4."]


@pytest.mark.parametrize(
    ("body", "fields"),
    [
        ("# a\n|: 1 | 1 :| x4", {}),  # a vamp on 1
        ("# a x2\n1 | 1", {}),
        ("# a\n1 | 5 | 1 | 1\n# b\n4 | 1", {}),  # the next part begins elsewhere
        ("# a\n1 | 5 | 1 | 1", {}),  # nothing comes after
        ("# a\n1 | 5 | 5 | 1\n# b\n1 | 4", {}),
        ("# a\n1 | 5 | 1 | 1.stop\n# b\n1 | 4", {}),
        ("# a\n1 | 5 | 1 | 17\n# b\n1 | 4", {}),
        ("# a\n1 | 5 | 1 | 1/3\n# b\n1 | 4", {}),
        ("# a\n1 | 5 | 1 | 1\n# b\n[key +2] 1 | 4", {}),
        ("# a\n1 | 5 | 1 | 1\n# b\n1 | 4", {"meter": "3/4"}),
        ("# a\n6- | 3 | 1 | 1\n# b\n1 | 4", {"key": "Am"}),
    ],
)
def test_a_turnaround_needs_room_and_a_way_back(body, fields):
    """Two whole bars of a plain 1, an even metre, a major key, and the 1 after them."""
    assert not any(words.startswith("Turnaround") for words in told(body, **fields))


def test_a_song_without_chords_is_offered_nothing():
    """There is nothing to lead to."""
    assert told("# a\nNC | 0") == []
