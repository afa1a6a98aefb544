"""Charts read for the commands, and what is told beside them."""

import sys
from pathlib import Path

from fifthwise.chart import LARGEST_TEXT, Chart, ChartFaults, Reading, chart_text, read_chart, write_chart
from fifthwise.files import read_bytes

__all__ = [
    "load_chart",
    "read_text",
    "tell_notices",
    "tell_unprintable",
]


def read_text(path: Path) -> str:
    """Read a text file in UTF-8; ``-`` is the standard input.

    Raises
    ------
    FileFault
        It cannot be read.
    ChartFaults
        It is no UTF-8 text.
    """
    if str(path) == "-":
        return chart_text(sys.stdin.buffer.read(LARGEST_TEXT + 1), "standard input")
    return chart_text(read_bytes(path), path.name)


def load_chart(path: Path) -> Chart:
    """Read a chart and tell its notices on the error stream.

    Raises
    ------
    ChartFaults
        Everything that is wrong with it.
    """
    reading = read_chart(read_text(path), path.name)
    if reading.faults:
        raise ChartFaults(reading.faults)
    tell_notices(reading)
    return reading.chart


def tell_notices(reading: Reading) -> None:
    """Say what may have been meant otherwise."""
    for notice in reading.notices:
        print(f"notice: {notice}", file=sys.stderr)


def tell_unprintable(*charts: Chart) -> None:
    """Say which characters print has to leave out; a page for a screen shows them."""
    from fifthwise.page import unprintable

    for chart in charts:
        missing = unprintable(write_chart(chart))
        if missing:
            shown = " ".join(missing)
            print(f"notice: '{chart.title}': print has no {shown}; '?' stands for it", file=sys.stderr)
