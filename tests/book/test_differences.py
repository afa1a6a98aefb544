"""Two texts made from a third, chosen place by place."""

from hypothesis import given
from hypothesis import strategies as st

from fifthwise.book import Choice, Difference, differences, merge_texts, merged_text, taken

LINES = st.lists(st.sampled_from(["1 | 4\n", "5\n", "\n", "# verse\n", "6-\r\n"]), max_size=8).map("".join)


def places(pieces):
    """The differences among the pieces."""
    return [piece for piece in pieces if isinstance(piece, Difference)]


@given(LINES, LINES, LINES)
def test_one_side_throughout_is_that_side(base, mine, theirs):
    """All mine is my text, all theirs is their text, whatever they were made from."""
    pieces = differences(base, mine, theirs)
    count = len(places(pieces))
    assert taken(pieces, ["mine"] * count) == mine
    assert taken(pieces, ["theirs"] * count) == theirs


@given(LINES, LINES, LINES)
def test_who_changed_what_is_what_a_merge_takes(base, mine, theirs):
    """Taking the side that changed, and mine where both did, is the merge with mine at each choice."""
    pieces = differences(base, mine, theirs)
    merged = merge_texts(base, mine, theirs)
    takes = ["theirs" if place.changed == "theirs" else "mine" for place in places(pieces)]
    assert taken(pieces, takes) == merged_text(merged, "mine")
    both = [place for place in places(pieces) if place.changed == "both"]
    assert len(both) == sum(isinstance(piece, Choice) for piece in merged)


def test_both_is_mine_and_then_theirs():
    """Neither loses its line's end."""
    pieces = differences("1\n2\n", "1\n3", "1\n4")
    assert taken(pieces, ["both"]) == "1\n3\n4"
