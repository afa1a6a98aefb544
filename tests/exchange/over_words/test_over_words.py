import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fifthwise.chart import parse, write_chart
from fifthwise.exchange import read_letter_chart
from fifthwise.exchange.over_words import is_words_sheet, read_words_sheet
from fifthwise.exchange.over_words.lines import is_chord_line
from fifthwise.page import lyric_sheet
from fifthwise.theory import read_key, read_letter_chord, to_letters, write_letters
from tests.exchange.over_words.sheets import over_words
from tests.harte import pop_songs
from tests.strategies import letter_chords

SHEET = """Paper Lantern Road
by A. Fiddler

Intro: G  C  G  D/F# x2

[Verse 1]
G              C
Down along the lantern road
      G            D7
the   river turns for home

Chorus:
C        D        G
Carry    the light along

[Verse 2]
Every lamp along the quay
is burning for someone

(Chorus)
"""


def read(text, key="G", **wishes):
    """Read a sheet under the name song.txt."""
    return read_words_sheet(text, "song.txt", None if key is None else read_key(key), **wishes)


def body(text, **wishes):
    """The chart's lines after its head, blanks settled and empty lines left out."""
    reading = read(f"Title\n\n{text}", **wishes)
    assert reading.faults == ()
    lines = write_chart(reading.chart).split("---\n")[2].split("\n")
    return [" ".join(line.split()) for line in lines if line]


def told(reading):
    """What each notice says."""
    return [notice.what for notice in reading.notices]


def test_a_sheet_becomes_bars_with_words_and_a_form():
    """Headings, a named chorus, another verse, ``x2`` and an intro without words."""
    reading = read(SHEET, None)
    assert reading.faults == ()
    assert (
        write_chart(reading.chart)
        == """\
---
title: Paper Lantern Road
by: A. Fiddler
key: G
form: Intro x2, Verse 1, Chorus, Verse 1, Chorus
---

# Intro
1 | 4 | 1 | 5/7

# Verse 1
1 | 4
words: Down along the | lantern road
words: Every lamp along the quay
1 | 57
words: the river turns | for home
words: is burning for someone

# Chorus
4 | 5 | 1
words: Carry | the light | along
"""
    )


def test_what_was_settled_is_told():
    """One chord a bar, and the key with the runner-up and how likely it is."""
    reading = read(SHEET, None)
    assert reading.chords_a_bar == 1
    assert (reading.found.first.short, reading.found.runner_up.short) == ("G", "D")
    assert "nothing says how long the chords last: one chord a bar" in told(reading)
    assert any(what.startswith("the key is not said; by its chords it is G (9") for what in told(reading))
    assert read(SHEET).found is None


def test_a_vamp_s_key_is_told_as_open():
    """Two chords stand in two keys."""
    reading = read("Title\n\nC   F\nla  la\nC   F\nla  la\n", None)
    assert any("the chords leave it open" in what for what in told(reading))


def test_where_a_song_moves_is_told():
    """From the section on whose chords stand a semitone higher."""
    lines = ["Title", *("[Verse]", "C F G C", "Am F G C", "C F C G C") * 2]
    lines += [*("[Chorus 1]", "Db Gb Db Ab Db"), *("[Chorus 2]", "Db Gb Db Ab Db")]
    assert "from 'Chorus 1' on the chords may stand in Db" in told(read("\n".join(lines), None))


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("G     C\nroad  home", ["1 | 4", "words: road | home"]),
        ("   G      C\noh down   along", ["1 | 4", "words: oh down | along"]),
        ("G  C\nlantern", ["1 | 4", "words: lan- | tern"]),
        ("G C\nroad", ["1 | 4", "words: road | |"]),
        ("G         C  D\nhome", ["1 | 4 | 5", "words: home | | |"]),
        ("G\tC\nroad\thome", ["1 | 4", "words: road | home"]),
        ("G   C\n道路  home", ["1 | 4", "words: 道路 | home"]),
        ("[G]Down the la[C]ntern [D]road", ["1 | 4 | 5", "words: Down the la- | ntern | road"]),
        ("[G] [C]", ["1 | 4"]),
        ("[G]\n[C]la la", ["1", "4", "words: la la"]),
        ("N.C.    G\nhush    now", ["NC | 1", "words: hush | now"]),
        ("G - C - D", ["1 | 4 | 5"]),
        ("G / / / C / D /", ["1 | 4 5"]),
        ("G / C / D", ["1 | 4 | 5"]),
        ("G/// C///", ["1 | 4"]),
        ("G  (C)  D*", ["1 | 4 | 5"]),
        ("G  %  D", ["1 | 1 | 5"]),
        ("| G  C | D\nla la | la", ["1 4 | 5", "words: la la | la"]),
        ("G  C x3", ["|: 1 | 4 :| x3"]),
        ("G  C  (x2)\nla  la", ["|: 1 | 4 :|", "words: la | la"]),
        ("[G] [C] x2", ["|: 1 | 4 :|"]),
        ("G      C\nthe only one", ["1 | 4", "words: the on- | ly one"]),
        ("G  C\nmother", ["1 | 4", "words: mo- | ther"]),
        ("[Chorus]\nG  C\n\nRepeat Chorus 2x", ["# Chorus", "1 | 4"]),
        ("Solo  G C D", ["# Solo", "1 | 4 | 5"]),
        ("A: G C", ["# A", "1 | 4"]),
        ("G  C\nla  la\n\nlo lo", ["1 | 4", "words: la | la", "words: lo lo"]),
        ("G  C\nla  la\nlo lo", ["1 | 4", "words: la | la lo lo"]),
        ("[Verse]\nhush now\nG    C\nroad home", ["# Verse", "1 | 4", "words: hush now road | home"]),
        ("G     C\nShe said: home", ["1 | 4", "words: She | said: home"]),
        ("G     C\ndu du du du", ["1 | 4", "words: du du | du du"]),
    ],
)
def test_layouts_that_people_type(typed, wanted):
    """Each gives the bars and words it means."""
    assert body(typed) == wanted


