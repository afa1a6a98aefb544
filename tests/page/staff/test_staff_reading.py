"""How a staff reads: keys, clefs, octaves, accidentals, and what stands in the picture."""

import re

import music21
import pytest

from fifthwise.chart import rekey
from fifthwise.evening import part_of
from fifthwise.page import PagePart, PageView
from fifthwise.page.staff import engrave_staff, staff_html, staff_mei, staff_of_chart
from fifthwise.theory import read_key, read_note
from tests.page.songs import lantern, song
from tests.page.staff.sounds import staff_of

KEYS = [
    (tonic, mode)
    for mode, tonics in {
        "major": "Cb Gb Db Ab Eb Bb F C G D A E B F# C#",
        "minor": "Ab Eb Bb F C G D A E B F# C# G# D# A#",
        "dorian": "Eb G A",
        "mixolydian": "F D E",
        "lydian": "F Bb",
        "phrygian": "E C#",
    }.items()
    for tonic in tonics.split()
]
SCALE = "1 | 1\ntune: 1 2 3 4 | 5 6 7 1'"


def part_view(name, **more):
    """What a page shows for an instrument."""
    part = part_of(name)
    page = PagePart(part.label, part.written, fingerboard=part.fingerboard, clef=part.clef)
    return PageView(part=page, **more)


def pitches(staff):
    """The notes of a staff as they are written."""
    return [str(pitch) for bar in staff.bars for note in bar.notes for pitch in note.pitches]


@pytest.mark.parametrize(("tonic", "mode"), KEYS)
def test_a_key_has_the_signature_that_music21_gives_it(tonic, mode):
    """Sharps and flats of the written key are those of music21's key of that name."""
    mei = staff_mei(staff_of(song(SCALE, key=f"{tonic} {mode}", octave="4")))
    sharps = music21.key.Key(tonic.replace("b", "-"), mode).sharps
    written = f"{abs(sharps)}{'s' if sharps > 0 else 'f'}" if sharps else "0"
    assert f'keysig="{written}"' in mei


def test_music21_reads_the_same_notes():
    """Another reader of MEI finds the same pitches and lengths, the accidentals of key and bar taken in."""
    chart = song(
        "1 | 4 | 57 | 1\ntune: 1 b3 3 (4 #4) | #5 5 5 (b7 7) | (1 2 3) #4 - 4 | b6, - - 0", octave="4"
    )
    staff = staff_of(rekey(chart, read_note("Eb")))
    read = music21.converter.parseData(staff_mei(staff), format="mei")
    found = [(note.nameWithOctave.replace("-", "b"), note.quarterLength) for note in read.flatten().notes]
    meant = [(str(note.pitches[0]), note.length) for bar in staff.bars for note in bar.notes]
    assert [name for name, _ in found] == [name for name, _ in meant]
    assert [float(length) for _, length in found] == pytest.approx([float(length) for _, length in meant])


@pytest.mark.parametrize(
    ("part", "instrument"),
    [
        ("trumpet in Bb", music21.instrument.Trumpet),
        ("clarinet in Bb", music21.instrument.Clarinet),
        ("soprano saxophone in Bb", music21.instrument.SopranoSaxophone),
        ("tenor saxophone in Bb", music21.instrument.TenorSaxophone),
        ("alto saxophone in Eb", music21.instrument.AltoSaxophone),
        ("baritone saxophone in Eb", music21.instrument.BaritoneSaxophone),
        ("horn in F", music21.instrument.Horn),
    ],
)
def test_a_transposing_part_is_written_as_music21_transposes_it(part, instrument):
    """Pitch names and key are those of music21's written part; the octave is the best to read."""
    staff = staff_of_chart(song(SCALE, key="D", octave="4"), part_view(part))
    up = instrument().transposition.reverse()
    names = [
        music21.pitch.Pitch(name).transpose(up).name.replace("-", "b")
        for name in ["D4", "E4", "F#4", "G4", "A4", "B4", "C#5"]
    ]
    assert [pitch.rstrip("0123456789") for pitch in pitches(staff)[:7]] == names
    assert staff.bars[0].key.signature == music21.key.Key("D").transpose(up).sharps


