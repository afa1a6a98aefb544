"""The evening told in plain text: the running order, why each key, and what was made."""

from collections.abc import Sequence

from fifthwise.page import printed_tempo
from fifthwise.stage.notices import notices
from fifthwise.stage.tonight import Call, Tonight

__all__ = ["summary"]


def summary(tonight: Tonight, files: Sequence[tuple[str, str]]) -> str:
    """Write the summary in Markdown.

    Parameters
    ----------
    files : sequence of (path, label)
        What was made for whom.
    """
    evening = tonight.evening
    lines = [f"# {evening.name}", "", evening.date or "", ""]
    lines += [
        "| | song | singer | key | tempo | counts in | why |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    lines += [_row(call) for call in tonight.calls]
    playing = sum(call.timeline.seconds for call in tonight.calls)
    looked = notices(tonight)
    if looked:
        lines += ["", "## To look at", "", *(f"- {_cell(notice)}." for notice in looked)]
    lines += ["", f"About {playing / 60:.0f} minutes of music, vamps played four times.", "", "## Files", ""]
    lines += [f"- `{path}`: {_cell(label)}" for path, label in files]
    return "\n".join((*lines, ""))


def _row(call: Call) -> str:
    chart = call.chart
    segue = " (straight on)" if call.song.segue else ""
    singer = call.singer.name if call.singer else ""
    cells = (
        str(call.number), chart.title + segue, singer, chart.key.short, printed_tempo(chart),
        call.song.counts_in or "", call.why,
    )  # fmt: skip
    return f"| {' | '.join(map(_cell, cells))} |"


def _cell(text: str) -> str:
    """A text that stays in its cell."""
    return text.replace("|", "\\|").replace("\n", " ")
