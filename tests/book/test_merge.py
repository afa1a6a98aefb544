"""Texts compared and brought together, as laws."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from fifthwise.book import Agreed, Choice, DiffLine, merge_texts, merged_text
from fifthwise.book.compare import compare_texts
from fifthwise.book.lines import lines_of

LINES = ("1 4\n", "5 1\n", "6-\n", "\n", "5 1\r\n")


def texts():
    """Texts of few different lines, so that many meet; some without an end, some with other ends."""
    lines = st.lists(st.sampled_from(LINES), max_size=8).map("".join)
    return st.tuples(lines, st.sampled_from(["", "2-", "1 4"])).map("".join)


@given(texts(), texts())
def test_who_changed_nothing_takes_the_others_text(base, other):
    """Whichever side that is; and what both did alike is done."""
    agreed = (Agreed(other),) if other else ()
    assert merge_texts(base, base, other) == agreed
    assert merge_texts(base, other, base) == agreed
    assert merge_texts(base, other, other) == agreed


@given(texts(), texts(), texts())
def test_sides_may_be_swapped(base, mine, theirs):
    """The same pieces come, each choice the other way round."""
    swapped = tuple(
        piece if isinstance(piece, Agreed) else Choice(piece.base, piece.theirs, piece.mine)
        for piece in merge_texts(base, theirs, mine)
    )
    assert swapped == merge_texts(base, mine, theirs)


@given(texts(), texts(), texts())
def test_no_line_is_lost(base, mine, theirs):
    """Choosing a side keeps each line that it added, whatever the other took out; none comes from nowhere."""
    pieces = merge_texts(base, mine, theirs)
    for side, text in (("mine", mine), ("theirs", theirs)):
        kept = merged_text(pieces, side)
        for line in lines_without_ends(text):
            assert count(kept, line) >= count(text, line) - count(base, line)
        assert lines_without_ends(kept) <= lines_without_ends(mine) | lines_without_ends(theirs)


def lines_without_ends(text):
    """The different lines of a text."""
    return {line.rstrip() for line in lines_of(text)}


def count(text, line):
    """How often a text has a line, whatever its end."""
    return [one.rstrip() for one in lines_of(text)].count(line)


@given(texts(), texts(), texts())
def test_a_choice_is_one(base, mine, theirs):
    """Both sides changed it, differently; and no two agreed pieces stand side by side."""
    pieces = merge_texts(base, mine, theirs)
    for piece in pieces:
        assert isinstance(piece, Agreed) or len({piece.base, piece.mine, piece.theirs}) == 3
    agreed = [isinstance(piece, Agreed) for piece in pieces]
    assert not any(one and after for one, after in pairwise(agreed))


def test_changes_in_different_places_need_no_choice():
    """Only what both changed is asked about."""
    base = "title\n1 4\n5 1\n6- 4\n"
    mine, theirs = base.replace("1 4", "1 4maj7"), base.replace("6- 4", "6- 2-")
    assert merge_texts(base, mine, theirs) == (Agreed("title\n1 4maj7\n5 1\n6- 2-\n"),)
    theirs = theirs.replace("1 4", "1 2-")
    assert merge_texts(base, mine, theirs) == (
        Agreed("title\n"), Choice("1 4\n", "1 4maj7\n", "1 2-\n"), Agreed("5 1\n6- 2-\n"),
    )  # fmt: skip


@given(texts(), texts())
def test_both_texts_can_be_read_off_the_comparison(one, other):
    """Each line stands once on its side, in order, under its number."""
    compared = compare_texts(one, other)
    for text, side, kinds in ((one, "one", "same less"), (other, "other", "same more")):
        here = [line for line in compared if line.kind in kinds.split()]
        assert [line.text for line in here] == [line.rstrip("\r\n") for line in lines_of(text)]
        assert [getattr(line, side) for line in here] == list(range(1, len(here) + 1))


def test_a_changed_line_stands_as_less_and_more():
    """The old one first, each with its number."""
    assert compare_texts("a\nb\n", "a\nc\n") == (
        DiffLine("same", "a", 1, 1), DiffLine("less", "b", 2, None), DiffLine("more", "c", None, 2),
    )  # fmt: skip
