"""Charts read from text: every fault at once, and the rest of the chart all the same."""

from dataclasses import dataclass

from fifthwise.chart.body import BodyReader
from fifthwise.chart.errors import ChartFaults, Fault
from fifthwise.chart.head import read_head
from fifthwise.chart.model import Chart
from fifthwise.chart.source import FaultList, blank_remarks

__all__ = ["Reading", "parse", "read_chart"]


@dataclass(frozen=True, slots=True)
class Reading:
    """What reading a text gave.

    Attributes
    ----------
    chart : Chart
        All that could be read; a bar at fault has no slots.
    faults : tuple of Fault
        In text order; empty where the chart is sound.
    notices : tuple of Fault
        What was read, but may have been meant otherwise.
    """

    chart: Chart
    faults: tuple[Fault, ...]
    notices: tuple[Fault, ...]


def parse(text: str, file: str = "chart") -> Chart:
    """Read a chart.

    Raises
    ------
    ChartFaults
        Everything that is wrong with it.
    """
    reading = read_chart(text, file)
    if reading.faults:
        raise ChartFaults(reading.faults)
    return reading.chart


def read_chart(text: str, file: str = "chart") -> Reading:
    """Read a chart, its faults and its notices."""
    lines = text.removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    faults = FaultList(file, lines)
    head, start = read_head(lines, faults)
    body = blank_remarks(lines, start, faults)
    reader = BodyReader(head, faults)
    at = start
    while at < len(body) and not faults.full:
        reader.read(body[at], at + 1)
        at += 1
    chart = reader.finish()
    if faults.full:
        faults.close(min(at + 1, len(lines)))
    return Reading(chart, _in_order(faults.faults), _in_order(faults.notices))


def _in_order(faults: list[Fault]) -> tuple[Fault, ...]:
    return tuple(sorted(faults, key=lambda f: (f.line, f.column)))
