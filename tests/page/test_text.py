"""What a song's plain text page must hold, and where."""

import pytest

from fifthwise.chart import parse
from fifthwise.page.layout import lay_out
from fifthwise.page.layout_view import PagePart, PageView
from fifthwise.page.text import text_page
from fifthwise.page.text_signs import printed_prose
from fifthwise.theory import Interval

SONG = """---
title: Paper Lantern Road
key: Eb
tempo: 96
form: intro, verse, intro
---
# intro "drums"
|: 1 | 4 | 6- | 5/7 :|

# verse "@fiddle chops"
6-7.push | b7 / 5sus 1 | 4maj7.stop | [1.] 1.hold :| [2.] 2-7 5
"""


def lines(text=SONG, columns=4, **view):
    """A song's page, line by line."""
    return text_page(lay_out(parse(text), PageView(**view), columns=columns)).splitlines()


def bar_lines(rows):
    """The places of the bar lines in the rows of numbers."""
    return [
        [place for place, sign in enumerate(row) if sign == "|"]
        for row in rows
        if row.lstrip().startswith("|") and not row.lstrip().startswith("||")
    ]


@pytest.mark.parametrize("columns", [1, 2, 4])
def test_bar_lines_stand_under_each_other(columns):
    """Every bar line of every row stands in a column of the first full row."""
    found = bar_lines(lines(columns=columns))
    full = set(max(found, key=len))
    assert len(found) > 1
    assert all(set(row) <= full for row in found)


def test_letters_begin_under_their_numbers():
    """Each letter chord starts in the column of its number."""
    rows = lines()
    place = next(i for i, row in enumerate(rows) if "|: 1" in row)
    numbers, letters = rows[place], rows[place + 1]
    for number, letter in (("1", "E♭"), ("4", "A♭"), ("6–", "Cm"), ("5/7", "B♭/D")):
        assert numbers.index(number) == letters.index(letter)


def test_the_head_says_key_facts_strip_and_form():
    """Title, key, metre, tempo, tonight's four chords and the way through the song."""
    head = "\n".join(lines(singer="Maren")[:6])
    for part in ("Paper Lantern Road", "Key E♭", "4/4", "96", "Maren sings", "1 = E♭", "6– = Cm"):
        assert part in head
    assert "Form: Intro, Verse, Intro" in head


def test_marks_are_signs_and_each_is_explained():
    """Push, stop, held chord and further beats are written; the used signs are named at the end."""
    text = "\n".join(lines())
    for written in ("<6–7", "▼4△7", "◇1", "♭7 /", ":|", "[1.]", "[2.]"):
        assert written in text
    signs = lines()[-1]
    for sign in ("< an eighth early", "▼ struck short", "◇ let ring", "/ one more beat"):
        assert sign in signs
    assert "late" not in signs


def test_a_players_cue_stands_on_that_players_page_alone():
    """The fiddle's cue is the fiddle's; everyone's is everyone's."""
    assert "chops" not in "\n".join(lines())
    assert "chops" in "\n".join(lines(part=PagePart("Violin", names=("fiddle",))))
    assert '"drums"' in "\n".join(lines())


def test_the_second_ending_begins_under_the_first():
    """Both endings' labels stand in the same column."""
    rows = lines()
    first, second = (next(row for row in rows if label in row) for label in ("[1.]", "[2.]"))
    assert first.index("[1.]") == second.index("[2.]")


def test_words_stand_under_their_bars():
    """Words that name their bars begin where the bars begin."""
    text = SONG.replace("5/7 :|\n", "5/7 :|\nwords: one | two | three | four\n")
    rows = lines(text, words=True)
    place = next(i for i, row in enumerate(rows) if "|: 1" in row)
    words = next(row for row in rows if "three" in row)
    assert words.index("three") == rows[place].index("6–")


def test_long_cues_do_not_run_into_each_other():
    """Two long cues over neighbouring bars stand on lines of their own, whole."""
    text = SONG.replace("| 4 |", '| "a rather long thing to say to a band" 4 | "and another one" ')
    rows = lines(text)
    assert any("a rather long thing to say to a band" in row and "another" not in row for row in rows)
    assert any("and another one" in row for row in rows)


def test_a_tune_is_written_as_the_chart_text_writes_it():
    """A token a beat, divided beats in brackets, octaves by marks."""
    text = SONG.replace("5/7 :|\n", "5/7 :|\ntune: 5, - (2 1) 2 | 3_ 5 0 0 | {b3}3 /4 6&1' x | - - 1 -\n")
    row = next(row for row in lines(text, tune=True) if "5," in row)
    for bar in ("5, - (2 1) 2", "3_ 5 0 0", "{♭3}3 /4 6&1' x"):
        assert bar in row


def test_a_pickups_words_lead_into_the_first_bar():
    """Words under the pickup stand before the first bar's, each verse with its own."""
    text = (
        SONG.split("# verse")[0].replace("form: intro, verse, intro\n", "")
        + """# verse
[pickup 2] 0
tune: 5, 6,
words: You can
words: There's a
1 | 4
words: walk out | low
words: bell down | deep
"""
    )
    rows = lines(text, words=True, tune=True)
    assert any("You can walk out" in row and "low" in row for row in rows)
    assert any("There's a bell down" in row and "deep" in row for row in rows)


def test_a_beat_s_long_and_short_notes_are_told_apart():
    """In six eighths a long and a short note, and one that rings on past its beat."""
    text = "---\ntitle: Six\nkey: C\nmeter: 6/8\n---\n1 | 4\ntune: (2 - 3) 1 | (4 5 b6) -\n"
    (row,) = (row for row in lines(text, tune=True) if "(2" in row)
    assert "(2 - 3) 1" in row
    assert "(4 5 ♭6) -" in row


def test_the_tempo_names_its_note_and_the_key_is_the_players():
    """A stranger counts dotted quarters; a horn reads its own key first."""
    text = "---\ntitle: Six\nkey: C\nmeter: 6/8\ntempo: 52\n---\n1 | 4\n"
    assert "52 to the dotted quarter" in "\n".join(lines(text))
    horn = PagePart("Trumpet in B♭", Interval(2, -1))
    assert "Key D (sounds C)" in "\n".join(lines(text, part=horn))


def test_a_metre_for_one_bar_says_so():
    """So that nobody stays in it."""
    text = "---\ntitle: Odd\nkey: C\n---\n1 | [2/4] 4 | 1\n"
    assert "(2/4) this bar only" in "\n".join(lines(text))


@pytest.mark.parametrize(
    ("told", "printed"),
    [
        ("Bbm was called", "B♭m was called"),
        ("best: Ab, F#m", "best: A♭, F♯m"),
        ("Abbey Ab4 Abms", "Abbey A♭4 Abms"),
    ],
)
def test_names_in_a_sentence_are_printed(told, printed):
    """Notes, pitches and minor keys get true accidentals, words keep their letters."""
    assert printed_prose(told) == printed
