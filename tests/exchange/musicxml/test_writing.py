"""What is written as MusicXML: sound by its schema, read elsewhere as meant, the same when it comes back."""

from zipfile import ZipFile

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from lxml import etree

from fifthwise.chart import parse, unfold, write_chart
from fifthwise.exchange import chart_of_sheet, sheet_of_chart
from fifthwise.exchange.musicxml import pack_musicxml, read_musicxml, write_musicxml
from fifthwise.theory import Interval
from tests.chart.strategies import charts
from tests.exchange.musicxml.schema import faults
from tests.exchange.test_lead_sheet import SONGS, chords, notes
from tests.harte import pop_songs
from tests.outside.pop_song_text import number_chart

CONCERT, TRUMPET, ALTO = Interval(0, 0), Interval(2, -1), Interval(3, -1)
WRITTEN = (CONCERT, TRUMPET, ALTO, Interval(2, 0), Interval(0, 1), Interval(-3, 2))


def song(path):
    """A chart of ours."""
    return parse(path.read_text("utf-8"), path.name)


def back(data, chart):
    """The chart that comes back of a file."""
    return chart_of_sheet(read_musicxml(data).sheet, chart.numbering).chart


def played(chart):
    """What a chart plays: chords, notes, tempos and length."""
    timeline = unfold(chart)
    tempos = [bar.tempo_bpm for bar in timeline.bars]
    return chords(timeline), notes(timeline), tempos, timeline.length


@pytest.mark.parametrize("path", SONGS, ids=lambda path: path.name.split(".")[0])
@pytest.mark.parametrize("as_numbers", [False, True], ids=["letters", "numbers"])
def test_a_song_comes_back_as_it_is_played(path, as_numbers):
    """Every song of ours is sound by the schema, and comes back the same.

    Source of the schema: W3C, MusicXML 4.0, as the package musicxml carries it.
    """
    chart = song(path)
    for written in WRITTEN:
        data = write_musicxml(chart, as_numbers=as_numbers, written=written)
        assert faults(data) == []
        assert played(back(data, chart)) == played(chart)


@settings(deadline=None, max_examples=40)
@given(charts(), st.booleans(), st.sampled_from(WRITTEN))
def test_any_chart_is_sound_and_comes_back(chart, as_numbers, written):
    """Whatever a chart holds, its file is sound by the schema and plays what its lead sheet plays."""
    sheet = sheet_of_chart(chart)
    if not sheet.bars:
        return
    data = write_musicxml(chart, as_numbers=as_numbers, written=written)
    assert faults(data) == []
    found, wanted = back(data, chart), chart_of_sheet(sheet, chart.numbering).chart
    octaves = [pitch.octave for bar in sheet.bars for note in bar.notes for pitch in note.pitches]
    if all(
        1 <= octave <= 6 for octave in octaves
    ):  # MusicXML has octaves 0 to 9, and a part may be moved by two
        assert played(found) == played(wanted)
    else:
        assert (played(found)[0], played(found)[2:]) == (played(wanted)[0], played(wanted)[2:])


def written(body, *, head="key: C", **more):
    """The file of a chart with this body, as a tree."""
    return etree.fromstring(write_musicxml(parse(f"---\ntitle: Air\n{head}\n---\n{body}\n"), **more))


def texts(tree, path):
    """The texts of all elements at a path."""
    return [element.text for element in tree.iterfind(f".//{path}")]


def test_numbers_count_in_a_major_scale_that_the_file_names():
    """In a minor song that counts from six a numeral says its key; its bass is a letter printed as a number.

    Source: W3C, MusicXML 4.0, numeral-key, bass-step.
    """
    tree = written("6- | 4/1", head="key: Am", as_numbers=True)
    assert texts(tree, "numeral-root") == ["6", "4"]
    assert texts(tree, "numeral-fifths") == ["0", "0"]
    assert texts(tree, "numeral-mode") == ["major", "major"]
    (bass,) = tree.iterfind(".//bass-step")
    assert (bass.text, bass.get("text")) == ("C", "1")


