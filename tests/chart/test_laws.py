import sys
import time

import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from fifthwise.chart import FormFault, parse, read_chart, rekey, renumber, unfold, write_chart
from fifthwise.theory import MINOR_WAYS
from tests.chart.strategies import charts
from tests.chart.texts import HEAD_LINES, song
from tests.strategies import keys

# A made-up chart takes long to make.
SLOW = settings(
    max_examples=25,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much],
    deadline=None,
)


@SLOW
@given(charts())
def test_a_chart_written_and_read_is_the_same_chart(chart):
    """The one settled layout says all that there is."""
    _unfolded(chart)  # a pickup may be longer than the bar before it
    text = write_chart(chart)
    reading = read_chart(text)
    assert [str(fault) for fault in reading.faults] == []
    assert reading.chart == chart
    assert write_chart(reading.chart) == text


@SLOW
@given(charts())
def test_a_timeline_is_as_long_as_its_bars(chart):
    """Every bar but a pickup over another adds its length."""
    timeline = _unfolded(chart)
    assert timeline.length == sum(bar.length for bar in timeline.bars if not bar.overlays)


@SLOW
@given(charts())
def test_entries_are_in_order_and_never_overlap(chart):
    """From the start to the end without a gap, since rests are entries too."""
    timeline = _unfolded(chart)
    at = 0
    for entry in timeline.entries:
        assert entry.written_at == at
        assert entry.length > 0
        at += entry.length
    assert at == timeline.length


@SLOW
@given(charts())
def test_notes_are_in_order_and_never_overlap(chart):
    """There is one tune."""
    timeline = _unfolded(chart)
    for note, following in zip(timeline.notes, timeline.notes[1:], strict=False):
        assert note.length > 0
        assert note.starts_at + note.length <= following.starts_at
    assert not timeline.notes or timeline.notes[-1].starts_at + timeline.notes[-1].length <= timeline.length


def _unfolded(chart):
    try:
        return unfold(chart)
    except FormFault:
        assume(False)


@SLOW
@given(charts())
def test_what_is_read_without_a_fault_unfolds(chart):
    """The reader tells beforehand what does not."""
    reading = read_chart(write_chart(chart))
    if not reading.faults:
        unfold(reading.chart)


@SLOW
@given(charts(), keys())
def test_a_song_moved_there_and_back_is_the_same_song(chart, key):
    """Exactly so where no key named inside it had to be respelled on the way."""
    moved = rekey(chart, key.tonic)
    named = [
        m.key.key
        for s in (*chart.sections, *moved.sections)
        for b in s.bars
        for m in b.marks
        if m.key and m.key.key
    ]
    by = key.tonic.fifths - chart.key.tonic.fifths
    half = len(named) // 2
    kept = all(
        new.tonic.fifths - old.tonic.fifths == by for old, new in zip(named[:half], named[half:], strict=True)
    )
    assume(kept)
    assume(chart.octave is None or 1 <= chart.octave <= 7)
    assert rekey(moved, chart.key.tonic) == chart


@SLOW
@given(charts(), keys())
def test_a_moved_song_keeps_its_numbers_and_its_form(chart, key):
    """Every key moves by the same interval, spelled or respelled; nothing else changes."""
    moved = rekey(chart, key.tonic)
    try:
        before = unfold(chart)
    except FormFault:
        assume(False)
    after = unfold(moved)
    by = (key.tonic.fifths - chart.key.tonic.fifths) * 7 % 12
    assert [(e.chord, e.written_at, e.length, e.marks) for e in before.entries] == [
        (e.chord, e.written_at, e.length, e.marks) for e in after.entries
    ]
    for old, new in zip(before.bars, after.bars, strict=True):
        assert (new.key.tonic.pitch_class - old.key.tonic.pitch_class) % 12 == by
        assert new.key.mode == old.key.mode


@SLOW
@given(charts(), st.sampled_from(MINOR_WAYS))
def test_a_song_renumbered_there_and_back_is_the_same_song(chart, way):
    """What sounds stays the same, so the way back is the way there."""
    there = renumber(chart, way)
    assert renumber(there, chart.minor) == chart


@SLOW
@given(charts(), st.sampled_from(MINOR_WAYS))
def test_a_renumbered_song_sounds_the_same(chart, way):
    """Each chord's root, as a note, stays where it was."""
    new = renumber(chart, way)
    try:
        before, after = unfold(chart), unfold(new)
    except FormFault:
        assume(False)
    assert [_root(e, chart) for e in before.entries] == [_root(e, new) for e in after.entries]


def _root(entry, chart):
    return entry.chord and entry.chord.root.fifths + chart.numbering.one(entry.key).fifths


# Texts that are no charts

PIECES = [
    "1",
    "4",
    "5/7",
    "6-",
    "b7",
    "57(b9)",
    "vi",
    "Bb7",
    "NC",
    "0",
    "-",
    "/",
    "%",
    "|",
    "||",
    "|:",
    ":|",
    ":||:",
    "x3",
    "vamp",
    '"go"',
    '"',
    "[",
    "]",
    "(",
    ")",
    "[1.]",
    "[2.]",
    "[2/4]",
    "[pickup 1/2]",
    "[key +2]",
    "[key A]",
    "[segno]",
    "[to coda]",
    "[coda]",
    "[ds al coda]",
    "[fine]",
    ".hold",
    "\n",
    "\n# a\n",
    "\ntune: ",
    "\nwords: ",
    "\nfingers: ",
    "<!--",
    "-->",
    "{b3}3",
    "3'",
    "_",
    "&",
    "x",
    "A2",
    "é",
    "𝄪",
    "\u2028",
    "\t",
    "²",
    "٣",
    "---",
    "title: x",
    ":",
    ",",
]


