import pytest

from fifthwise.exchange import read_letter_chart
from tests.exchange.sheets import read, told

ONE_MISSING = "Each token is one felt beat here; 1 beat missing"
BARS_WANTED = "Put '|' between the bars, as in '| G | C D | Em |'"


@pytest.mark.parametrize(
    ("bars", "wanted"),
    [
        (
            "| C D Em |",
            "2:3: 3 chords cannot share 4 beats of 4/4 evenly. Say how long each lasts, as in 'C / D Em'",
        ),
        ("| G C / |", f"2:3: 3 tokens for the 4 beats of 4/4. {ONE_MISSING}, as in 'G C / /'"),
        ("| G | am7 |", "2:7: 'am7' is no chord. Did you mean 'Am7'?"),
        ("| G | H7 |", "2:7: 'H7' is no chord in English letters. Did you mean 'B7'?"),
        ("| G | 4 |", "2:7: '4' is a number among letters. Write the chord's letter"),
        ("| G | C. |", "2:7: 'C.' is not clear. Write dots apart, a beat each, as in 'C /'"),
        ("| G | Gsu4 |", "2:7: 'Gsu4' is no chord. Write it as in 'Bb7', 'Cm/Eb' or 'C7(b9)'"),
        ("| G | | C |", "2:5: this bar is empty. Write '%' to play the bar before again, or 'N.C.'"),
        ("| % | G |", "2:3: '%' has no bar before it. Write the chords"),
        ("| G | C % |", "2:9: '%' stands beside chords. Let it fill its bar alone, or write the chords"),
        (
            "| / / C / |",
            "2:3: the bar opens with '/', and no chord has been played. Write its chord, or 'N.C.'",
        ),
        ("| /B G |", "2:3: '/B' follows no chord. Write the chord too, as in 'D/F#'"),
        (
            "G D Em C",
            f"2:1: this line of chords has no bar lines. {BARS_WANTED}",
        ),
        (
            "[G]Down along the [D]road",
            f"2:1: chords stand among the words, without bars. {BARS_WANTED}",
        ),
        ("| G | [ |", "2:7: '[' does not belong here. Leave it out, or write '|' there"),
        ("| G :| C :|", "2:8: this ':|' has no '|:' to go back to. Open the repeat with '|:'"),
        (
            "|: G | C |",
            "2:1: the repeat is not closed before its section ends. Write ':|' after its last bar",
        ),
        (
            "| G :| C | x2",
            "2:12: 'x2' does not say which bars it repeats. Put '|:' and ':|' round them",
        ),
        ("| G | C | x40", "2:11: 'x40' is out of range. Write x2 to x32"),
        (
            "Time: 7/8\n| G |",
            "2:7: '7/8' does not say how its eighths are grouped. Name the groups, as in '7/8 2+2+3'",
        ),
        ("Tempo: 999\n| G |", "2:8: the tempo 999 is out of range. Write 20 to 400"),
        ("| G |\n[Intro]", "3:2: the section 'Intro' has no bars. Write its bars, or take the heading out"),
    ],
)
def test_a_fault_says_where_what_and_how_to_mend(bars, wanted):
    """Each has the place on the sheet, whether the sheet or the chart text made from it is at fault."""
    assert wanted in told(read(f"Title\n{bars}\n| G |" if "|" not in bars else f"Title\n{bars}").faults)


def test_all_faults_are_told_at_once():
    """In text order, and none that only follows from another."""
    faults = read("Title\n[Verse]\n| G | am | C ? D |\n[Chorus]\n| C D Em | H |").faults
    assert [(fault.line, fault.column) for fault in faults] == [(3, 7), (3, 14), (5, 3), (5, 12)]


def test_a_fault_shows_the_line_as_it_was_typed():
    """With a caret under what is at fault."""
    (fault,) = read("Title\n  [Intro]  |  G |  C D Em | ").faults
    assert str(fault).split("\n")[1:] == ["    [Intro]  |  G |  C D Em | ", "                     ^^^^^^"]


def test_a_sheet_without_key_and_chords_asks_for_the_key():
    """Nothing tells it; the other faults are told as well."""
    assert told(read("Title\n| am |", None).faults) == [
        "1:1: the chart does not say its key. Ask for it, as in '--key G', or add a line 'Key: G' at the top",
        "2:3: 'am' is no chord. Did you mean 'Am'?",
    ]


@pytest.mark.parametrize(
    ("sheet", "wanted"),
    [
        ("---\ntitle: T\nkey: G\n---\n1 | 4\n", "1:1: this is chart text already"),
        ("Title\n| 1 | 4 5 | 6- | 5/7 |", "2:3: this is number text: its chords are numbers"),
        ("Title\n| 1 |\n[Verse]\n| b7 | 5. |", "2:3: this is number text: its chords are numbers"),
    ],
)
def test_numbers_are_sent_to_check(sheet, wanted):
    """A chart that is in numbers already needs no import, and gets this one answer."""
    assert told(read(sheet).faults) == [f"{wanted}. Check it with 'fifthwise check', which reads numbers"]


@pytest.mark.parametrize("sheet", ["", "\n\n", "Title", "[Verse]\nla la la"])
def test_a_sheet_without_bars_says_so(sheet):
    """There is nothing to make a chart of."""
    assert [fault.what for fault in read(sheet).faults] == ["there are no bars of chords"]


@pytest.mark.parametrize("line", ["D.S. al Coda", "To Coda", "(Fine)", "D.C."])
def test_a_jump_on_a_line_of_its_own_is_not_sung(line):
    """It is a fault that says where it belongs; words such as 'fine weather' stay words."""
    sheet = "Blue Slip\nKey: G\n[Verse]\n| G | C |\nfine weather\n"
    assert read_letter_chart(sheet, "slip.txt").faults == ()
    [fault] = read_letter_chart(f"{sheet}{line}\n", "slip.txt").faults
    assert (fault.line, fault.what) == (6, f"'{line}' stands on a line of its own")
