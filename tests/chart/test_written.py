"""What holds at each place of a chart as it is written."""

from hypothesis import given

from fifthwise.chart import unfold, written_places
from fifthwise.theory import write_number
from tests.chart.strategies import charts
from tests.chart.test_laws import SLOW
from tests.chart.texts import chart_of


def told(chart):
    """Each place, what sounds there and the key."""
    return [
        (
            f"{p.section}.{p.bar}.{p.slot}",
            p.kind if p.chord is None else write_number(p.chord),
            f"{p.key}",
        )
        for p in written_places(chart)
    ]


@SLOW
@given(charts())
def test_every_bar_that_is_played_is_written_in_its_key(chart):
    """Whatever the form and the repeats, a bar's places have the keys that it is played in."""
    places = {(p.section, p.bar, p.key) for p in written_places(chart)}
    slots = [[len(bar.slots) for bar in section.bars] for section in chart.sections]
    for bar in unfold(chart).bars:
        assert not slots[bar.section][bar.bar] or (bar.section, bar.bar, bar.key) in places


@SLOW
@given(charts())
def test_every_slot_has_one_place_a_key(chart):
    """Nothing is left out and nothing comes twice."""
    places = [(p.section, p.bar, p.slot, p.turn) for p in written_places(chart)]
    assert len(set(places)) == len(places)
    slots = {
        (s, b, i)
        for s, section in enumerate(chart.sections)
        for b, bar in enumerate(section.bars)
        for i in range(len(bar.slots))
    }
    assert {place[:3] for place in places} == slots


def test_a_chord_goes_on_over_the_bar_line():
    """A bar that holds sounds what came before it, also in the next section; a rest and NC go on too."""
    chart = chart_of("# a\n5-7 | - 4 | NC | - | 1.hold\n# b\n- | 0 | -\n")
    assert [said for _, said, _ in told(chart)] == ["5-7", "5-7", "4", "nc", "nc", "1", "1", "rest", "rest"]


def test_a_key_holds_from_its_mark():
    """A change inside a section holds from its bar on, and no longer than the section."""
    chart = chart_of("# a\n1 | [key +2] 4 | 5\n# b\n1\n")
    assert told(chart) == [
        ("0.0.0", "1", "C"),
        ("0.1.0", "4", "D"),
        ("0.2.0", "5", "D"),
        ("1.0.0", "1", "C"),
    ]


def test_a_section_in_two_keys_comes_once_in_each():
    """The form moves the second chorus up; its places tell their turns."""
    chart = chart_of("# chorus\n1 | 5\n# out\n1\n", form="chorus, chorus, [key +2], chorus, out")
    assert [(p.section, p.turn, str(p.key)) for p in written_places(chart)] == [
        (0, 0, "C"),
        (0, 0, "C"),
        (0, 1, "D"),
        (0, 1, "D"),
        (1, 0, "D"),
    ]
