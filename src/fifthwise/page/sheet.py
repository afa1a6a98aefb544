"""A song's pages: laid out in the ways that print may choose from, and put together as one file."""

from collections.abc import Sequence
from functools import lru_cache
from typing import Any

from fifthwise.chart import Chart
from fifthwise.page.layout import lay_out
from fifthwise.page.layout_model import Sheet
from fifthwise.page.layout_view import PageView, Paper
from fifthwise.page.sheet_record import chart_record
from fifthwise.page.staff import staff_of_chart, staff_record
from fifthwise.page.typst_book import PdfStandard, Record, book_pages, record_text

__all__ = ["WIDE_COLUMNS", "pdf_pages", "song_record", "song_text"]

# Bars a row for a song that would not stand on one page otherwise.
WIDE_COLUMNS = 8


def song_record(chart: Chart, view: PageView) -> dict[str, Any]:
    """A song for print: its usual layout, a wide one where that needs two pages, and the staff if asked."""
    staff = staff_of_chart(chart, view) if view.staff else None
    record = chart_record((lay_out(chart, view), lay_out(chart, view, columns=WIDE_COLUMNS)))
    return record | ({"staff": staff_record(staff)} if staff else {})


@lru_cache(1024)  # about 100 kB a song: an evening's books printed again need only what has changed
def song_text(chart: Chart, view: PageView) -> str:
    """A song for print, written down; kept for the next time that it is printed."""
    return record_text(song_record(chart, view))


def pdf_pages(
    documents: Sequence[Sheet | Record],
    *,
    paper: Paper = "a4",
    title: str | None = None,
    standard: PdfStandard = "ua-1",
) -> bytes:
    """Print documents as one PDF, each on a new page with a bookmark.

    Parameters
    ----------
    documents : sequence of Sheet or record
        A sheet is printed in its one layout; ``song_record`` gives print a choice. Records of other
        kinds are a title page, a key sheet and lyrics. The one at place n, from 0, is labelled
        ``song-n`` for links.
    title : str or None
        Of the file; ``None`` takes the first document's.
    """
    records = [chart_record((d,)) if isinstance(d, Sheet) else d for d in documents]
    named = (
        title
        if title is not None
        else next((str(r["title"]) for r in records if not isinstance(r, str) and "title" in r), "")
    )
    return book_pages(records, paper=paper, title=named, standard=standard)
