"""Words for some program in curly braces, on lines of their own and inside lines."""

import time

import pytest

from fifthwise.chart import write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.exchange.file_kinds import kind_of_text

AMONG = """{title: River}
{key: D}
{note: a "quiet" one}
Lamp Street
[G]Down along the [D]road {soft} we [Em]go
{x}
[C]Home a[G]gain
"""
OVER = """{river}
Lamp Street
G         {soft}   D
Down the {loud} long road
"""
BARS = """{river}
Lamp Street
Verse {one}
| G | C {twice} | D |
{next}
la | la {low} | la
"""


@pytest.mark.parametrize("sheet", [AMONG, OVER, BARS], ids=["among", "over", "bars"])
def test_braces_are_neither_sung_nor_the_title_and_are_told(sheet):
    """Each is told at its place, and the key is found from the chords."""
    assert kind_of_text(sheet, "song.txt") == "letters"
    reading = read_letter_chart(sheet, "song.txt")
    assert reading.faults == ()
    assert reading.chart.title == "Lamp Street"
    assert reading.found is not None
    assert str(reading.chart.key) == str(reading.found.first)
    assert not set("{}") & set(write_chart(reading.chart))
    told = [notice for notice in reading.notices if notice.what.startswith("'{")]
    assert len(told) == sheet.count("{")
    for notice in told:
        braced = notice.text[notice.column - 1 : notice.column - 1 + notice.length]
        assert notice.what == f"'{braced}' is left out"


def test_words_keep_their_places_beside_braces():
    """Chords stand over the same words as without them."""
    with_braces = read_letter_chart(AMONG, "song.txt").chart
    plain = "Lamp Street\n[G]Down along the [D]road  we [Em]go\n[C]Home a[G]gain\n"
    assert with_braces == read_letter_chart(plain, "song.txt").chart


def test_an_object_is_still_json():
    """On one line or on many, whatever stands in it."""
    for text in ('{"a": 1}\n', '{\n "a": {"b": 1}\n}\n', '{"a": {"b": 1}, "c": 2}'):
        assert kind_of_text(text, "song") == "json"


@pytest.mark.parametrize("hostile", ["{", "{}", "{a", "{{a}", "{a}b", "}{"])
def test_many_braces_are_read_in_good_time(hostile):
    """Ten thousand take no more than some seconds."""
    start = time.process_time()
    read_letter_chart(f"Title\nG  C\n{hostile * 10_000}\nla la", "song.txt")
    assert time.process_time() - start < 8
