"""What is read from ABC: notes, lengths, keys, chords, words and the way through a tune.

Source of every rule: the abc music standard 2.1 (December 2011), from memory.
"""

from fractions import Fraction

import pytest

from fifthwise.exchange import chart_of_sheet
from fifthwise.exchange.abc import read_abc
from fifthwise.exchange.errors import EmptyScore, TooLarge, UnknownPart, UnreadableFile
from tests.exchange.abc.tunes import heard, letters, notes, read, sheet, tune


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("C,, C c c''", "C2:1 C4:1 C5:1 C7:1"),
        ("C2 D/ E// F3/2", "C4:2 D4:1/2 E4:1/4 F4:3/2"),
        ("C>D E<F", "C4:3/2 D4:1/2 E4:1/2 F4:3/2"),
        ("C>>D E<<F", "C4:7/4 D4:1/4 E4:1/4 F4:7/4"),
        ("C > D", "C4:3/2 D4:1/2"),
        ("(3CDE F", "C4:2/3 D4:2/3 E4:2/3 F4:1"),
        ("(2CD E", "C4:3/2 D4:3/2 E4:1"),
        ("(4CDEF", "C4:3/4 D4:3/4 E4:3/4 F4:3/4"),
        ("(5CDEFG", "C4:2/5 D4:2/5 E4:2/5 F4:2/5 G4:2/5"),
        ("(3:2:4CDEF G", "C4:2/3 D4:2/3 E4:2/3 F4:2/3 G4:1"),
        ("(3::2CD E", "C4:2/3 D4:2/3 E4:1"),
        ("(5:4CDEFG", "C4:4/5 D4:4/5 E4:4/5 F4:4/5 G4:4/5"),
        ("(3C>DE", "C4:1 D4:1/3 E4:2/3"),
        ("[CE]2 [C2E2]", "C4+E4:2 C4+E4:2"),
        ("[C2E2]2", "C4+E4:4"),
        ("[CEG]4", "G4:4"),
        ("+C2E2+ +ff+D", "C4+E4:2 D4:1"),
        ("C z x D", "C4:1 D4:1"),
        ("^C C C, =C", "C#4:1 C#4:1 C#3:1 C4:1"),
        ("^^F __B", "F##4:1 Bbb4:1"),
        ("C`D y E$", "C4:1 D4:1 E4:1"),
        ("C [r:a remark] D % more", "C4:1 D4:1"),
        ("C-C D", "C4:2 D4:1"),
        ("C2 & E2", "C4:2"),
    ],
)
def test_notes_have_their_pitch_and_length(text, found):
    """Letters, octaves, lengths, broken rhythm, tuplets, chords and accidentals are as the rules say."""
    assert notes(text) == [found]


def test_tuplets_of_five_stand_for_three_in_compound_time():
    """Of 5, 7 and 9 the second number is 3 in 6/8, and 2 in 2/4."""
    assert notes("(5CDEFG A", head=("M:6/8", "L:1/8")) == ["C4:3/10 D4:3/10 E4:3/10 F4:3/10 G4:3/10 A4:1/2"]


def test_an_accidental_holds_to_the_bar_line():
    """It holds in every octave, ends with the bar, and a note tied over the bar line keeps it."""
    assert notes("^F f F2|F4") == ["F#4:1 F#5:1 F#4:2", "F4:4"]
    assert notes("^F2 F2-|F2 F2") == ["F#4:2 F#4:2", "F#4:2 F4:2"]
    assert notes("%%propagate-accidentals not", "^F F2") == ["F#4:1 F4:2"]
    assert notes("%%propagate-accidentals octave", "^F f F2") == ["F#4:1 F5:1 F#4:2"]


@pytest.mark.parametrize(
    ("key", "found", "sound"),
    [
        ("G", "G", "F#4:4"),
        ("Gmaj", "G", "F#4:4"),
        ("Em", "E minor", "F#4:4"),
        ("E min", "E minor", "F#4:4"),
        ("Ddor", "D dorian", "F4:4"),
        ("D Dorian", "D dorian", "F4:4"),
        ("AMix", "A mixolydian", "F#4:4"),
        ("F lyd", "F lydian", "F4:4"),
        ("E phrygian", "E phrygian", "F4:4"),
        ("B Loc", "B locrian", "F4:4"),
        ("Aaeo", "A aeolian", "F4:4"),
        ("C ion", "C ionian", "F4:4"),
        ("Bb", "Bb", "F4:4"),
        ("F#m", "F# minor", "F#4:4"),
        ("none", "C", "F4:4"),
        ("", "C", "F4:4"),
        ("HP", "A mixolydian", "F#4:4"),
        ("Hp", "A mixolydian", "F#4:4"),
        ("D exp ^f", "D mixolydian", "F#4:4"),
        ("D =c", "D mixolydian", "F#4:4"),
        ("Dmix=f", "D dorian", "F4:4"),
        ("Dmix=c", "D mixolydian", "F#4:4"),
        ("G middle=B", "G", "F#4:4"),
        ("A minor ^f", "A dorian", "F#4:4"),
        ("G clef=bass", "G", "F#4:4"),
        ("bass", "C", "F4:4"),
    ],
)
def test_keys_are_keys_of_ours(key, found, sound):
    """Each mode is a key, in which the letters sound as its signature has them."""
    made = sheet("F4", key=key)
    assert (str(made.bars[0].key), heard(made)) == (found, [sound])


