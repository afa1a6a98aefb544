"""What changes while a singer sings: metre, tempo, feel and key, told where they change in the playing."""

from collections.abc import Iterator, Mapping

from fifthwise.chart import Chart, PlayedBar, Timeline
from fifthwise.page.text_signs import printed_key

__all__ = ["changes"]


def changes(chart: Chart, timeline: Timeline) -> Mapping[int, str]:
    """Words for each played bar at which something is not as it was before, by its index.

    A key that changes with a new playing of a section is left to that section's heading, and a metre
    that holds for one bar is told there alone.
    """
    told = {}
    before: PlayedBar | None = None
    metre = chart.metre
    for index, bar in enumerate(timeline.bars):
        once = chart.sections[bar.section].bars[bar.bar].metre_once
        found = [str(bar.metre)] if bar.metre != metre else []
        found += _since(before, bar) if before else []
        if found:
            told[index] = ", ".join(found)
        before, metre = bar, metre if once else bar.metre
    return told


def _since(before: PlayedBar, bar: PlayedBar) -> Iterator[str]:
    if bar.tempo_bpm != before.tempo_bpm:
        yield f"tempo {float(bar.tempo_bpm / bar.metre.tempo_unit):g}"
    if bar.feel and bar.feel != before.feel:
        yield bar.feel
    if bar.key != before.key and bar.visit == before.visit:
        yield f"now in {printed_key(bar.key)}"
