"""Tonight's keys: the one called, the singer's, or the song's own."""

import pytest

from fifthwise.chart import parse
from fifthwise.evening import EveningFaults, read_evening
from fifthwise.stage import key_as_called, plan
from fifthwise.theory import KeyFault

TUNE = """---
title: Rope Walk
key: C
octave: 4
---
# verse
1 | 4 | 5 | 1
tune: 1 2 3 - | 4 - 6 - | 5 4 3 2 | 1' - - 0
words: down the rope walk in the early dark we go
"""
NO_TUNE = TUNE.replace("tune: ", "words: ")
EVENING = """
evening: Small night
singers:
  Wenke: {usable: F3-D5, comfort: A3-Bb4}
songs:
  - {chart: a, singer: Wenke}
  - {chart: a, singer: Wenke, key: F#}
  - {chart: b, singer: Wenke}
  - {chart: a}
"""


def tonight(text=EVENING):
    """The evening planned."""
    return plan(read_evening(text), {"a": parse(TUNE), "b": parse(NO_TUNE)})


def test_the_singers_best_key_is_taken_unless_one_is_called():
    """A called key wins and keeps its spelling; no tune keeps the written key and says why."""
    calls = tonight().calls
    assert calls[0].chart.key == calls[0].fits["Wenke"][0].key
    assert calls[1].chart.key.short == "F#"
    assert calls[1].fit is not None
    assert calls[1].fit.key.tonic.pitch_class == 6
    assert (calls[2].chart.key.short, calls[2].fit) == ("C", None)
    assert "no tune" in calls[2].why
    assert (calls[3].chart.key.short, calls[3].singer) == ("C", None)


def test_a_lower_singer_gets_a_lower_key():
    """Moving both ranges a fourth down moves the best key a fourth down.

    Derived by arithmetic: the fit depends on distances alone.
    """
    lower = EVENING.replace("F3-D5", "C3-A4").replace("A3-Bb4", "E3-F4")
    high, low = tonight().calls[0].fits["Wenke"][0], tonight(lower).calls[0].fits["Wenke"][0]
    assert high.cost == pytest.approx(low.cost, abs=0.005)
    best = {
        fit.key.tonic.pitch_class
        for fit in tonight(lower).calls[0].fits["Wenke"]
        if fit.cost <= low.cost + 0.005
    }
    assert (high.key.tonic.pitch_class - 5) % 12 in best


def test_a_called_note_takes_the_songs_mode():
    """'B' called for a minor song is B minor; a key of another mode is refused."""
    song = parse(TUNE.replace("key: C", "key: A minor"))
    assert str(key_as_called("B", song)) == "B minor"
    assert str(key_as_called("Bm", song)) == "B minor"
    with pytest.raises(KeyFault, match="D dorian' is dorian, but 'Rope Walk' is in A minor"):
        key_as_called("D dorian", song)
    with pytest.raises(KeyFault, match="flats"):
        key_as_called("Fb", song)


def test_a_called_key_that_does_not_fit_is_told_with_its_line():
    """The fault names the song's line in the evening's file."""
    with pytest.raises(EveningFaults) as caught:
        tonight(EVENING.replace("key: F#", "key: F#m"))
    assert caught.value.faults[0].line == 7