@settings(deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=40), st.sampled_from(["", " "]))
def test_reading_a_jumble_of_signs_raises_nothing_but_faults(pieces, space):
    """Every fault lies in the text, and a sound chart unfolds and is written."""
    _must_read(song(space.join(pieces)))


@settings(deadline=None)
@given(st.text(max_size=200))
def test_reading_any_text_raises_nothing_but_faults(text):
    """With a head before it, and without."""
    _must_read(text)
    _must_read(song(text))


@settings(deadline=None)
@given(st.lists(st.tuples(st.text("titlekeyformpo ", max_size=8), st.text(max_size=20)), max_size=6))
def test_reading_any_head_raises_nothing_but_faults(fields):
    """Whatever its fields are called and hold."""
    lines = "".join(f"{name}: {text}\n" for name, text in fields)
    _must_read(f"---\n{lines}---\n# a\n1 | 4\n")


def _must_read(text):
    reading = read_chart(text)
    lines = text.split("\n")
    for fault in (*reading.faults, *reading.notices):
        assert 1 <= fault.line <= len(lines)
        assert 1 <= fault.column <= len(lines[fault.line - 1]) + 2
        assert fault.what
        assert fault.fix
        assert str(fault)
    if not reading.faults:
        unfold(reading.chart)
        assert parse(write_chart(reading.chart)) == reading.chart


BIG = 300_000
HOSTILE = {
    "one long line": "1 | 4 | " * (BIG // 8),
    "many lines": "1 | 4\n" * (BIG // 6),
    "one endless bar": "1 " * (BIG // 2),
    "cues in one bar": '1 "a" ' * (BIG // 6),
    "open brackets": "(" * BIG,
    "open brackets with chords": "(1 " * (BIG // 3),
    "closed brackets": "1 | " + ")" * BIG,
    "nested brackets": "(" * (BIG // 2) + ")" * (BIG // 2),
    "nested groups of a tune": "1\ntune: " + "(" * (BIG // 2) + "1" + ")" * (BIG // 2) + " 2 3 4",
    "square brackets": "[" * BIG,
    "marks": "[x] " * (BIG // 4),
    "open remarks": "<!--" * (BIG // 4),
    "open cues": '1 "a | ' * (BIG // 7),
    "one long word": "a" * BIG,
    "one long number": "1 | 5" + "7" * BIG,
    "one long change": "1 | 57(b" + "9" * BIG + ")",
    "adds": "1" + "add9" * (BIG // 4),
    "spaces": "1" + " " * BIG + "x",
    "spaces in a heading": "# a" + " " * BIG + "b\n1",
    "numbers in a heading": "# a" + " x2" * (BIG // 3) + " b\n1",
    "headings": "# a\n1\n" * (BIG // 6),
    "odd headings": "#a\n" * (BIG // 3),
    "bad bars": "1 4 5 | " * (BIG // 8),
    "unknown names": "1\n" + "zz: x\n" * (BIG // 6),
    "letters before a colon": "a" * BIG + ":",
    "fines": "1 [fine] | " * (BIG // 11),
    "repeats": "|: 1 :| " * (BIG // 8),
    "open repeats": "|: 1 " * (BIG // 5),
    "endings": "|: 1 | " + "[1.] 4 :| " * (BIG // 10),
    "graces": "1\ntune: " + "{b3" * (BIG // 3),
    "slurs": "1\ntune: " + "_" * BIG,
    "primes": "1 | (" + " ".join(f"({' '.join('1' * n)})" for n in (2, 3, 5, 7, 11, 13, 17, 19)) + ") 1 1 1",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_a_hostile_text_is_read_in_linear_time(name):
    """300 kB of the worst take no longer than seconds, and say so in little room."""
    text = song(HOSTILE[name])
    start = time.process_time()
    reading = read_chart(text)
    for fault in reading.faults:
        assert len(str(fault)) < 1000
    assert len(reading.faults) <= 501
    assert time.process_time() - start < 12


@pytest.mark.parametrize(
    "head",
    [
        "a" * BIG,
        " " * BIG + "x",
        "a: b\n" * (BIG // 5),
        "title" + " " * BIG + "x",
        "tempo: " + "9" * BIG,
        "tempo: 1e" + "9" * 9,
        "form: " + "a, " * (BIG // 3),
        "form: a" + " 1" * (BIG // 2),
        "form: " + "[" * BIG,
        "meter: 4/" + "4" * BIG,
        "key: C " + "x" * BIG,
        "lowest: " + "5" * BIG,
    ],
)
def test_a_hostile_head_is_read_in_linear_time(head):
    """Whatever stands in its fields."""
    start = time.process_time()
    reading = read_chart(f"---\ntitle: Slipway\nkey: C\n{head}\n---\n# a\n1\n")
    assert reading.faults
    assert time.process_time() - start < 12


def test_reading_takes_work_in_proportion_to_length():
    """Four times the text takes about four times the calls, not sixteen times; counted, not timed."""

    def calls(count):
        text = song("1 | 4 5 | 6- / 5/7 1 | 57(b9)\n" * count)
        made = 0

        def note(_frame, event, _argument):
            nonlocal made
            made += event in ("call", "c_call")

        before = sys.getprofile()
        sys.setprofile(note)
        try:
            read_chart(text)
        finally:
            sys.setprofile(before)
        return made

    calls(200)
    assert calls(2000) < 5 * calls(500)


def test_after_five_hundred_faults_reading_stops():
    """And says so where it stopped."""
    reading = read_chart(song("1 | x\n" * 900))
    assert len(reading.faults) == 501
    assert reading.faults[-1].what == "there are more than 500 faults"
    assert reading.faults[-1].line == HEAD_LINES + 501
