"""Charts for the book's tests."""

from fifthwise.chart import read_chart, write_chart
from tests.chart.strategies import charts

__all__ = ["chart_texts", "tune"]


def chart_texts():
    """Made-up texts that a book takes; a made-up chart may have a pickup that the form leaves no room for."""
    return charts().map(write_chart).filter(lambda text: not read_chart(text).faults)


def tune(title="Slack Water", bars="1 4 | 5 1", **fields):
    """A chart's text; fields go into its head."""
    head = "".join(f"{name}: {text}\n" for name, text in {"key": "G", **fields}.items())
    return f"---\ntitle: {title}\n{head}---\n{bars}\n"