def test_a_signature_that_no_key_has_keeps_its_notes():
    """The notes sound as they are altered, and that the key is the nearest one is told."""
    made = sheet("d e f ^g", key="D Phr ^f")
    assert heard(made) == ["D5:1 Eb5:1 F#5:1 G#5:1"]
    assert any("no key" in told for told in made.left_out)


@pytest.mark.parametrize(
    ("metre", "unit", "found", "length"),
    [
        ("C", None, "4/4", 1 / 2), ("C|", None, "2/2", 1 / 2), ("2/4", None, "2/4", 1 / 4),
        ("3/4", None, "3/4", 1 / 2), ("6/8", None, "6/8", 1 / 2), ("7/8", "1/8", "7/8 2+2+3", 1 / 2),
        ("2+3/8", "1/8", "5/8 2+3", 1 / 2), ("(2+2+3)/8", "1/16", "7/8 2+2+3", 1 / 4),
        ("2/4+3/8", "1/8", "7/8 4+3", 1 / 2),
    ],
)  # fmt: skip
def test_a_metre_gives_the_unit_of_its_notes(metre, unit, found, length):
    """Metres shorter than 3/4 count in sixteenths, others in eighths, if ``L:`` says nothing."""
    head = (f"M:{metre}", *([f"L:{unit}"] if unit else []))
    made = sheet("C D E F|", head=head)
    assert (str(made.bars[0].metre), float(made.bars[0].notes[0].length)) == (found, length)


def test_without_a_metre_each_bar_is_as_long_as_its_notes():
    """``M:none`` has bars of any length, and a bar that no chart could hold is parted."""
    made = sheet("C3|C5|", head=("M:none", "L:1/4"))
    assert [(str(bar.metre), bar.length) for bar in made.bars] == [("3/4", 3), ("5/4", 5)]
    made = sheet("C3 D" * 20, head=("M:none", "L:1/4"))
    assert [bar.length for bar in made.bars] == [4] * 20
    assert any("parted" in told for told in made.left_out)


@pytest.mark.parametrize(
    ("tempo", "bpm", "feel"),
    [
        ("1/4=120", 120, ""), ("3/8=60", 90, ""), ("1/4 3/8 1/4 3/8=40", 200, ""), ("120", 60, ""),
        ('"Lively" 1/2=60', 120, "Lively"), ('1/4=80 "Slow"', 80, "Slow"), ('"Freely"', None, "Freely"),
        ("C=100", 50, ""), ("C3=100", 150, ""),
    ],
)  # fmt: skip
def test_tempos_are_quarters_a_minute(tempo, bpm, feel):
    """A tempo counts the notes that it names, or without any the unit; words are the feel."""
    made = sheet("C4", head=("M:4/4", "L:1/8", f"Q:{tempo}"))
    assert (made.bars[0].tempo_bpm, made.feel) == (bpm, feel)


def test_fields_change_what_holds_from_where_they_stand():
    """Keys, metres, units, tempos and parts change inside a line and between lines."""
    made = sheet("C D E F|[M:3/4][K:G]F2 [L:1/8]F2|", "K:F", "M:2/4", "L:1/4", "Q:1/4=90", "P:B", "B2|")
    assert heard(made) == ["C4:1 D4:1 E4:1 F4:1", "F#4:2 F#4:1", "Bb4:2"]
    assert [str(bar.key) for bar in made.bars] == ["C", "G", "F"]
    assert [str(bar.metre) for bar in made.bars] == ["4/4", "3/4", "2/4"]
    assert (made.bars[2].section, made.bars[2].tempo_bpm) == ("B", 90)
    assert [bar.section for bar in sheet("[P:A]C4|[P:B]D4|").bars] == ["A", "B"]


