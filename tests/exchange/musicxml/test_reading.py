"""What is read from a MusicXML file: chords, tune, words, and the way through the song."""

from fractions import Fraction

import pytest
from music21 import converter
from music21 import harmony as m21

from fifthwise.chart import write_chart
from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.errors import UnknownPart
from fifthwise.exchange.musicxml import read_musicxml
from fifthwise.theory import pitch_classes, write_letters
from tests.exchange.musicxml.scores import (
    CORPUS,
    attributes,
    bar,
    harmony,
    note,
    packed,
    read,
    score,
    sheet,
)

WHOLE = note("C5", 4)
# Chords of music21's test file that music21 itself reads otherwise, by measure, each with why.
M21_FAULTS = {
    "11": "kind minor-major (now major-minor): music21 keeps the root alone",
    "55": "kinds named after countries say no tones over their root; music21 stacks some",
    "56": "the same",
    "57": "the same",
}


def letters(made):
    """The chords of a sheet, bar by bar."""
    return [[None if c.chord is None else write_letters(c.chord) for c in b.chords] for b in made.bars]


def chart(made):
    """The lines of a sheet's chart below its head."""
    body = write_chart(chart_of_sheet(made).chart).split("---\n")[2]
    return [" ".join(line.split()) for line in body.split("\n") if line]


def direction(*kinds, more=""):
    """A direction of some kinds."""
    inside = "".join(f"<direction-type>{kind}</direction-type>" for kind in kinds)
    return f"<direction>{inside}{more}</direction>"


@pytest.mark.parametrize(
    "name",
    [
        "ComprehensiveChordSymbolsTestFile.mxl",
        "chord_realization_exercise.mxl",
        "berlinAlexandersRagtime.mxl",
        "fosterBrownHair.mxl",
    ],
)
def test_the_chord_files_of_a_corpus_have_the_same_chords(name):
    """Every chord symbol stands at the place and sounds the tones that music21 reads; its faults are listed.

    Source: music21's corpus, read where it lies.
    """
    path = next(CORPUS.rglob(name))
    ours = {
        (at, chord.at): chord.chord
        for at, bar in enumerate(read_musicxml(path.read_bytes(), name).sheet.bars)
        for chord in bar.chords
    }
    compared = 0
    part = next(p for p in converter.parse(path).parts if p.recurse().getElementsByClass(m21.Harmony))
    for at, measure in enumerate(part.getElementsByClass("Measure")):
        for theirs in measure.recurse().getElementsByClass(m21.Harmony):
            if name.startswith("Comprehensive") and str(measure.number) in M21_FAULTS:
                continue
            chord = ours[at, Fraction(theirs.getOffsetInHierarchy(measure))]
            assert pitch_classes(chord) == {pitch.pitchClass for pitch in theirs.pitches}
            compared += 1
    assert compared >= 5


def test_a_chord_has_a_root_a_kind_a_bass_and_degrees():
    """Each part of a letter chord counts; a degree that is added counts from a dominant chord.

    Source: W3C, MusicXML 4.0, degree-alter: "If the degree-type value is add, the degree-alter value is
    relative to a dominant chord".
    """

    def degree(value, alter, kind):
        return (
            f"<degree><degree-value>{value}</degree-value><degree-alter>{alter}</degree-alter>"
            f"<degree-type>{kind}</degree-type></degree>"
        )

    bass = "<bass><bass-step>F</bass-step><bass-alter>1</bass-alter></bass>"
    found = sheet(
        bar(attributes(), harmony("D", "major", bass), WHOLE),
        bar(harmony("Bb", "dominant", degree(9, -1, "add")), WHOLE),
        bar(harmony("B", "minor-seventh", degree(5, -1, "alter")), WHOLE),
        bar(harmony("C", "major", degree(7, 0, "add")), WHOLE),
        bar(harmony("C", "major", degree(7, 1, "add")), WHOLE),
        bar(harmony("C", "dominant-ninth", degree(3, 0, "subtract")), WHOLE),
        bar(harmony("C", "none"), WHOLE),
        bar(harmony("C", "major", "<inversion>1</inversion>"), WHOLE),
        bar("<harmony><root><root-step>E</root-step></root><kind text='7sus'>other</kind></harmony>", WHOLE),
    )
    assert letters(found) == [
        ["D/F#"], ["Bb7(b9)"], ["Bm7b5"], ["C7"], ["Cmaj7"], ["C9(no3)"], [None], ["C/E"], ["E7sus"]
    ]  # fmt: skip


