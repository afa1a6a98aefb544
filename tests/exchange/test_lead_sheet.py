"""A chart as a lead sheet, and a chart of a lead sheet: the ground that every notation file stands on."""

from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given, settings

from fifthwise.chart import parse, unfold, write_chart
from fifthwise.exchange import LeadBar, LeadChord, LeadNote, LeadSheet, chart_of_sheet, sheet_of_chart
from fifthwise.theory import Metre, read_key, read_letter_chord, read_pitch
from tests.chart.strategies import charts

ROOT = Path(__file__).parents[2]
SONGS = sorted((*ROOT.glob("demo/*.chart.md"), *ROOT.glob("examples/*.chart.md")))
COMMON, C = Metre(4, 4), read_key("C")


def chords(timeline):
    """When which chord sounds; a silent band and NC are one, and a chord that is struck again goes on."""
    found = []
    for entry in timeline.entries:
        kind = "nc" if entry.kind == "rest" else entry.kind
        if not found or found[-1][0] != (kind, entry.chord):
            found.append(((kind, entry.chord), entry.written_at))
    return found


def notes(timeline):
    """What the tune plays when, and in which key it counts."""
    return [(n.note.pitches, n.starts_at, n.length, n.key) for n in timeline.notes if n.note.kind == "note"]


def bar(*chords, notes="", **more):
    """A bar of 4/4 in C with chords at their beats and quarters of a tune."""
    laid = tuple(LeadChord(Fraction(at), read_letter_chord(name)) for at, name in chords)
    tune = tuple(
        LeadNote(Fraction(at), Fraction(1), (read_pitch(name),)) for at, name in enumerate(notes.split())
    )
    return LeadBar(COMMON, Fraction(more.pop("length", 4)), C, laid, tune, **more)


def made(*bars, **head):
    """The chart of some bars, written."""
    return write_chart(chart_of_sheet(LeadSheet("A Song", bars, **head)).chart)


@pytest.mark.parametrize("song", SONGS, ids=lambda song: song.name.split(".")[0])
def test_a_song_comes_back_as_it_is_played(song):
    """Every song of ours, out as a lead sheet and in again, has the same chords and notes at their times."""
    chart = parse(song.read_text("utf-8"), song.name)
    back = chart_of_sheet(sheet_of_chart(chart), chart.numbering).chart
    before, after = unfold(chart), unfold(back)
    assert chords(after) == chords(before)
    assert notes(after) == notes(before)
    assert after.length == before.length
    assert [b.tempo_bpm for b in after.bars] == [b.tempo_bpm for b in before.bars]


@settings(deadline=None)
@given(charts())
def test_a_chart_made_of_a_lead_sheet_can_be_written(chart):
    """Whatever a chart holds, what comes back of it is a chart that reads again as it is."""
    sheet = sheet_of_chart(chart)
    if sheet.bars:
        back = chart_of_sheet(sheet, chart.numbering).chart
        assert parse(write_chart(back)) == back


def test_a_bar_without_a_chord_strikes_the_one_that_holds():
    """One number stands in each bar, as on a chart; before the first there is none."""
    text = made(bar(), bar((0, "G7"), (2, "C")), bar(), bar((2, "F")))
    assert "NC | 57 1 | 1 | 1 4" in text


def test_a_bar_parted_by_a_repeat_is_a_full_bar_and_a_pickup():
    """Three beats before the sign and one after it are one bar: the pickup lies over its end.

    Common practice of printed dance tunes, no source.
    """
    text = made(
        bar(notes="G4", length=1, section="A", repeat_start=True),
        bar((0, "C"), notes="C5 C5 C5 C5"),
        bar((0, "G"), notes="B4 B4 G4", length=3, repeat_end=2),
        bar(notes="D5", length=1, section="B", repeat_start=True),
        bar((0, "G"), notes="G4 G4 G4", length=3, repeat_end=2),
    )
    assert text.count("[pickup 1]") == 2
    assert "tune: 5 | 1' 1' 1' 1' | 7 7 5 0" in text
    assert "meter" not in text


