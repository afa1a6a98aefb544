"""What a singer's page must say, and in which order."""

import io
import json
from pathlib import Path

import pypdf
import pytest
import typst

from fifthwise.chart import parse, rekey
from fifthwise.page.lyrics import lyric_sheet
from fifthwise.page.lyrics_record import lyrics_record
from fifthwise.page.lyrics_spread import syllables
from fifthwise.page.lyrics_text import lyrics_text
from fifthwise.theory import read_note, read_pitch

PAGE = Path(__file__).parents[2] / "src/fifthwise/page"
FONTS = PAGE / "fonts"
HEAD = "---\ntitle: Second Ferry Home\nkey: Bb\ntempo: 104\n"
SONG = (
    HEAD
    + """octave: 4
form: intro, verse 1, chorus, verse 2, chorus, [key +2], chorus
---
# intro "fiddle alone"
|: 1 | 4 :|
tune: 1 2 3 4 | 5 - - -

# verse "@fiddle chops"
[pickup 1] 0
tune: 5,
1 | 1/3 | 4 | 4 5
words: The last boat | lamp is | swinging | over foam
words: My coat is | full of | feathers and | my stone

# chorus "@all everyone sings"
"hold back" 6-7 | b7 | 4maj7 | 5sus 5
words: Row me to the harbour where the people wait
"""
)


def song(text=SONG):
    """The song that most tests sing."""
    return parse(text)


def over(line):
    """Words with what stands over them: (word, number), in order."""
    return [(piece.word, piece.chord.number if piece.chord else "") for piece in line.pieces]


def test_blocks_stand_in_playing_order_with_their_verses():
    """The form decides the order, and each verse has its own words."""
    blocks = lyric_sheet(song()).blocks
    names = [block.name for block in blocks]
    assert names == ["Intro", "Verse 1", "Chorus", "Verse 2", "Chorus", "Chorus"]
    first_words = [next((p.word for line in b.lines for p in line.pieces if p.word), "") for b in blocks]
    assert first_words == ["", "The", "Row", "My", "Row", "Row"]


def test_a_repeat_that_brings_the_next_verse_is_written_out():
    """Two verses under one repeated line become two blocks; one verse twice is written once."""
    two = song(HEAD + "---\n# verse\n|: 1 | 4 :|\nwords: one here\nwords: two there\n")
    assert [block.name for block in lyric_sheet(two).blocks] == ["Verse 1", "Verse 2"]
    same = lyric_sheet(song(HEAD + "---\n# verse\n|: 1 | 4 :|\nwords: one here\n")).blocks
    assert [(block.times, len(block.lines)) for block in same] == [(2, 1)]


def test_bars_in_the_words_hold_their_chords():
    """Where the words say where their bars are, a bar's first chord stands over the bar's first word."""
    verse = lyric_sheet(song()).blocks[1]
    assert over(verse.lines[0]) == [
        ("The", "1"),
        ("last", ""),
        ("boat", ""),
        ("lamp", "1/3"),
        ("is", ""),
        ("swinging", "4"),
        ("over", "4"),
        ("foam", "5"),
    ]


def test_a_chord_reaches_as_far_as_the_next():
    """The first chord of the verse may reach over three words, the last over its own."""
    assert lyric_sheet(song()).blocks[1].lines[0].rooms == (13, 9, 4, 7, 2, 8, 4, 4)


def test_words_without_bars_take_every_chord_in_order():
    """Each chord stands over a word of its own, in order, the first over the first."""
    line = lyric_sheet(song()).blocks[2].lines[0]
    assert [chord for _, chord in over(line) if chord] == ["6–7", "♭7", "4△7", "5sus", "5"]
    assert all(word for word, _ in over(line))
    assert over(line)[0] == ("Row", "6–7")


def test_more_chords_than_words_are_all_kept():
    """Chords for which no word is left stand after the last one."""
    text = HEAD + "---\n# tag\n1 4 | 5 1\nwords: home\n"
    line = lyric_sheet(song(text)).blocks[0].lines[0]
    assert [chord for _, chord in over(line)] == ["1", "4", "5", "1"]


def test_words_follow_the_notes_where_a_tune_is_written():
    """Five notes in the first bar and one in the second put the second chord over the sixth syllable."""
    text = HEAD + "---\n# verse\n1 | 4\ntune: 1 1 1 (1 1) | 5 - - -\nwords: a b c d e far\n"
    assert over(lyric_sheet(song(text)).blocks[0].lines[0])[-1] == ("far", "4")