def test_a_numeral_counts_in_the_scale_of_its_key():
    """In plain minor 6 and 7 are flat already; harmonic and melodic minor sharpen them.

    Source: W3C, MusicXML 4.0, numeral-mode.
    """

    def numeral(root, mode="", alter=0, fifths=0):
        key = f"<numeral-fifths>{fifths}</numeral-fifths><numeral-mode>{mode}</numeral-mode>"
        own = f"<numeral-key>{key}</numeral-key>" if mode else ""
        step = f"<numeral-root>{root}</numeral-root><numeral-alter>{alter}</numeral-alter>"
        return f"<harmony><numeral>{step}{own}</numeral><kind>major</kind></harmony>"

    minor = "<divisions>12</divisions><key><fifths>0</fifths><mode>minor</mode></key>"
    found = sheet(
        bar(attributes(held=minor), numeral(7), numeral(6), WHOLE),
        bar(numeral(7, "harmonic minor"), WHOLE),
        bar(numeral(6, "melodic minor"), WHOLE),
        bar(numeral(6, "natural minor"), WHOLE),
        bar(numeral(7, "major", -1, 2), WHOLE),
    )
    assert letters(found) == [["G", "F"], ["G#"], ["F#"], ["F"], ["C"]]


def test_a_numeral_over_another_counts_in_its_key():
    """The V of II in C is A.

    Source: W3C, MusicXML 4.0, harmony-chord: "V of II would be represented by a harmony-chord with a 5
    numeral followed by a harmony-chord with a 2 numeral".
    """

    def numeral(root, kind):
        return f"<numeral><numeral-root>{root}</numeral-root></numeral><kind>{kind}</kind>"

    stacked = f"<harmony>{numeral(5, 'dominant')}{numeral(2, 'minor')}</harmony>"
    assert letters(sheet(bar(attributes(), stacked, WHOLE))) == [["A7"]]


def test_a_function_is_a_numeral_whose_case_is_its_quality():
    """The V of the ii stands on the 6, and a small numeral is minor.

    Common practice, no source.
    """

    def function(text, kind="other"):
        return f"<harmony><function>{text}</function><kind>{kind}</kind></harmony>"

    found = sheet(
        bar(attributes(), function("V7/ii"), WHOLE),
        bar(function("ii7"), WHOLE),
        bar(function("bVII"), WHOLE),
        bar(function("ii", "minor-seventh"), WHOLE),
    )
    assert letters(found) == [["A7"], ["Dm7"], ["Bb"], ["Dm7"]]


def test_chords_stand_where_they_begin():
    """A chord between notes begins there; an offset moves it, over the bar line too."""
    late = harmony("F", more="<offset>24</offset>")
    over = harmony("G", more="<offset>24</offset>")
    found = sheet(
        bar(attributes(), harmony("C"), note("C5", 3), harmony("A", "minor"), note("C5", 1)),
        bar(late, note("C5", 2), note("C5", 2), over),
        bar(WHOLE),
    )
    times = [(at, c.at, write_letters(c.chord)) for at, b in enumerate(found.bars) for c in b.chords]
    assert times == [(0, 0, "C"), (0, 3, "Am"), (1, 2, "F"), (2, 2, "G")]


def test_a_transposing_part_is_read_as_it_sounds():
    """A B-flat trumpet's D is C, its chords and its key with it; an octave change moves the notes alone.

    Source: sounding minus written for a B-flat trumpet is a major second down (common practice).
    """
    trumpet = (
        "<divisions>12</divisions><key><fifths>2</fifths></key>"
        "<transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose>"
    )
    (first,) = sheet(bar(attributes(held=trumpet), harmony("D"), note("F#5", 4))).bars
    assert (str(first.key), str(first.notes[0].pitches[0])) == ("C", "E5")
    assert write_letters(first.chords[0].chord) == "C"
    guitar = attributes("<transpose><chromatic>0</chromatic><octave-change>-1</octave-change></transpose>")
    (first,) = sheet(bar(guitar, WHOLE)).bars
    assert str(first.notes[0].pitches[0]) == "C4"