@pytest.mark.parametrize(
    ("part", "clef", "first"),
    [
        ("violin", "treble", "C4"), ("viola", "alto", "C4"), ("cello", "bass", "C3"),
        ("double bass", "bass", "C3"), ("guitar", "treble-8", "C4"), ("flute", "treble", "C4"),
    ],
)  # fmt: skip
def test_each_player_has_the_clef_of_the_instrument(part, clef, first):
    """A tune from middle C stands where its player reads it (common practice, no source)."""
    staff = staff_of_chart(song(SCALE, octave="4"), part_view(part))
    assert staff.clef == clef
    assert pitches(staff)[0] == first


def test_a_tune_below_the_lowest_string_is_moved_up_and_says_so():
    """A violin has no E3: the tune stands an octave higher, and the reader is told."""
    staff = staff_of_chart(song(SCALE, key="E", octave="3"), part_view("violin"))
    assert pitches(staff)[0] == "E4"
    assert staff.told == ("An octave higher than it is sung",)
    five = staff_of_chart(song(SCALE, key="E", octave="3"), part_view("five-string viola"))
    assert pitches(five)[0] == "E3"
    assert five.told == ()


def test_numbers_stand_under_notes_and_chords_over_bars():
    """Degrees as the tune has them, the higher of two first; what rings on has none."""
    mei = staff_mei(staff_of(song("1 | 6-7/1\ntune: b3&5 - #4 0 | - - 1 1'")))
    assert re.findall(r'<verse n="(\d)"><syl>([^<]*)', mei) == [
        ("1", "5"), ("2", "♭3"), ("1", "♯4"), ("1", "1"), ("1", "1"),
    ]  # fmt: skip
    harms = re.findall(r"<harm.*?</harm>", mei)
    assert [re.sub(r"<[^>]*>", "", harm) for harm in harms] == ["1", "6–7/1"]


def test_a_page_with_letters_has_letters_over_the_staff():
    """What stands in the bars of the page stands over the staff."""
    mei = staff_mei(
        staff_of_chart(song("1 | 6-\ntune: 1 | 6", key="A", meter="1/4"), PageView(show="letters"))
    )
    assert [re.sub(r"<[^>]*>", "", harm) for harm in re.findall(r"<harm.*?</harm>", mei)] == ["A", "F♯m"]


def test_a_section_stands_in_each_key_that_it_is_played_in():
    """Notes do not move as numbers do, so the chorus is written again a tone higher."""
    staff = staff_of(lantern())
    assert [bar.section for bar in staff.bars if bar.section] == ["Verse"]
    chart = song("# a\n1 | 4\ntune: 1 | 4\n", form="a, [key +2], a", octave="4", meter="1/4")
    assert [bar.section for bar in staff_of(chart).bars if bar.section] == ["A, in C", "A, in D"]
    assert [bar.key for bar in staff_of(chart).bars] == [read_key("C")] * 2 + [read_key("D")] * 2


def test_sections_without_a_tune_are_left_out_and_named():
    """A player reads what there is, and is told what is not."""
    staff = staff_of(song("# intro\n1 | 4\n# verse\n1 | 4\ntune: 1 | 4\n# solo\n1", meter="1/4"))
    assert [bar.section for bar in staff.bars if bar.section] == ["Verse"]
    assert staff.told == ("Without a tune: Intro, Solo",)
    assert staff_of_chart(song("1 | 4"), PageView()) is None


def test_bars_without_a_tune_are_counted_as_one_rest():
    """Three and more are one sign with their number; a repeat or an ending parts them."""
    rests = "1 | 4\ntune: 1 | 4\n1 | 4 | 5 | 1\n1 | 4\ntune: 1 | 4"
    assert '<multiRest num="4"/>' in staff_mei(staff_of(song(rests, meter="1/4")))
    parted = "1 | 4\ntune: 1 | 4\n1 | 4 |: 5 | 1 | 1 :|\n"
    mei = staff_mei(staff_of(song(parted, meter="1/4")))
    assert mei.count("<mRest") == 2
    assert '<multiRest num="3"/>' in mei