def test_chords_stand_over_their_notes():
    """A chord begins at the next note; N.C. is none; what is no chord is said to the players."""
    made = sheet('"Am7"C2 "D/F#"D2|"N.C."z2 "^softly"E2 "G7(b9)"F2|"_low" "C"G4|')
    assert letters(made) == [["Am7", "D/F#"], [None, "G7(b9)"], ["C"]]
    assert [chord.at for chord in made.bars[0].chords] == [0, 2]
    assert [bar.words for bar in made.bars] == [(), ("softly",), ("low",)]
    assert letters(sheet('"C"!fermata!E4|"^push" "F"A4|'))[0] == ["C"]
    assert [b.chords[0].marks for b in sheet('"C"!fermata!E4|"^push" "F"A4|').bars] == [("hold",), ("push",)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("|:C4|D4:|", [(True, 0, ()), (False, 2, ())]),
        ("|:C4::D4:|", [(True, 2, ()), (True, 2, ())]),
        ("|:C4:||:D4:|", [(True, 2, ()), (True, 2, ())]),
        ("|::C4::|", [(True, 3, ())]),
        ("|:C4|1D4:|2E4||", [(True, 0, ()), (False, 2, (1,)), (False, 0, (2,))]),
        ("|:C4|[1D4:|[2E4|]", [(True, 0, ()), (False, 2, (1,)), (False, 0, (2,))]),
        ("|:C4|[1,3 D4:|[2,4 E4:|", [(True, 0, ()), (False, 2, (1, 3)), (False, 2, (2, 4))]),
        ("|:C4|[1-3 D4:|[4 E4||", [(True, 0, ()), (False, 2, (1, 2, 3)), (False, 0, (4,))]),
    ],
)
def test_repeats_and_endings_are_those_of_the_bar_lines(text, found):
    """Each bar has the repeat that begins or ends there, and the endings that begin."""
    made = sheet(text)
    assert [(bar.repeat_start, bar.repeat_end, bar.endings) for bar in made.bars] == found
    assert all(bar.ends_ending for bar in made.bars if bar.endings)


def test_signs_lead_through_the_tune():
    """Segno, coda and jumps are read from signs of both hands and from words."""
    made = sheet('!segno!C4|D4!tocoda!|E4|"^D.S. al Coda"F4|!coda!G4|')
    assert [bar.segno for bar in made.bars] == [True] + [False] * 4
    assert made.bars[3].jump == "ds al coda"
    assert made.bars[4].coda
    made = sheet("C4!fine!|D4|E4 !D.C.!|]")
    assert made.bars[0].fine
    assert made.bars[2].jump == "dc al fine"
    made = sheet("+segno+C4|OD4|E4|F4 !D.S.alcoda!|OG4|")
    assert made.bars[1].to_coda
    assert made.bars[4].coda


def test_parts_are_played_in_the_order_of_the_head():
    """``P:AAB`` in the head orders the parts of the tune; a part played twice is repeated."""
    head = ("M:4/4", "L:1/4", "P:A2BA")
    made = sheet("P:A", "C4|", "P:B", "D4|", head=head)
    assert [bar.section for bar in made.bars] == ["A", "B", "A"]
    assert [bar.repeat_end for bar in made.bars] == [2, 0, 0]
    assert [
        bar.section for bar in sheet("P:A", "C4|", "P:B", "D4|", head=(*head[:2], "P:(AB)2")).bars
    ] == list("ABAB")
    made = sheet("P:A", "C4|", head=(*head[:2], "P:AX"))
    assert len(made.bars) == 1
    assert any("order of parts" in told for told in made.left_out)


def test_words_stand_under_their_notes():
    """Syllables, holds, skips and bars are laid as the rules say; the first verse is kept."""
    made = sheet("C D E F|G z A B|c4|", "w: Hal-le-lu-jah * sing~out | now")
    syllables = [[n.syllable for n in bar.notes] for bar in made.bars]
    assert syllables == [["Hal-", "le-", "lu-", "jah"], ["", "sing out", ""], ["now"]]
    made = sheet("C D E2|G4|", "w: time__ | now", "C2D2|", r"w: e\-x a\'e")
    assert [[n.syllable for n in bar.notes] for bar in made.bars] == [
        ["time", "", ""],
        ["now"],
        ["e-x", "aé"],
    ]
    assert any("verse 2" in told for told in sheet("C4|", "w: one", "w: two").left_out)


def test_slurs_ties_and_graces_are_those_of_the_notes():
    """A slur binds all but its last note, a tie makes the next note go on, a grace comes before its note."""
    first, second = sheet("(CDE) {^fg}F-|F4|").bars
    assert [note.slurred for note in first.notes] == [True, True, False, False]
    assert [str(pitch) for pitch in first.notes[3].grace] == ["F#5", "G5"]
    assert second.notes[0].goes_on


def test_a_voice_is_chosen():
    """The first full voice is the tune unless another is asked for; the others are told."""
    lines = ('V:1 name="Fiddle"', "V:2 clef=bass octave=-1", "[V:1]c4|d4|", "[V:2]C4|D4|")
    assert heard(read(*lines).sheet) == ["C5:4", "D5:4"]
    assert heard(read(*lines, part="2").sheet) == ["C3:4", "D3:4"]
    assert heard(read(*lines, part="fiddle").sheet) == ["C5:4", "D5:4"]
    assert "voice '2' is left out: 2 notes" in read(*lines).sheet.left_out
    assert [(v.key, v.name, v.notes) for v in read(*lines).voices] == [("1", "Fiddle", 2), ("2", "2", 2)]
    with pytest.raises(UnknownPart, match="Write one of '1', '2'"):
        read(*lines, part="3")