def test_ties_slurs_graces_and_syllables_belong_to_their_notes():
    """A tied note goes on, a slur reaches to the note before its last, a grace note to the next note."""
    lyric = "<lyric number='1'><syllabic>begin</syllabic><text>lan</text></lyric>"
    second = "<lyric number='2'><text>two</text></lyric>"
    found = sheet(
        bar(
            attributes(),
            note("C5", 1, lyric + second, notations="<slur type='start' number='1'/>"),
            note("D5", 1, notations="<slur type='stop' number='1'/>"),
            note("B4", 0, before="<grace/>"),
            note("E5", 2, before="", notations="<tied type='start'/>"),
        ),
        bar(note("E5", 4, "<lyric number='1'><text>tern</text></lyric>", notations="<tied type='stop'/>")),
    )
    one, two, three = found.bars[0].notes
    (four,) = found.bars[1].notes
    assert (one.slurred, two.slurred, one.syllable) == (True, False, "lan-")
    assert [str(pitch) for pitch in three.grace] == ["B4"]
    assert (three.goes_on, four.goes_on, four.syllable) == (False, True, "tern")
    assert found.left_out == ("the score has no chord symbols", "verse 2 is left out (bar 1)")


def test_strings_and_fingers_are_pins():
    """The second string of a violin is the A string; a finger without its string is told."""
    pinned = "<technical><string>2</string><fingering>3</fingering></technical>"
    free = "<technical><fingering>1</fingering></technical>"
    found = sheet(
        bar(attributes(), note("D5", 2, notations=pinned), note("D5", 2, notations=free)), name="Violin"
    )
    assert [n.fingers for n in found.bars[0].notes] == [("A3",), ()]
    assert "fingers without a string are left out (bar 1)" in found.left_out


BACK = '<repeat direction="backward"/>'


def line(*inside):
    """A bar line."""
    return f"<barline>{''.join(inside)}</barline>"


def ending(number, kind):
    """Where an ending's bracket begins or ends."""
    return f'<ending number="{number}" type="{kind}"/>'


def test_the_way_through_the_song_is_read():
    """Sections, repeats with endings, segno, coda and jumps are what a chart has of them."""
    found = sheet(
        bar(
            attributes(),
            direction("<rehearsal>A</rehearsal>"),
            line('<repeat direction="forward"/>'),
            harmony("C"),
            WHOLE,
        ),
        bar(line(ending(1, "start")), harmony("F"), WHOLE, line(ending(1, "stop"), BACK)),
        bar(line(ending(2, "start")), harmony("G"), WHOLE, line(ending(2, "discontinue"))),
        bar(direction("<rehearsal>B</rehearsal>"), direction("<segno/>"), harmony("A"), WHOLE,
            direction("<coda/>")),
        bar(harmony("E"), WHOLE, direction("<words>D.S. al Coda</words>", more='<sound dalsegno="segno"/>')),
        bar(direction("<coda/>"), harmony("D"), WHOLE),
    )  # fmt: skip
    assert chart(found) == [
        "# A",
        "|: 1 | [1.] 4 :| [2.] 5 ||",
        "tune: 1 - - - | 1 - - - | 1 - - -",
        "# B",
        "[segno] 6 [to coda] | 3 [ds al coda] | [coda] 2",
        "tune: 1 - - - | 1 - - - | 1 - - -",
    ]


def test_a_last_time_without_a_bracket_goes_on():
    """Where only the first ending has a bracket, the bar after it is the second."""
    found = sheet(
        bar(attributes(), harmony("C"), WHOLE),
        bar(line(ending(1, "start")), harmony("F"), WHOLE, line(ending(1, "stop"), BACK)),
        bar(harmony("G"), WHOLE),
        bar(harmony("D"), WHOLE),
    )
    assert chart(found)[0] == "|: 1 | [1.] 4 :| [2.] 5 || 2"


def test_key_metre_tempo_and_feel_change_where_the_file_says():
    """A change holds from its bar on; a tempo of dotted quarters is counted in quarters."""
    tempo = "<metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>80</per-minute></metronome>"
    sixes = "<time><beats>6</beats><beat-type>8</beat-type></time>"
    change = f"<key><fifths>-3</fifths><mode>minor</mode></key>{sixes}"
    found = sheet(
        bar(attributes(), direction("<words>slow swing</words>", tempo), WHOLE),
        bar(attributes(held=change), '<sound tempo="92.5"/>', note("C5", 3)),
    )
    first, second = found.bars
    assert (first.tempo_bpm, second.tempo_bpm) == (120, Fraction(185, 2))
    assert (str(second.key), str(second.metre), found.feel) == ("C minor", "6/8", "slow swing")