def test_repeats_endings_and_jumps_stand_where_the_chart_has_them():
    """Bar lines, brackets and words are those of the song as written."""
    endings = "|: 1 | 4 | [1.] 5 :| [2.] 1 ||\ntune: 1 | 4 | 5 | 1"
    jumps = "[segno] |: 1 | 4 [fine] :| x3\ntune: 1 | 4\n1 [ds al fine]"
    mei = staff_mei(staff_of(song(f"{endings}\n{jumps}", meter="1/4")))
    assert re.findall(r'<ending n="([^"]*)"', mei) == ["1.", "2."]
    assert mei.count('left="rptstart"') == 2
    assert mei.count('right="rptend"') == 2
    assert 'right="dbl"' in mei
    assert 'func="segno"' in mei
    assert "Fine, ×3" in mei
    assert "D.S. al Fine" in mei


def test_slurs_and_ties_join_notes_over_bar_lines():
    """A slur begins in the bar of its first note, wherever it ends."""
    mei = staff_mei(staff_of(song("1 | 4\ntune: 1 2 3_ 4_ | 5 6 7 1'", octave="4")))
    assert '<slur startid="#n0-2" endid="#n1-0" staff="1"/></measure><measure xml:id="m1"' in mei


def test_a_slide_is_a_line_before_its_note():
    """Up to a note or down to it, before its accidental; other notes have none."""

    def slanted(tune):
        (system,) = engrave_staff(staff_of(song(f"1\ntune: {tune}", octave="4")), 112)
        return [line for lines in system.drawn.lines.values() for line in lines if "L" in line]

    assert slanted("3 b3 3&5 1") == []
    ups, downs = slanted("/3 /b3 /3&5 1"), slanted("\\3 - 1 1")
    assert len(ups) == 3
    assert len(downs) == 1
    assert all(_rises(line) for line in ups)
    assert not _rises(downs[0])


def _rises(line):
    (_, start), (_, end) = (place.split() for place in line.removeprefix("M").split("L"))
    return float(start) > float(end)


def test_a_tuplet_without_a_beam_has_its_bracket():
    """A beam shows what belongs together; where there is none a bracket does."""

    def corners(tune):
        (system,) = engrave_staff(staff_of(song(f"1\ntune: {tune}", octave="4")), 112)
        return [line for lines in system.drawn.lines.values() for line in lines if line.count("L") == 2]

    assert corners("(1 2 3) 1 1 1") == []
    assert len(corners("(1 - 3) 1 1 1")) == 2


def test_names_in_pictures_differ_where_two_stand_on_a_page():
    """The wide and the narrow picture use their own outlines."""
    page = str(staff_html(staff_of(lantern())))
    names = re.findall(r' id="([^"]+)"', page)
    used = re.findall(r'href="#([^"]+)"', page)
    assert len(names) == len(set(names))
    assert set(used) == set(names)


def test_what_a_user_wrote_is_text_in_the_picture():
    """A title or a cue is no markup."""
    chart = song('# <b>x\n1 | 4 :| vamp "<i>&"\ntune: 1 | 4', title="<script>alert(1)</script>", meter="1/4")
    page = str(staff_html(staff_of(chart)))
    assert "<script" not in page
    assert "&lt;script&gt;" in page
    assert "<b>" not in page
    assert "<i>" not in page


def test_a_narrow_system_has_fewer_bars():
    """A telephone's systems hold fewer bars at the same size of note."""
    staff = staff_of(lantern())
    wide, narrow = engrave_staff(staff, 112), engrave_staff(staff, 54)
    assert len(narrow) > len(wide)
    assert max(system.drawn.width for system in narrow) == 54 * 180
