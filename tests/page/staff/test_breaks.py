from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from fifthwise.page.staff.breaks import system_starts
from fifthwise.page.staff.model import StaffBar
from fifthwise.theory import read_key, read_metre

FOUR, C = read_metre("4/4"), read_key("C")


def _bar(*, opens=False, new_line=False, pickup=False):
    return StaffBar(FOUR, Fraction(1 if pickup else 4), C, opens=opens, new_line=new_line, pickup=pickup)


def _song(lines=2, size=4):
    return [
        _bar(opens=line == at == 0, new_line=at == 0) for line in range(lines) for at in range(size)
    ]  # fmt: skip


def test_a_line_that_fits_is_a_system():
    """Two lines of four bars are two systems, though six bars would fit."""
    assert system_starts(_song(), [10.0] * 8, 65) == [0, 4]


def test_a_line_that_does_not_fit_is_parted_evenly():
    """Four bars become two and two, not three and one."""
    assert system_starts(_song(), [10.0] * 8, 35) == [0, 2, 4, 6]


def test_a_pickup_stands_with_the_bar_that_it_leads_to():
    """It has no system of its own, and does not count as one of the line's bars."""
    bars = [_bar(opens=True, new_line=True, pickup=True), *_song(1)]
    bars[1] = _bar(new_line=True)
    assert system_starts(bars, [5.0] + [10.0] * 4, 60) == [0]
    assert system_starts(bars, [5.0] + [10.0] * 4, 30) == [0, 3]


def test_short_lines_of_a_section_share_a_system():
    """Two lines of two bars are one system where both fit; a new section begins its own."""
    assert system_starts(_song(2, 2), [10.0] * 4, 45) == [0]
    assert system_starts([*_song(1, 2), *_song(1, 2)], [10.0] * 4, 45) == [0, 2]


@given(
    st.lists(st.tuples(st.booleans(), st.booleans(), st.floats(1, 30)), min_size=1, max_size=40),
    st.floats(10, 100),
)
def test_no_system_is_too_full_unless_one_bar_is(drawn, room):
    """Every section begins a system, and none holds more than fits, save where a single bar is wider."""
    bars = [_bar(opens=opens or at == 0, new_line=line) for at, (opens, line, _) in enumerate(drawn)]
    widths = [width for _, _, width in drawn]
    starts = system_starts(bars, widths, room)
    assert {at for at, each in enumerate(bars) if each.opens} <= set(starts)
    for start, end in zip(starts, [*starts[1:], len(bars)], strict=True):
        assert end > start
        assert end - start == 1 or sum(widths[start:end]) <= room
