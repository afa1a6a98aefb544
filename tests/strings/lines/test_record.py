"""Lines written bar by bar and as JSON, over the demo's songs."""

import json
from pathlib import Path

import pytest

from fifthwise.chart import parse, unfold
from fifthwise.strings import LineFault, instrument_of
from fifthwise.strings.fingering import fingering_faults
from fifthwise.strings.lines import (
    bass_line,
    comp,
    guide_line,
    harmony,
    line_record,
    line_rows,
    pad,
    section,
    shift_rows,
)
from tests.strings.lines.songs import song

VIOLIN, VIOLA, CELLO = map(instrument_of, ("violin", "viola", "cello"))
DEMO = sorted((Path(__file__).parents[3] / "demo").glob("*.chart.md"))


def test_a_row_has_chords_letters_and_notes():
    """The higher of two notes first, each as degree, string and finger; a silent bar has no notes."""
    made = song("# verse\n1 | 4 1 | NC\n# out\n5", key="G")
    rows = line_rows(*made, comp(*made, VIOLIN), VIOLIN)
    assert [(row.bar, row.section, row.numbers, row.letters) for row in rows] == [
        (1, "verse", "1", "G"), (2, "", "4 1", "C G"), (3, "", "NC", "-"), (4, "out", "5", "D"),
    ]  # fmt: skip
    assert rows[0].notes == "3 A1 · 1 D3"
    assert rows[1].notes.count(" · ") == 2
    assert rows[2].notes == ""


def test_a_push_stands_in_the_bar_that_it_leads_to():
    """What sounds early is written where the chord is written."""
    made = song("1 | 4.push", key="G")
    rows = line_rows(*made, guide_line(*made, VIOLIN), VIOLIN)
    assert all(row.notes for row in rows)


def test_degrees_are_written_as_the_song_counts():
    """In natural minor the b3 is written 3, as the chords are."""
    made = song("3 | 6", key="A minor", minor="natural")
    line = bass_line(*made, CELLO, style="held")
    assert [row.notes[0] for row in line_rows(*made, line, CELLO)] == ["3", "6"]
    assert [note["degree"] for note in line_record(*made, line, CELLO)["notes"]] == ["3", "6"]


def test_json_has_the_bar_of_each_note_and_the_chords():
    """The two notes of a double stop share time and bar; chords have number and letters."""
    made = song("1 | 5/7", key="G")
    record = line_record(*made, comp(*made, VIOLIN), VIOLIN)
    assert json.loads(json.dumps(record)) == record
    assert [note["bar"] for note in record["notes"]] == [1, 1, 2, 2]
    assert record["notes"][0]["at"] == record["notes"][1]["at"] == 0
    assert record["chords"][1] == {"bar": 2, "at": 4.0, "number": "5/7", "letters": "D/F#"}
    assert {"degree", "pitch", "string", "stop", "finger", "position"} <= set(record["notes"][0])


def test_a_shift_is_told_with_its_bar_and_why():
    """The position that is reached and the reason."""
    made = song("1 | 4\ntune: 5, 5, 6, 5, | 3'' - - -", key="D")
    line = harmony(*made, VIOLIN, "all", octave=4)
    rows = shift_rows(made[1], line)
    assert len(rows) == len(line.fingering.shifts) >= 1
    assert all(row.startswith("bar ") and " position, " in row for row in rows)


@pytest.mark.parametrize("path", DEMO, ids=lambda path: path.name)
def test_every_line_of_every_demo_song_can_be_played(path):
    """All kinds of lines over the demo's songs keep the rules of the hand; their rows have a bar each."""
    chart = parse(path.read_text("utf-8"))
    timeline = unfold(chart)
    lines = [(make(chart, timeline, VIOLIN, "third"), VIOLIN) for make in (comp, guide_line, pad)]
    lines.append((bass_line(chart, timeline, CELLO, "third"), CELLO))
    players = ((CELLO, "third"), (VIOLA, "third"), (VIOLIN, "third"))
    lines += [
        (part, who[0]) for part, who in zip(section(chart, timeline, players).parts, players, strict=True)
    ]
    try:
        lines.append((harmony(chart, timeline, VIOLIN, "third"), VIOLIN))
    except LineFault:
        assert not timeline.notes
    for line, instrument in lines:
        assert fingering_faults(line.fingering, instrument, "third") == ()
        rows = line_rows(chart, timeline, line, instrument)
        assert len(rows) == sum(not bar.overlays for bar in timeline.bars)
        assert len(line_record(chart, timeline, line, instrument)["notes"]) >= len(line.bars)
