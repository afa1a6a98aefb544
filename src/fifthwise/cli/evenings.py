"""An evening and the charts that it names, read from disk."""

from pathlib import Path

from fifthwise.chart import Chart, ChartFaults, Fault, TextFaults
from fifthwise.cli.files import load_chart, read_text
from fifthwise.evening import Evening, read_evening
from fifthwise.files import FileFault
from fifthwise.stage import Tonight, plan

__all__ = ["load_tonight"]


def load_tonight(file: Path) -> Tonight:
    """Read an evening with its charts, and choose every song's key.

    Raises
    ------
    TextFaults
        Everything that is wrong with the evening, or with the charts that it names.
    FileFault
        The file is not there, or is a chart.
    """
    if file.name.endswith(".chart.md"):
        raise FileFault("this is a chart, not an evening", str(file), "Name a file like 'evening.set.yaml'")
    evening = read_evening(read_text(file), file.name)
    return plan(evening, _charts(evening, file), file.name)


def _charts(evening: Evening, file: Path) -> dict[str, Chart]:
    """Read every chart that the evening names; all their faults are told at once."""
    charts: dict[str, Chart] = {}
    faults: list[Fault] = []
    tried: set[str] = set()
    for song in evening.songs:
        if song.chart in tried:
            continue
        tried.add(song.chart)
        try:
            charts[song.chart] = load_chart(file.parent / song.chart)
        except TextFaults as found:
            faults += found.faults
        except FileFault as fault:
            faults.append(Fault(f"{fault.what}: {song.chart}", fault.fix, song.line, 1, 1, "", file.name))
    if faults:
        raise ChartFaults(tuple(faults))
    return charts
