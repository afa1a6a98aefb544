"""What a leader is told before the evening, and that no book replaces another."""

from fifthwise.chart import parse
from fifthwise.evening import read_evening
from fifthwise.stage import books, notices, plan

SONG = """---
title: Rope Walk
key: C
octave: 4
---
# verse "@tubba loud" "@fiddle soft" "@all go" "@Wenke breathe"
1 | 4 | 5 | 1
tune: 1 2 3 - | 4 - 6 - | 5 4 3 2 | 1' - - 0
words: down the rope walk in the early dark we go
"""
EVENING = """
evening: Small night
singers:
  Wenke: {usable: F3-D5, comfort: A3-Bb4}
players:
  Isa: {instrument: violin}
songs:
  - {chart: a, singer: Wenke, key: KEY, counts-in: Nobody, segue: yes}
"""


def tonight(text=EVENING, key="C"):
    """The evening planned, the song called in a key."""
    return plan(read_evening(text.replace("KEY", key)), {"a": parse(SONG)})


def test_cues_people_and_segues_that_lead_nowhere_are_told():
    """Names that are on the evening are not."""
    told = notices(tonight())
    assert told == (
        "'Rope Walk': the cue for '@tubba' stands on nobody's page tonight",
        "'Rope Walk': 'Nobody', who counts in, neither plays nor sings tonight",
        "'Rope Walk' goes straight on, but is the last song",
    )


def test_a_called_key_out_of_reach_is_told_with_better_ones():
    """In Eb the tune, an octave up from its 1, lies from Eb3, two half steps below F3, or reaches Eb5.

    Derived by arithmetic: between F3 and D5 it fits with its 1 from F3 to D4 alone.
    """
    told = [notice for notice in notices(tonight(key="Eb")) if "in Eb" in notice]
    assert len(told) == 1
    assert "the low Eb3 is 2 half steps below all that Wenke has; try " in told[0]


def test_players_with_like_names_get_books_of_their_own():
    """Capitals do not tell files apart on every system."""
    text = EVENING.replace(
        "  Isa: {instrument: violin}", "  Ann: {instrument: bass}\n  ann: {instrument: bass}"
    )
    paths = [book.path for book in books(tonight(text))]
    assert "books/ann-bass.pdf" in paths
    assert "books/ann-bass-2.pdf" in paths
    assert len({path.lower() for path in paths}) == len(paths)