@pytest.mark.parametrize("line", ["A", "Am", "G C", "Am7  D/F#", "N.C.  G", "G C D riff", "A (hold) D"])
def test_lines_of_chords(line):
    """A chord alone is one, even where it could be a word."""
    assert is_chord_line(line)


@pytest.mark.parametrize(
    "line", ["Am I", "A bad day", "Be", "Go", "Do Do", "Add a dab", "I", "A G is a note"]
)
def test_lines_of_words(line):
    """Words are not taken for chords for their first letters."""
    assert not is_chord_line(line)


def test_two_chords_a_bar():
    """As is wished; what is left over fills a bar."""
    assert body("G  C  D\nla la la", chords_a_bar=2) == ["1 4 | 5", "words: la la | la"]
    assert body("G C D", chords_a_bar=4) == ["1 4 5 /"]
    reading = read("Title\n\nG C D", chords_a_bar=2)
    assert "nothing says how long the chords last: two chords a bar" in told(reading)


def test_a_slip_is_told_at_its_place():
    """A chord with a slip in it is no word."""
    (fault,) = read("Title\n\nG  Cmaj7b5x  D\nla la la").faults
    assert (fault.line, fault.column) == (3, 4)


def test_tunings_shapes_and_capo_are_told():
    """Nothing is dropped without a word."""
    notices = told(read("Title\nTuning: EADGBE\nG 320003\nCapo 2\n\nG  C\nla  la"))
    assert [what for what in notices if "left out" in what] == [
        "'Tuning: EADGBE' is left out", "'G 320003' is left out",
    ]  # fmt: skip
    assert any("capo" in what for what in notices)
    assert any(
        "capo at 3" in what for what in told(read("T\nStandard tuning, capo 3rd fret\n\nG  C\nla  la"))
    )


def test_the_singer_s_sheet_has_each_chord_over_its_word():
    """The lyric sheet stands the chords over the words that they were typed over."""
    chart = read("Title\n\nG              C\nDown along the lantern road").chart
    (line,) = lyric_sheet(chart).blocks[0].lines
    over = {piece.word: piece.chord.letters for piece in line.pieces if piece.chord}
    assert list(over) == ["Down", "lantern"]


def test_the_door_of_letters_reads_it_too():
    """A sheet in letters without bar lines is told from one with them."""
    assert is_words_sheet(SHEET)
    assert not is_words_sheet("Title\n| G | C |\nla la\n")
    assert read_letter_chart(SHEET, "song.txt").chart == read(SHEET, None).chart


SONGS = pop_songs()


@pytest.mark.parametrize("inline", [False, True], ids=["over", "inline"])
def test_pop_songs_come_back_with_their_chords_and_sections(inline):
    """Written over invented words and read again, every fifth song has the same sections and chords.

    Source: chords annotated in the McGill Billboard project, ISMIR 2011 (tests/data/README.md).
    """
    for place in range(0, len(SONGS), 5):
        text, sections = over_words(SONGS[place], place, inline=inline)
        reading = read(text, "C")
        assert reading.faults == (), text
        chart = reading.chart
        assert [section.name for section in chart.sections] == [name for name, _ in sections]
        for section, (_, chords) in zip(chart.sections, sections, strict=True):
            played = [_played(bar, chart) for bar in section.bars]
            assert played == [_sound(chord) for chord in chords]
        assert parse(write_chart(chart)) == chart


