"""A phrase typed by itself, ``5 6 1' (3 2) | 1 -``, as a chart that holds its tune and nothing else."""

from dataclasses import replace
from fractions import Fraction

from fifthwise.chart.drafts import BarDraft
from fifthwise.chart.errors import ChartFaults
from fifthwise.chart.model import Chart, Line, Section, Slot
from fifthwise.chart.source import LARGEST_TEXT, FaultList
from fifthwise.chart.tune_line import read_tune_bars, split_cells, token_count
from fifthwise.theory import Key, Metre, Numbering

__all__ = ["phrase_chart"]

WHERE = "line"
QUARTER = 4


def phrase_chart(text: str, key: Key, numbering: Numbering | None = None) -> Chart:
    """Read the tokens of a tune without a chart around them.

    Parameters
    ----------
    text : str
        Tokens as a ``tune:`` line has them, one a quarter; bars may be as long as they are written.
    numbering : Numbering or None
        How a minor key counts; ``None`` counts from six.

    Raises
    ------
    ChartFaults
        Everything that cannot be read.
    """
    numbering = numbering or Numbering()
    shown = " ".join(text.split())[:LARGEST_TEXT]
    faults = FaultList(WHERE, [shown])
    faults.natural = numbering.minor == "natural"
    cells = [(cell, column, 1) for cell, column in split_cells(shown, 0)]
    bars = [BarDraft(Metre(max(1, token_count(cell)), QUARTER), 1, column, key) for cell, column, _ in cells]
    read_tune_bars(cells, bars, faults, sounding=False)
    if faults.faults:
        raise ChartFaults(tuple(faults.faults))
    frozen = tuple(replace(bar.freeze(), slots=(Slot("nc", Fraction(bar.length)),)) for bar in bars)
    return Chart(
        "", key, (Section(None, (Line(frozen),)),), metre=bars[0].metre, minor=numbering.minor,
        plain=numbering.plain,
    )  # fmt: skip