def test_the_starting_note_is_the_first_that_is_sung():
    """The fiddle's hook does not count; the pickup before the verse does, in its octave."""
    assert lyric_sheet(song()).start == "Starts on F4, the 5"


def test_the_starting_note_follows_the_key_and_the_singer():
    """In another key it moves along, and the 1 that a singer's key settled takes precedence."""
    in_g = rekey(song(), read_note("G"))
    assert lyric_sheet(in_g).start == "Starts on D4, the 5"
    assert lyric_sheet(in_g, one=read_pitch("G3")).start == "Starts on D3, the 5"


def test_a_floating_tune_names_no_octave():
    """Without an octave in the head the note alone is said, and no reach."""
    sheet = lyric_sheet(song(SONG.replace("octave: 4\n", "")))
    assert (sheet.start, sheet.reach) == ("Starts on F, the 5", "")


def test_a_song_without_a_tune_names_no_note():
    """Nothing is made up where no tune is written."""
    sheet = lyric_sheet(song(HEAD + "---\n1 | 4\nwords: one two\n"))
    assert (sheet.start, sheet.reach) == ("", "")


def test_cues_for_everyone_and_for_the_singer_are_printed():
    """Another player's cues are not."""
    text = SONG.replace("# chorus", '# chorus "@maren with a smile"')
    blocks = lyric_sheet(song(text), singer="Maren").blocks
    assert blocks[0].cues == ("fiddle alone",)
    assert blocks[1].cues == ()
    assert blocks[2].cues == ("with a smile", "everyone sings")
    assert blocks[2].lines[0].pieces[0].cue == "hold back"


def test_a_lifted_chorus_says_its_key_and_moves_its_letters():
    """The last chorus is a whole step up: its key is named, its numbers stay, its letters move."""
    before, lifted = lyric_sheet(song()).blocks[-2:]
    assert (before.key, lifted.key) == ("", "C")
    assert [p.chord.number for p in before.lines[0].pieces if p.chord] == [
        p.chord.number for p in lifted.lines[0].pieces if p.chord
    ]
    assert before.lines[0].pieces[0].chord.letters == "Gm7"
    assert lifted.lines[0].pieces[0].chord.letters == "Am7"
    assert lifted.again


def test_the_text_sheet_sets_chords_over_their_words():
    """In plain text each chord begins in the column of its word, whatever is between."""
    rows = lyrics_text(lyric_sheet(song())).splitlines()
    place = next(i for i, row in enumerate(rows) if "The last boat" in row)
    chords, words = rows[place - 1], rows[place]
    for chord, word in (("| 1/3", "lamp"), ("| 4", "swinging"), ("5", "foam")):
        assert chords.find(chord) == words.find(word)


@pytest.mark.parametrize(
    ("word", "count"), [("harbour", 2), ("the", 1), ("late", 1), ("people", 2), ("🎻", 1)]
)
def test_syllables_are_counted_about_right(word, count):
    """Groups of vowels, a silent e left out, and never none."""
    assert syllables(word) == count


HARNESS = """#import "lyrics.typ": lyrics-page
#set document(title: "Words")
#set page(paper: sys.inputs.paper, margin: (x: 16mm, top: 12mm, bottom: 14mm))
#set text(font: ("Atkinson Hyperlegible Next", "fifthwise Signs"), lang: "en")
#lyrics-page(json(bytes(sys.inputs.data)))
"""


def printed(record, form, paper="a4", **more):
    """Print one record with our fonts alone, ``lyrics.typ`` beside a page that calls it."""
    fonts = typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[FONTS])
    files = {"main.typ": HARNESS.encode(), "lyrics.typ": (PAGE / "lyrics.typ").read_bytes()}
    inputs = {"data": json.dumps(record), "paper": paper}
    return typst.compile(files, format=form, font_paths=fonts, sys_inputs=inputs, **more)


@pytest.mark.parametrize("show", ["numbers", "letters", "both"])
@pytest.mark.parametrize("paper", ["a4", "us-letter"])
def test_the_sheet_prints_on_one_tagged_page(show, paper):
    """A song of six blocks stands on one page, and the file passes for accessible PDF."""
    record = lyrics_record(lyric_sheet(song(), singer="Maren"), show=show)
    assert not isinstance(printed(record, "png", paper), list)
    assert printed(record, "pdf", paper, pdf_standards=["ua-1"], timestamp=0).startswith(b"%PDF")