def test_natural_minor_counts_as_the_standard_does():
    """A plain 7 is the flat one, in the key of the part."""
    tree = written("1- | 7", head="key: Am\nminor: natural", as_numbers=True)
    assert texts(tree, "numeral-root") == ["1", "7"]
    assert texts(tree, "numeral-alter") == []
    assert texts(tree, "numeral-key") == []


def test_a_part_is_written_for_a_transposing_instrument():
    """For a B-flat trumpet key, chords and notes stand a major second higher, and the file says so."""
    tree = written("1\ntune: 1 - - -", head="key: F\noctave: 4", written=TRUMPET)
    assert texts(tree, "key/fifths") == ["1"]
    assert texts(tree, "root-step") == ["G"]
    assert texts(tree, "pitch/step") == ["G"]
    assert (texts(tree, "transpose/diatonic"), texts(tree, "transpose/chromatic")) == (["-1"], ["-2"])


def test_a_key_of_more_than_seven_signs_is_respelled():
    """B for an alto saxophone would have eight sharps: it reads A flat."""
    tree = written("1\ntune: 1 - - -", head="key: B\noctave: 4", written=ALTO)
    assert texts(tree, "key/fifths") == ["-4"]
    assert (texts(tree, "pitch/step"), texts(tree, "pitch/alter")) == (["A"], ["-1"])


def test_notes_are_parted_at_beats_and_beamed_within_them():
    """A note that begins off the beat and goes on is tied; eighths of one beat share a beam."""
    tree = written("1\ntune: 1 (2 3) - (4 5)", head="key: C\noctave: 4")
    assert texts(tree, "note/type") == ["quarter", "eighth", "eighth", "quarter", "eighth", "eighth"]
    assert texts(tree, "beam") == ["begin", "end", "begin", "end"]
    assert [tie.get("type") for tie in tree.iterfind(".//tie")] == ["start", "stop"]


def test_thirds_of_a_beat_are_a_tuplet():
    """Three in the time of two; over two beats the notes are quarters.

    Common practice, no source.
    """
    tree = written("1 5\ntune: (1 2 3) 4 5 -", head="key: C\noctave: 4")
    assert texts(tree, "note/type")[:3] == ["eighth"] * 3
    assert texts(tree, "actual-notes") == ["3"] * 3
    assert texts(tree, "normal-notes") == ["2"] * 3
    assert [each.get("type") for each in tree.iterfind(".//tuplet")] == ["start", "stop"]


def test_holds_are_fermatas_and_other_marks_are_words():
    """A held chord has a fermata at its note, and is said to be held where there is none; a push is said."""
    tree = written("1.hold | 4 5.push | 1.hold\ntune: 1 - - - | 0 | 0", head="key: C\noctave: 4")
    assert len(list(tree.iterfind(".//fermata"))) == 1
    assert texts(tree, "words") == ["push", "hold"]


def test_a_part_of_chords_alone_is_in_slashes():
    """Its bars are rests that fill them, in the style of slashes; one with a tune has no such style.

    Source: W3C, MusicXML 4.0, slash: "If the slash is on every beat, use-stems is no".
    """
    tree = written("1 | 4 5")
    assert [slash.get("use-stems") for slash in tree.iterfind(".//measure-style/slash")] == ["no"]
    assert [rest.get("measure") for rest in tree.iterfind(".//rest")] == ["yes", "yes"]
    assert texts(tree, "offset") == ["2"]
    assert not list(written("1\ntune: 1 - - -").iterfind(".//slash"))


def test_a_tempo_that_a_chart_does_not_say_is_not_printed():
    """It sounds as it is played; the feel stands beside it either way, and is read as one."""
    silent = parse("---\ntitle: Air\nkey: C\nfeel: easy swing\n---\n1\n")
    tree = etree.fromstring(write_musicxml(silent))
    assert not list(tree.iterfind(".//metronome"))
    assert [sound.get("tempo") for sound in tree.iterfind(".//sound")] == ["100"]
    assert back(write_musicxml(silent), silent).feel == "easy swing"
    assert texts(written("1", head="key: C\ntempo: 72"), "per-minute") == ["72"]


