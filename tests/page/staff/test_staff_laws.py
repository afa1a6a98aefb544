"""Any chart's tune can stand on a staff, and sounds there as it is."""

from xml.etree.ElementTree import fromstring

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fifthwise.page import PagePart, PageView
from fifthwise.page.staff import engrave_staff, staff_of_chart, staff_picture
from tests.chart.strategies import charts
from tests.page.staff.sounds import assert_sounds, plain

CLEFS = st.sampled_from(["treble", "treble-8", "alto", "tenor", "bass"])


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(charts())
def test_any_tune_sounds_as_its_chart(chart):
    """Whatever a chart's tune is, Verovio plays it from what is written, and warns of nothing."""
    if staff_of_chart(plain(chart), PageView()) is not None:
        assert_sounds(chart)


@settings(deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(charts(), CLEFS, st.integers(30, 120))
def test_any_tune_is_drawn(chart, clef, spaces):
    """Every bar stands in a system, in order, and the picture is sound XML without styles of elements."""
    staff = staff_of_chart(chart, PageView(part=PagePart(clef=clef)))
    if staff is None:
        return
    systems = engrave_staff(staff, spaces)
    assert tuple(bar for system in systems for bar in system.bars) == staff.bars
    picture = fromstring(staff_picture(staff, spaces))
    assert not [node for node in picture.iter() if "style" in node.attrib or node.tag.endswith("script")]