def test_a_long_song_leaves_out_what_comes_again_before_it_shrinks():
    """Twenty choruses still print; words that look like commands stay words."""
    text = (
        HEAD
        + "form: verse x20\n---\n# verse\n"
        + "1 | 4 | 5 | 1\nwords: #panic() *bold* <b> $x$ \\ there\n" * 6
    )
    record = lyrics_record(lyric_sheet(song(text)))
    assert printed(record, "pdf", pdf_standards=["ua-1"], timestamp=0).startswith(b"%PDF")


def test_a_word_parted_at_a_bar_is_one_word():
    """``lan-`` and ``tern`` are joined without the hyphen, and the chord stays over the second half."""
    text = HEAD + "---\n# verse\n1 | 5/7\nwords: left the lan- | tern burning\n"
    pieces = lyric_sheet(song(text)).blocks[0].lines[0].pieces
    assert [(piece.word, piece.joins) for piece in pieces[2:4]] == [("lan", True), ("tern", False)]
    assert pieces[3].chord.number == "5/7"
    assert "the lantern burning" in lyrics_text(lyric_sheet(song(text)))
    made = io.BytesIO(printed(lyrics_record(lyric_sheet(song(text))), "pdf"))
    assert "lan-" not in pypdf.PdfReader(made).pages[0].extract_text()


def test_a_hyphen_without_the_rest_of_its_word_stays():
    """At the end of a line, before bars without words and after a dash nothing is joined."""
    text = HEAD + "---\n# verse\n1 | 4 | 5\nwords: oh - well to- | | day to-\n"
    words = [piece.word for piece in lyric_sheet(song(text)).blocks[0].lines[0].pieces]
    assert words == ["oh", "-", "well", "to-", "", "day", "to-"]


def test_an_open_vamp_is_written_once_and_not_counted():
    """Nobody counts a vamp: its bars stand once, with what ends it."""
    text = HEAD + '---\n# groove\n|: 1 | 4 :| vamp "till the singer looks up"\n'
    block = lyric_sheet(song(text)).blocks[0]
    assert (block.times, block.length, len(block.lines)) == (1, 2, 1)
    assert block.cues == ("open, till the singer looks up",)
    assert "times" not in lyrics_text(lyric_sheet(song(text)))


def test_what_changes_is_told_where_it_changes():
    """Metre, tempo, feel and key stand over their bar, at a section's start in its heading."""
    text = (
        HEAD
        + "---\n# verse\n1 | [meter 3/4] [tempo 76] 4 | [2/4] 5 | [feel half-time] 1 | [key C] 1\n"
        + "words: one | two | three | four | five\n\n# chorus\n1 | 4\nwords: six | seven\n"
    )
    verse, chorus = lyric_sheet(song(text)).blocks
    assert [piece.cue for piece in verse.lines[0].pieces] == [
        "", "3/4, tempo 76", "2/4", "half-time", "now in C",
    ]  # fmt: skip
    assert (chorus.cues, chorus.key) == (("4/4, tempo 104, straight",), "B♭")


def test_bars_without_words_are_counted_among_words():
    """A line of bars that nobody sings says how many they are."""
    text = HEAD + "---\n# verse\n1 | 4\nwords: one | two\n1 | 4\n"
    sheet = lyric_sheet(song(text))
    assert [line.bars for line in sheet.blocks[0].lines] == [2, 2]
    assert "(2 bars)" in lyrics_text(sheet)
    made = io.BytesIO(printed(lyrics_record(sheet), "pdf"))
    assert "2 bars" in pypdf.PdfReader(made).pages[0].extract_text()


def test_notes_are_spelled_in_tonights_key_as_called():
    """Where C flat was called, a 1 that the singer's keys name B is C flat."""
    sheet = lyric_sheet(rekey(song(), read_note("Cb")), one=read_pitch("B3"))
    assert (sheet.key, sheet.start) == ("C♭", "Starts on G♭3, the 5")


@pytest.mark.parametrize("verses", [1, 4, 8])
def test_no_word_is_lost_however_long_the_song_is(verses):
    """Long lines are parted, columns are made, and at last a page is turned; every word stays."""
    lines = "".join(
        f"1 | 4 | 6-7 5/7 | 1\nwords: down by the harbour w{i} | under the lamplight x{i}"
        f" | nobody's hurrying y{i} | home again z{i}\n"
        for i in range(6)
    )
    form = ", ".join(["verse"] * verses)
    text = HEAD + f"form: {form}\n---\n# verse\n{lines}"
    pages = pypdf.PdfReader(io.BytesIO(printed(lyrics_record(lyric_sheet(song(text))), "pdf"))).pages
    said = " ".join(page.extract_text() for page in pages).replace("\n", " ")
    assert all(f"{mark}{i}" in said for mark in "wxyz" for i in range(6))
    assert len(pages) == 1