def test_a_bar_that_fits_nowhere_has_a_metre_of_its_own():
    """Five beats in 4/4 are a bar of 5/4, and that is told."""
    found = chart_of_sheet(LeadSheet("A Song", (bar((0, "C")), bar((0, "F"), length=5), bar((0, "C")))))
    assert "[5/4] 4" in write_chart(found.chart)
    assert found.told == ("bar 2 lasts 5 quarters; it is a bar of 5/4",)


def test_a_repeat_without_its_beginning_goes_back_to_the_last_one():
    """A ``:|`` alone goes back to the first bar, the next one to the bar after it."""
    text = made(bar((0, "C"), repeat_end=2), bar((0, "F")), bar((0, "G"), repeat_end=3))
    assert "|: 1 :| |: 4 | 5 :| x3" in text


def test_a_tie_over_the_bar_line_is_a_hold():
    """A note that goes on is no new note, within a bar or over its line."""
    first = bar(notes="C4 D4 E4 F4")
    held = LeadNote(Fraction(0), Fraction(2), (read_pitch("F4"),), goes_on=True)
    again = LeadNote(Fraction(2), Fraction(2), (read_pitch("F4"),), goes_on=True)
    assert "tune: 1 2 3 4 | -" in made(first, replace(bar(), notes=(held, again)))


def test_a_label_inside_a_repeat_is_a_cue_and_told():
    """A heading cannot stand inside a repeat; its words are kept."""
    found = chart_of_sheet(
        LeadSheet("A", (bar((0, "C"), repeat_start=True), bar((0, "F"), section="B", repeat_end=2)))
    )
    assert '"B" 4' in write_chart(found.chart)
    assert found.told == ("'B' stands inside a repeat; it is a cue there",)


def test_a_note_far_outside_the_key_is_spelled_more_simply():
    """A degree with three accidentals has no sign: it is respelled, sounds the same, and told."""
    sheet = LeadSheet("A", (replace(bar(notes="F##4"), key=read_key("Cb")),))
    found = chart_of_sheet(sheet)
    (event,) = unfold(found.chart).notes
    assert str(event.note.pitches[0].degree) == "#5"
    assert found.told == ("1 notes of the tune are spelled more simply",)


def sheet_of(body, *, head="key: C"):
    """The lead sheet of a chart with this body."""
    return sheet_of_chart(parse(f"---\ntitle: Air\n{head}\n---\n{body}\n"))


def test_what_is_said_to_the_players_is_kept_as_words():
    """Cues of headings and bars, with the name of the player they are for, and a change of feel."""
    found = sheet_of('# verse "@fiddle alone"\n1 "all in" | [feel swing] 4\n# end "@viola"\n"@all loud" 5')
    assert [bar.words for bar in found.bars] == [
        ("fiddle: alone", "all in"), ("swing",), ("viola", "straight", "loud")
    ]  # fmt: skip


def test_what_a_lead_sheet_leaves_out_is_told():
    """Slides, chops and second verses have no place in one."""
    assert sheet_of("1\ntune: 1 /3 x -\nwords: one\nwords: two").left_out == (
        "slides into notes are left out",
        "chops are left out: they have no pitch",
        "second verses under the same notes are left out",
    )
    verses = "form: a, a\nkey: C"
    assert sheet_of("# a\n1\ntune: 1 - - -\nwords: one\nwords: two", head=verses).left_out == ()


def test_words_of_a_later_bar_stay_there():
    """A bar line before the words is the border of the line, so two say that the first bar has none."""
    first, second = bar((0, "C"), notes="C4"), bar((0, "F"), notes="F4 G4")
    sung = replace(
        second,
        notes=tuple(replace(n, syllable=s) for n, s in zip(second.notes, ("leave", "the"), strict=True)),
    )
    text = made(first, sung)
    assert "words: | | leave the" in text
    again = sheet_of_chart(parse(text))
    assert [[note.syllable for note in each.notes] for each in again.bars] == [[""], ["leave", "the"]]


def test_a_note_further_off_than_octave_marks_reach_is_moved_by_octaves():
    """Four marks are the most that a chart writes; the note keeps its name, and that is told."""
    found = chart_of_sheet(LeadSheet("A", (bar(notes="C9 C9 C9 C-1"),)))
    *_, last = unfold(found.chart).notes
    assert (str(last.note.pitches[0].degree), last.note.pitches[0].octave) == ("1", -4)
    assert found.told == ("1 notes of the tune lie too far off and are moved by octaves",)