def test_marks_over_chords_are_theirs():
    """A fermata holds the chord that begins there, words say what else is done; other words are cues."""
    found = sheet(
        bar(
            attributes(),
            harmony("C"),
            note("C5", 2, notations="<fermata/>"),
            direction("<words>Push</words>"),
            harmony("F"),
            note("C5", 2),
            direction("<words>all sing</words>"),
        )
    )
    (first,) = found.bars
    assert [chord.marks for chord in first.chords] == [("hold",), ("push",)]
    assert first.words == ("all sing",)


def test_a_pickup_is_as_short_as_its_notes():
    """A first bar of one beat leads into the song."""
    found = sheet(bar(attributes(), note("G4", 1), implicit=True), bar(harmony("C"), WHOLE))
    assert found.bars[0].length == 1
    assert chart(found)[0] == "[pickup 1] 0 | 1"


def test_the_tune_is_the_line_that_is_sung():
    """The line with words is the tune, another part's chords stand over it, and the rest is told."""
    sung = "<lyric><text>la</text></lyric>"
    back = "<backup><duration>48</duration></backup>"
    low = note("C3", 4, voice="2")
    piano = bar(attributes(), harmony("F"), note("C6", 1), note("C6", 3), back, low)
    found = read(score(bar(attributes(), note("A4", 4, sung)), name="Voice", more=[("Piano", [piano])]))
    assert [part.key for part in found.parts] == ["P1", "P2/1", "P2/2"]
    assert (found.chosen.key, letters(found.sheet)) == ("P1", [["F"]])
    assert found.sheet.left_out == (
        "'Piano' (P2/1) is left out: 2 notes",
        "'Piano' (P2/2) is left out: 1 notes",
    )


def test_another_line_can_be_asked_for():
    """By its key, or by its part's name; one that is not there is told with those that are."""
    low = bar(attributes(), note("C3", 4))
    text = score(bar(attributes(), WHOLE), more=[("Bass", [low])])
    assert read(text, "P2").chosen.name == "Bass"
    assert str(read(text, "bass").sheet.bars[0].notes[0].pitches[0]) == "C3"
    with pytest.raises(
        UnknownPart, match=r"song.musicxml: there is no part 'horn'. Write one of 'Tune', 'Bass'."
    ):
        read(text, "horn")


def test_bars_that_hold_their_parts_are_turned_round():
    """A timewise score has the same song."""
    parts = "<part-list><score-part id='P1'><part-name>Tune</part-name></score-part></part-list>"
    inside = [bar(attributes(), harmony("C"), WHOLE), bar(harmony("F"), note("A4", 4))]
    turned = "".join(
        each.replace(">", "><part id='P1'>", 1).replace("</measure>", "</part></measure>") for each in inside
    )
    timewise = f"<score-timewise>{parts}{turned}</score-timewise>"
    assert read(timewise).sheet == sheet(*inside)


def test_a_packed_file_is_the_same_song():
    """A zip with a container, or with one score alone, reads as the score inside it."""
    text = score(bar(attributes(), harmony("C"), WHOLE))
    assert read(packed(text)).sheet == read(text).sheet
    assert read(packed(text, container="")).sheet == read(text).sheet


def test_what_a_song_cannot_hold_is_told_with_its_bars():
    """Dynamics, ornaments and a third note at once are left out, and the bars are named."""
    trill = "<ornaments><trill-mark/></ornaments>"
    third = "<chord/>"
    found = sheet(
        bar(
            attributes(), direction("<dynamics><p/></dynamics>"), harmony("C"), note("C5", 4, notations=trill)
        ),
        bar(note("C5", 4), note("E5", 4, before=third), note("G5", 4, before=third)),
    )
    assert found.left_out == (
        "dynamics are left out (bar 1)",
        "ornaments are left out (bar 1)",
        "of three notes and more together the highest is kept (bar 2)",
    )
    assert [str(p) for p in found.bars[1].notes[0].pitches] == ["G5"]
