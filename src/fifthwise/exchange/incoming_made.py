"""Songs made of what a reader gives: a chart, its text to keep, and what is told beside it."""

from collections.abc import Iterable
from dataclasses import replace
from pathlib import PurePath

from fifthwise.chart import Chart, ChartFaults, Fault, Reading, read_chart, write_chart
from fifthwise.exchange.incoming_song import FoundSong, Question, Wish
from fifthwise.exchange.lead_chart import chart_of_sheet
from fifthwise.exchange.lead_sheet import LeadSheet
from fifthwise.exchange.plain_texts import one_line
from fifthwise.theory import Key

__all__ = ["song_of_chart", "song_of_reading", "song_of_sheet"]

UNTITLED = "untitled"


def song_of_reading(
    reading: Reading, wish: Wish, text: str = "", questions: tuple[Question, ...] = ()
) -> FoundSong:
    """A song read from a text.

    Parameters
    ----------
    text : str
        What is kept; empty where the chart is to be written in the settled layout.

    Raises
    ------
    ChartFaults
        Everything that is wrong with it.
    """
    if reading.faults:
        raise ChartFaults(reading.faults)
    made = song_of_chart(reading.chart, wish, text, reading.notices)
    return replace(made, questions=questions)


def song_of_chart(
    chart: Chart, wish: Wish, text: str = "", notices: tuple[Fault, ...] = (), told: tuple[str, ...] = ()
) -> FoundSong:
    """A song whose chart says its own key; the title that is wished for takes the place of its own."""
    if wish.title and one_line(wish.title) != chart.title:
        chart, text = replace(chart, title=one_line(wish.title)), ""
    if wish.key is not None and wish.key != chart.key:
        told = (*told, f"it says itself that it is in {chart.key}; the key that was asked for is left out")
    return FoundSong(chart, text or write_chart(chart), told, notices=notices)


def song_of_sheet(sheet: LeadSheet, file: str, wish: Wish, questions: Iterable[Question] = ()) -> FoundSong:
    """A song of a lead sheet, in the key and under the title that are wished for.

    Raises
    ------
    ChartFaults
        It holds what no chart can say.
    """
    told: tuple[str, ...] = ()
    title = one_line(wish.title or sheet.title)
    if not title:
        title = one_line(PurePath(file).name.split(".")[0]) or UNTITLED
        told = (f"it has no title; it is called '{title}'",)
    made = chart_of_sheet(replace(_in_key(sheet, wish.key), title=title), wish.numbering)
    text = write_chart(made.chart)
    faults = read_chart(text, file).faults
    if faults:
        raise ChartFaults(faults)
    return FoundSong(made.chart, text, (*told, *made.told), tuple(questions))


def _in_key(sheet: LeadSheet, key: Key | None) -> LeadSheet:
    """The sheet with the key that is wished for, wherever its first key holds."""
    if key is None or not sheet.bars:
        return sheet
    first = sheet.bars[0].key
    bars = tuple(replace(bar, key=key) if bar.key == first else bar for bar in sheet.bars)
    return replace(sheet, bars=bars)
