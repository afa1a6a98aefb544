import pytest

from fifthwise.chart import read_chart, unfold
from tests.chart.texts import bars_of, chart_of, faults_of, only_fault, played, song


@pytest.mark.parametrize(
    ("text", "order"),
    [
        ("[segno] 1 | 4 [to coda] | 5 [ds al coda] | [coda] 6-", "1 4 5 1 4 6-"),
        ("1 | [segno] 4 | 5 [to coda] | 2- [ds al coda] | [coda] 6- | 1", "1 4 5 2- 4 5 6- 1"),
        ("1 | 4 [fine] | 5 [dc al fine]", "1 4 5 1 4"),
        ("1 | [segno] 4 [fine] | 5 [ds al fine]", "1 4 5 4"),
        ("1 | 4 [to coda] | 5 [dc al coda] | [coda] 6-", "1 4 5 1 4 6-"),
        # a repeat before the segno and one inside: once after the jump, with the last ending
        ("|: 1 :| [segno] 4 | 5 [to coda] | 2- [ds al coda] | [coda] 6-", "1 1 4 5 2- 4 5 6-"),
        ("[segno] |: 1 | 4 :| x3 | 5 [to coda] | 2- [ds al coda] | [coda] 6-", "1 4 1 4 1 4 5 2- 1 4 5 6-"),
        ("[segno] |: 1 | [1.] 4 :| [2.] 5 || 6- [fine] | 2- [ds al fine]", "1 4 1 5 6- 2- 1 5 6-"),
        ('[segno] 1 |: 4 :| vamp "go" | 5 [fine] | 2- [ds al fine]', "1 4 4 4 4 5 2- 1 4 5"),
        ("# a x2\n[segno] 1 | 4 [fine]\n# b\n5 [ds al fine]", "1 4 1 4 5 1 4"),
        # the jump stands in a repeat: it acts on the last pass
        ("[segno] 1 [fine] |: 4 | 5 [ds al fine] :|", "1 4 5 4 5 1"),
        # a coda section repeats once
        ("[segno] 1 [to coda] | 4 [ds al coda]\n# coda\n[coda] |: 5 :| x3 | 6-", "1 4 1 5 6-"),
        # two jumps, one after the other
        ("[segno] 1 | 4 [fine] | 5 [ds al fine]", "1 4 5 1 4"),
    ],
)
def test_a_jump_acts_once_and_the_signs_only_after_it(text, order):
    """After it each repeat, section and vamp is played once, with the last ending."""
    assert played(text) == order


def test_before_the_jump_to_coda_and_fine_do_nothing():
    """The first time through is the text from top to bottom."""
    assert played("1 [fine] | [segno] 4 [fine] | 5 [ds al fine]") == "1 4 5 4"


@pytest.mark.parametrize(
    "text",
    [
        "[segno] 1 [to coda] | 4 [ds al coda] | [coda] 5",
        "[Segno] 1 [To Coda] | 4 [D.S. al Coda] | [CODA] 5",
        "[segno] 1 [to  coda] | 4 [d.s. al coda] | [coda] 5",
    ],
)
def test_signs_are_read_in_any_letters(text):
    """D.S. is ds."""
    assert bars_of(text) == bars_of("[segno] 1 [to coda] | 4 [ds al coda] | [coda] 5")


def test_visits_differ_after_a_jump():
    """So that the second playing of a section has its own verses."""
    timeline = unfold(
        chart_of("# a\n[segno] 1 [to coda]\nwords: One\nwords: Two\n# b\n4 [ds al coda]\n# c\n[coda] 5")
    )
    assert [(bar.section_name, bar.visit) for bar in timeline.bars] == [
        ("a", 0),
        ("b", 1),
        ("a", 2),
        ("c", 3),
    ]
    assert [bar.verse for bar in timeline.bars] == [0, 0, 1, 0]


@pytest.mark.parametrize(
    ("text", "column", "what", "fix"),
    [
        ("1 | [coda] 4", 5, "'[coda]' without '[ds al coda]' or '[dc al coda]'", "Put '[ds al coda]' or"),
        (
            "1 [fine] | [segno] 2 | 4 [ds al fine]",
            26,
            "'[fine]' stands before '[segno]'",
            "Put it after the segno",
        ),
        ("1 [fine] | 4 [ds al fine]", 14, "'[ds al fine]' without '[segno]'", "Put '[segno]' before"),
        ("[segno] 1 | 4 [ds al fine]", 15, "'[ds al fine]' without '[fine]'", "Put '[fine]' after"),
        ("1 [dc al coda]", 3, "'[dc al coda]' without '[to coda]'", "Put '[to coda]' after"),
        ("[segno] 1 | [segno] 4 [fine] | 5 [ds al fine]", 13, "'[segno]' stands twice", "Keep one of them"),
    ],
)
def test_signs_that_lead_nowhere_are_faults(text, column, what, fix):
    """Each says what it lacks, at the sign."""
    assert (1, column, what) in faults_of(text)
    fixes = [fault.fix for fault in read_chart(song(text)).faults if fault.what == what]
    assert fixes[0].startswith(fix)


def test_a_coda_without_its_jump_and_segno_tells_all_that_is_missing():
    """All at once."""
    assert [what for _, _, what in faults_of("1 [to coda] | 4 [ds al coda]")] == [
        "'[to coda]' without '[coda]'",
        "'[ds al coda]' without '[segno]'",
        "'[ds al coda]' without '[coda]'",
    ]


@pytest.mark.parametrize("mark", ["[to coda]", "[fine]", "[ds al coda]", "[dc al fine]"])
def test_signs_after_a_bar_stand_after_its_last_token(mark):
    """Before it they are in the wrong place, between tokens a chord follows them."""
    assert (1, 5, f"'{mark}' stands in the wrong place") in faults_of(f"1 | {mark} 4")
    assert (1, 7, f"a chord follows '{mark}'") in faults_of(f"1 | 4 {mark} 5")


def test_each_misplaced_sign_of_a_line_has_its_own_place():
    """The second is not taken for the first."""
    assert (1, 14, "a chord follows '[fine]'") in faults_of("1 [fine] | 4 [fine] 5 | 1 [dc al fine]")


def test_one_bar_holds_one_jump():
    """Which of two is meant is not guessed."""
    found = faults_of("[segno] 1 [fine] | 4 [dc al fine] [ds al fine]")
    assert found == [(1, 35, "'[ds al fine]' stands beside another of its kind")]


def test_a_chart_with_a_form_holds_no_navigation():
    """The form says the playing order; each sign is told."""
    found = faults_of("# a\n[segno] 1 [fine] | 4 [ds al fine]", form="a")
    assert [(line, column) for line, column, _ in found] == [(2, 1), (2, 11), (2, 22)]
    assert all(what.endswith("stands beside a form") for _, _, what in found)


def test_a_sign_that_the_jump_never_meets_is_a_fault_at_the_jump():
    """In a first ending, which is not played after the jump."""
    fault = only_fault("[segno] |: 1 | [1.] 4 [fine] :| [2.] 5 || 6- [ds al fine]")
    assert (fault.line, fault.column) == (5, 43)
    assert fault.what == "after the jump the song never meets its '[fine]'"


@pytest.mark.parametrize(
    ("text", "near"),
    [("[sengo] 1", "[segno]"), ("[codaa] 1", "[coda]"), ("1 [to coda", None), ("[pikup 1] 1", "[pickup 1]")],
)
def test_a_mark_misspelt_names_its_neighbour(text, near):
    """Or says that it is not closed."""
    fault = only_fault(text)
    assert fault.fix == (f"Did you mean '{near}'?" if near else "End it with ']'")
