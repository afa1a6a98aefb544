import pytest

from tests.exchange.sheets import numbers, read, told


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("| G | C D | Em7 / D / | D/F# |", "1 | 4 5 | 6-7 5 | 5/7"),
        ("G | C", "1 | 4"),
        ("| G / / C |", "1 / / 4"),
        ("| G . . C |", "1 / / 4"),
        ("| G - - C |", "1 / / 4"),
        ("| G/// | C// D |", "1 | 4 / / 5"),
        ("| G // C |", "1 / / 4"),
        ("| G / / (C D) |", "1 / / (4 5)"),
        ("| G C | / / D / |", "1 4 | 4 5"),
        ("| G | % | . | // | 𝄎 |", "1 | % | % | % | %"),
        ("| G | N.C. | NC | (N.C.) |", "1 | NC | NC | NC"),
        ("| Em /D | C/G /E |", "6- 6-/5 | 4/1 4/6"),
        ("| [G] | [C] [D] |", "1 | 4 5"),
        ("| G, D | Em; C |", "1 5 | 6- 4"),
        ("| G.hold | C.push |", "1.hold | 4.push"),
    ],
)
def test_beats_and_repeated_bars(typed, wanted):
    """Slashes, dots and dashes are beats; signs for the bar before and for no chord are known.

    Source: common practice on chord sheets.
    """
    assert numbers(typed) == [wanted]


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("B♭ | F♯m7", "b3 | 7-7"),
        ("Cmaj7 | CM7 | CΔ | CΔ7 | Cma7", "4maj7 | 4maj7 | 4maj7 | 4maj7 | 4maj7"),
        ("C2 | Cadd9 | Csus2 | Csus | Csus4", "4(add9) | 4(add9) | 4sus2 | 4sus | 4sus"),
        ("Cm7b5 | Cø | Cø7 | C-7b5", "4ø7 | 4ø7 | 4ø7 | 4ø7"),
        ("C°7 | Cdim7 | Co7 | C° | Cdim", "4o7 | 4o7 | 4o7 | 4o | 4o"),
        ("C6/9 | C69 | C6", "469 | 469 | 46"),
        ("C7(b9, #11) | C7b9#11", "47(b9 #11) | 47(b9 #11)"),
        ("C5 | C+ | Caug | C(no3)", "4(5) | 4+ | 4+ | 4(5)"),
        ("Cm(maj7) | C-7 | Cmin7", "4-maj7 | 4-7 | 4-7"),
    ],
)
def test_chords_in_their_many_ways_of_writing(typed, wanted):
    """The same chord is one number, however it is typed; in G a C is the 4.

    Source: common practice on chord sheets.
    """
    assert numbers(f"| {typed} |") == [wanted]


@pytest.mark.parametrize(
    ("typed", "wanted"),
    [
        ("|: G | C :|", "|: 1 | 4 :|"),
        ("|: G | C :| x3", "|: 1 | 4 :| x3"),
        ("|: G | C :| x2 | D | Em", "|: 1 | 4 :| 5 | 6-"),
        ("|: G | C :| 3x D | Em", "|: 1 | 4 :| x3 5 | 6-"),
        ("𝄆 G | C 𝄇", "|: 1 | 4 :|"),
        ("|: G :|: C :|", "|: 1 :| |: 4 :|"),
        ("| G | C | x2", "|: 1 | 4 :|"),
        ("| G | C | (x4)", "|: 1 | 4 :| x4"),
        ("G | C  x2", "|: 1 | 4 :|"),
        ("|: G | C | x2", "|: 1 | 4 :|"),
        ("| G | C |]", "1 | 4 ||"),
        ("|: G | 1. C :|2. D ||", "|: 1 | [1.] 4 :| [2.] 5 ||"),
        ("|: G |[1.] C :|[2.] D ||", "|: 1 | [1.] 4 :| [2.] 5 ||"),
        ("|: G |1 C :|2 D ||", "|: 1 | [1.] 4 :| [2.] 5 ||"),
        ("|: G |[1 C :|[2 D ||", "|: 1 | [1.] 4 :| [2.] 5 ||"),
        ("|: G |1.,2. C :|3. D ||", "|: 1 | [1. 2.] 4 :| [3.] 5 ||"),
        ("|: G |[1-3] C :|[4] D ||", "|: 1 | [1. 2. 3.] 4 :| [4.] 5 ||"),
        ("|: G |[1st time] C :|[2nd time] D ||", "|: 1 | [1.] 4 :| [2.] 5 ||"),
    ],
)
def test_repeats_and_endings(typed, wanted):
    """Repeat signs, ``x2`` behind a line or a repeat, and endings in their ways of writing."""
    assert numbers(typed) == [wanted]


def test_x2_on_a_line_of_its_own_repeats_the_line_above():
    """It closes the repeat that is open, or repeats the line."""
    assert numbers("| G | C |\nx2") == ["|: 1 | 4 :|"]
    assert numbers("|: G | C |\n| D |\n(x3)") == ["|: 1 | 4", "5 :| x3"]


def test_a_repeat_may_run_over_lines():
    """``|:`` and ``:|`` may stand on lines of their own."""
    assert numbers("|:\n| G | C |\n| D |\n:|") == ["|: 1 | 4", "5 :|"]


def test_a_bar_is_written_out_where_chart_text_has_no_sign_for_it():
    """At the start of a section, or of an ending, ``%`` is the bar before in chords."""
    assert numbers("[A]\n| G | (2/4) C D |\n[B]\n| % | G |") == [
        "# A",
        "1 | [2/4] 4 5",
        "# B",
        "[2/4] 4 5 | 1",
    ]
    assert numbers("|: G | % |1. % :|2. C |") == ["|: 1 | % | [1.] 1 :| [2.] 4"]


def test_a_metre_in_brackets_is_for_one_bar():
    """Without brackets it holds from there on, through the sections, and a notice says so."""
    assert numbers("| G | (2/4) C | [3/4] D | Em |") == ["1 | [2/4] 4 | [3/4] 5 | 6-"]
    sheet = "Title\n[A]\n| G | 3/4 C | D |\n[B]\n| G |"
    assert numbers(sheet.removeprefix("Title\n")) == ["# A", "1 | [meter 3/4] 4 | 5", "# B", "[meter 3/4] 1"]
    assert told(read(sheet).notices) == [
        "3:7: 3/4 holds from this bar on. Write '(3/4)' where it is for one bar only"
    ]


def test_a_change_in_an_ending_is_stated_again_after_it():
    """What holds on the sheet holds after the ending too, where chart text lets it end."""
    assert numbers("|: G |1. [key A] A :|2. E | A |") == [
        "|: 1 | [1.] [key A] 1 :| [2.] [key A] 5 | 1",
    ]


def test_words_at_the_end_of_a_line_are_a_cue():
    """They are kept, and a notice says so; words in quotes are a cue anyway."""
    assert numbers('| G | "drums in" C |') == ['1 | "drums in" 4']
    assert numbers("| G | C | (let ring)") == ['1 | 4 "let ring"']
    assert told(read("Title\n| G | let it ring").notices) == [
        "2:7: 'let it ring' is kept as a cue. Put it in quotes, or leave it out"
    ]


def test_jumps_are_known():
    """Words and signs of navigation; a section called coda is where the jump leads."""
    sheet = "| 𝄋 G | C  To Coda | D | D.S. al Coda\n[Coda]\n| G | Em |"
    assert numbers(sheet) == ["[segno] 1 | 4 [to coda] | 5 [ds al coda]", "# Coda", "[coda] 1 | 6-"]
