import time

import pytest
from hypothesis import given

from fifthwise.chart import parse, read_chart, write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.theory import Key, read_key, to_letters, write_letters
from tests.exchange.sheets import read, sheets
from tests.strategies import keys, letter_chords

MANY = 10_000
HOSTILE = (
    *("| G " * MANY, "| G |\n" * MANY, "|" * MANY, "| G | " + "% | " * MANY, "| G" + "/" * MANY),
    *("| " + "(" * MANY, "| " + "(G " * MANY + ")" * MANY, "[" * MANY, "| [1" + " 1" * MANY, "*a" * MANY),
    *("| [1" + ",1" * MANY + "x", "G" + " " * MANY + "x", "Verse" + " " * MANY + "x", "key of" + " " * MANY),
    *("tempo:" + " " * MANY + "x", ":" * MANY, "-" * MANY + "x", "<!--" * MANY, "e|" + "-" * MANY + "q"),
    *("[A]\n| G |\n" + "[A]\n" * MANY, "[A]\n| G |\n" * (MANY // 4) + "[A]\n", "Capo " + "1" * MANY),
)  # fmt: skip


@given(sheets())
def test_a_sound_sheet_becomes_a_chart_that_reads_again(sheet):
    """Whatever was typed under two good lines: with no fault told, the chart is written and read the same."""
    reading = read(f"Title\n| G | C |\n{sheet}")
    if not reading.faults:
        assert parse(write_chart(reading.chart)) == reading.chart


@given(sheets())
def test_any_text_gets_an_answer(sheet):
    """Nothing is raised, and all that is told stands in the text."""
    reading = read(sheet, None)
    lines = sheet.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for fault in (*reading.faults, *reading.notices):
        assert fault.text == lines[fault.line - 1]
        assert 1 <= fault.column <= len(fault.text) + 1
        assert fault.what
        assert str(fault).startswith("song.txt:")


@given(letter_chords(), keys())
def test_a_chord_keeps_its_name(chord, key):
    """Counted in a key and named again, a chord is what was typed, or the same twelve fifths away."""
    reading = read_letter_chart(f"Title\n| {write_letters(chord)} |", "song.txt", key)
    assert reading.faults == ()
    found = reading.chart.sections[0].bars[0].slots[0].chord
    one = reading.chart.numbering.one(key)
    assert (to_letters(found, one).root.fifths - chord.root.fifths) in (-12, 0, 12)
    assert to_letters(found, one).quality == chord.quality


@pytest.mark.parametrize("sheet", HOSTILE, ids=lambda sheet: ascii(sheet[:12]))
def test_a_hostile_sheet_is_read_in_good_time(sheet):
    """Ten thousand of anything take no more than some seconds."""
    start = time.process_time()
    read(sheet)
    assert time.process_time() - start < 8


def test_the_chart_is_the_one_that_its_numbers_give():
    """A sheet in letters and the same song typed in numbers are equal charts."""
    chart = read("Title\n[Verse] x2\n| G | C D | Em7 / D / | D/F# |\nla la").chart
    typed = "---\ntitle: Title\nkey: G\n---\n# Verse x2\n1 | 4 5 | 6-7 5 | 5/7\nwords: la la\n"
    assert chart == read_chart(typed).chart
    assert chart.key == Key(read_key("G").tonic)