def _played(bar, chart):
    (slot,) = bar.slots
    return None if slot.kind == "nc" else _of(to_letters(slot.chord, chart.numbering.one(chart.key)))


def _sound(name):
    return None if name == "N.C." else _of(read_letter_chord(name))


def _of(chord):
    """What a chord sounds like, since one far from the key may be spelled anew."""
    return chord.root.pitch_class, chord.quality, chord.bass and chord.bass.pitch_class


SUNG = st.text("abde flmoruy-'", min_size=1, max_size=12)
CHORDS = letter_chords().map(write_letters) | st.just("N.C.")


@settings(deadline=None)
@given(st.lists(st.tuples(CHORDS, SUNG, st.integers(1, 5)), min_size=1, max_size=6), st.integers(1, 4))
def test_every_word_and_chord_is_kept(line, a_bar):
    """Whatever stands over what: all chords come back in order, and all that is sung."""
    above = below = ""
    for chord, sung, gap in line:
        width = max(len(chord), len(sung)) + gap
        above, below = above + chord.ljust(width), below + sung.ljust(width)
    text = f"Title\n\nG\n\n[Verse]\n{above}\nx{below}"
    if not is_chord_line(above) or is_chord_line(f"x{below}"):
        return
    reading = read(text, chords_a_bar=a_bar)
    assert reading.faults == ()
    verse = reading.chart.sections[-1]
    assert sum(len(bar.slots) for bar in verse.bars) == len(line)
    sung = "".join(words for row in verse.lines for words in row.words)
    plain = str.maketrans("", "", " |-")
    assert sung.translate(plain) == f"x{below}".translate(plain)


FRAGMENTS = (
    *("G", "C", "Am", "D/F#", "N.C.", "[G]", "[C]la", "la", "road", "A", "Go", "x2", "(x3)", "/", "//", "%"),
    *("-", "|", "||", "[Verse]", "Chorus:", "(Chorus)", "Verse 2", "Capo 3", "Key: A", "by me", "\t", "  "),
    *("道", "\n", "\n", "\n", "\n\n", "[1.]", "(2/4)", "3/4", "D.S. al Coda", '"hey"', "<!--", "-->", "H7"),
    *("am", "*", "words:"),
)  # fmt: skip


@settings(deadline=None)
@given(st.lists(st.sampled_from(FRAGMENTS) | st.text(max_size=4), max_size=40).map(" ".join))
def test_any_text_gets_an_answer(sheet):
    """Nothing is raised; what is told stands in the text, and a sound chart is written and read the same."""
    is_words_sheet(sheet)
    lines = sheet.removeprefix("\ufeff").replace("\r\n", "\n").replace("\r", "\n").split("\n")
    for text in (sheet, f"Title\n\nG  C\nla la\n{sheet}"):
        reading = read(text, None)
        for fault in (*reading.faults, *reading.notices):
            assert fault.what
            assert 1 <= fault.column <= len(fault.text) + 1
        if not reading.faults:
            assert parse(write_chart(reading.chart)) == reading.chart
    assert lines


MANY = 10_000
HOSTILE = (
    *("G\n" * MANY, "G " * MANY, "G\nla\n" * MANY, "[G]la " * MANY, "[" * MANY, "[G" * MANY, "la\n" * MANY),
    *("G\n\nla\n\n" * (MANY // 2), "[A]\nG\n" * (MANY // 4), "G" + " " * MANY + "C\n" + "la" * MANY),
    *("G" * MANY, "Chorus\n" * MANY, "G C\n" + "e" * MANY, "( " * MANY, "repeat " * MANY),
    *("Intro" + " " * MANY + "x", "G  C\n" * 40 + "[A]\n" * MANY),
)  # fmt: skip


@pytest.mark.parametrize("sheet", HOSTILE, ids=lambda sheet: ascii(sheet[:12]))
def test_a_hostile_sheet_is_read_in_good_time(sheet):
    """Ten thousand of anything take no more than some seconds."""
    start = time.process_time()
    is_words_sheet(sheet)
    read(f"Title\n\nG  C\n{sheet}", None)
    assert time.process_time() - start < 8


@pytest.mark.parametrize(
    ("lines", "what"), [(1_000_000, "2.0 million characters"), (400_000, "400,001 lines")]
)
def test_a_text_that_is_too_long_is_refused(lines, what):
    """Before it is read, with the limit."""
    for reader in (read_words_sheet, read_letter_chart):
        start = time.process_time()
        (fault,) = reader("G\n" * lines, "song.txt").faults
        assert what in fault.what
        assert time.process_time() - start < 2