def test_a_file_has_many_tunes():
    """Each X: begins a tune; the file's head counts for all; free text between is none of them."""
    first = "M:3/4\nL:1/4\n\nSome words, F G A|\n\nX:1\nT:One\nK:C\nCDE|\n"
    text = first + "\nmore words\n\nX:7\nT:Two\nM:2/4\nK:G\nF2|\n"
    one, two = read_abc(text, "tunes.abc").tunes
    assert [(each.number, each.sheet.title) for each in (one, two)] == [("1", "One"), ("7", "Two")]
    assert heard(one.sheet) == ["C4:1 D4:1 E4:1"]
    assert heard(two.sheet) == ["F#4:2"]
    assert str(one.sheet.bars[0].metre) == "3/4"


def test_a_line_goes_on_behind_a_backslash():
    """Words under two joined lines are laid under both."""
    made = sheet("C2 D2|\\", "E4|", "w: one two three")
    assert [[n.syllable for n in bar.notes] for bar in made.bars] == [["one", "two"], ["three"]]


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("C4 & E4|", "a second line in the same voice is left out (bar 1)"),
        ("!trill!C4|", "ornaments are left out (bar 1)"),
        (".C4|", "accents and other touches are left out (bar 1)"),
        ("!mf!C4|", "dynamics are left out (bar 1)"),
        ("!1!C4|", "fingers without a string are left out (bar 1)"),
        ("uC4|", "bowings are left out (bar 1)"),
        ("!odd!C4|", "the sign 'odd' is left out (bar 1)"),
        ("[CEG]4|", "of three notes and more together the highest is kept (bar 1)"),
        ("?C4|", "'?' is no music and is left out (bar 1)"),
    ],
)
def test_what_a_song_cannot_hold_is_told(line, told):
    """Each loss is a sentence with its bar."""
    assert told in sheet(line).left_out


def test_a_tune_is_a_chart():
    """Pickup, repeat and words come into the chart that is made of a tune."""
    made = chart_of_sheet(sheet("G|:c2 e2|d4:|", head=("M:4/4", "L:1/4", "R:reel"), key="C")).chart
    assert made.sections[0].bars[0].pickup == 1
    assert made.feel == "reel"


@pytest.mark.parametrize(
    ("data", "fault", "match"),
    [
        ("", EmptyScore, "no tune"),
        ("nothing here", EmptyScore, "begins with 'X:1'"),
        ("X:1\nT:Empty\nK:C\n", EmptyScore, "no tune"),
        (b"X:1\0", UnreadableFile, "no text"),
        ("C" * 4_000_001, TooLarge, "4 MB"),
        (tune("Z9999|"), TooLarge, "more than 2000 bars"),
    ],
)
def test_what_is_no_tune_is_refused(data, fault, match):
    """The fault says what is wrong and how to mend it."""
    with pytest.raises(fault, match=match):
        read_abc(data, "tunes.abc")


def test_older_files_are_read_in_their_coding():
    """Bytes that are no UTF-8 are read as Windows wrote them."""
    assert read_abc("X:1\nT:Caf\xe9\nK:C\nC|\n".encode("cp1252")).tunes[0].sheet.title == "Café"
    assert read_abc(b"X:1\nT:Caf\\'e &amp; more\nK:C\nC|\n").tunes[0].sheet.title == "Café & more"


def test_a_tune_without_an_end_of_bar_is_as_long_as_its_notes():
    """What stands behind the last bar line is a bar."""
    assert [bar.length for bar in sheet("C4|D2").bars] == [Fraction(4), Fraction(2)]


@pytest.mark.parametrize("key", ["Q#", "Q", "H", "Qm clef=bass"])
def test_a_key_that_cannot_be_read_is_told(key):
    """C is taken in its place, and the tune says so."""
    made = sheet("CDEF", key=key)
    assert str(made.bars[0].key) == "C"
    assert f"the key '{key}' cannot be read; C is taken" in made.left_out
    assert "'K:Q#' cannot be read and is left out (bar 1)" in sheet("CD[K:Q#]EF", key="G").left_out


@pytest.mark.parametrize("key", ["G", "", "none", "clef=bass", "treble", "bass", "Em", "=c", "octave=-1"])
def test_a_key_that_is_none_or_a_clef_is_not_faulted(key):
    """Only what means a key is told."""
    assert not [told for told in sheet("CDEF", key=key).left_out if "cannot be read" in told]