@pytest.mark.parametrize(
    ("chord", "kind", "degrees"),
    [
        ("1(add9)", "major", ["add 9 0"]),
        ("1(b5)", "major", ["alter 5 -1"]),
        ("57sus", "suspended-fourth", ["add 7 0"]),
        ("57(b9)", "dominant", ["add 9 -1"]),
        ("2ø7", "half-diminished", []),
        ("1(no3)", "power", []),
    ],
)
def test_a_chord_has_the_nearest_kind(chord, kind, degrees):
    """The kind with the fewest changes, none of its tones too many where another will do.

    Source: W3C, MusicXML 4.0, kind-value, degree-type.
    """
    tree = written(chord)
    assert texts(tree, "harmony/kind") == [kind]
    found = zip(*(texts(tree, f"degree-{what}") for what in ("type", "value", "alter")), strict=True)
    assert [" ".join(parts) for parts in found] == degrees


def test_a_clef_can_be_asked_for():
    """Otherwise it is treble or bass, as the tune lies."""
    low = "1\ntune: 1 - - -"
    assert texts(written(low, head="key: C\noctave: 2"), "clef/sign") == ["F"]
    assert texts(written(low, head="key: C\noctave: 4"), "clef/sign") == ["G"]
    tree = written(low, head="key: C\noctave: 3", clef="alto")
    assert (texts(tree, "clef/sign"), texts(tree, "clef/line")) == (["C"], ["3"])


def test_words_that_would_be_taken_for_a_sign_stand_in_quotes():
    """A cue that says 'stop' is no mark of a chord, and comes back as it was."""
    chart = parse('---\ntitle: Air\nkey: C\n---\n"stop" 1 | "Fine" 4 | "D.C. al Fine" 5\n')
    data = write_musicxml(chart)
    assert "“stop”" in data.decode()
    again = back(data, chart)
    assert [cue.text for bar in again.sections[0].bars for cue in bar.cues] == [
        "stop",
        "Fine",
        "D.C. al Fine",
    ]


def test_signs_of_xml_in_a_title_are_kept():
    """They are escaped, and what XML cannot hold at all is left out."""
    chart = parse('---\ntitle: Rock & <Roll>\nby: "A" & B\nkey: C\n---\n1\n')
    data = write_musicxml(chart, part="Fiddle\x0b 1")
    assert faults(data) == []
    found = read_musicxml(data)
    assert (found.sheet.title, found.sheet.by, found.chosen.name) == ("Rock & <Roll>", '"A" & B', "Fiddle 1")


def test_a_packed_file_names_its_score(tmp_path):
    """It comes back the same, and is the same bytes each time."""
    data = write_musicxml(song(SONGS[0]))
    packed = pack_musicxml(data)
    assert packed == pack_musicxml(data)
    file = tmp_path / "song.mxl"
    file.write_bytes(packed)
    assert ZipFile(file).namelist()[0] == "META-INF/container.xml"
    assert read_musicxml(packed).sheet == read_musicxml(data).sheet


@pytest.mark.parametrize("as_numbers", [False, True], ids=["letters", "numbers"])
def test_real_songs_come_back_with_their_chords_and_bars(as_numbers):
    """Every twelfth of 370 songs has the same chords at their times, and as many bars; a bench does them all.

    Source: the McGill Billboard annotations of ``tests/data/pop-chords-cc0.json``.
    """
    for place, song in list(enumerate(pop_songs()))[as_numbers::12]:
        chart = parse(number_chart(song, f"song {place}"))
        again = back(write_musicxml(chart, as_numbers=as_numbers), chart)
        assert played(again) == played(chart)
        assert len(unfold(again).bars) == len(unfold(chart).bars)


def test_every_song_can_be_written_as_text_again():
    """What comes back of a file reads again as it is."""
    for path in SONGS:
        again = back(write_musicxml(song(path)), song(path))
        assert parse(write_chart(again)) == again
