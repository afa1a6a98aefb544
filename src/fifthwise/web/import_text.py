"""Charts on their way into the book: a file or a pasted text, in letters or already chart text."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import PurePath

from markupsafe import Markup

from fifthwise.book import Book, SongRow, same_text, songs_titled
from fifthwise.chart import Chart, ChartFaults, Fault, Reading, chart_text, read_chart, write_chart
from fifthwise.errors import FifthwiseError
from fifthwise.exchange import is_chart_text, read_letter_chart
from fifthwise.page import chart_html, lay_out
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Key, KeyFault, MinorWay, Numbering, PlainWay, read_key

__all__ = ["Paste", "Pasted", "file_chart", "pasted", "read_paste", "same_song"]

CHART, LETTERS = ".chart.md", (".txt", ".letters")
# A longer text is read when it is saved, not while it is typed.
LONGEST_LIVE = 100_000
NARROW = 2
UNNAMED = "Untitled"
# The command's own way out, and what to do on a page instead: with a paste, and with a file.
NO_KEY, NUMBERS = "the chart does not say its key", "this is number text: its chords are numbers"
AS_NEW = "Write it as a new song: title and key first"
OF_PASTE = {NO_KEY: "Choose the key, or add a line 'Key: G' at the top", NUMBERS: AS_NEW}
OF_FILE = {NO_KEY: "Add a line 'Key: G' at the top, or paste it and choose the key", NUMBERS: AS_NEW}


@dataclass(frozen=True, slots=True)
class Paste:
    """A pasted text as its form brings it."""

    text: str = ""
    title: str = ""
    key: str = ""
    minor: MinorWay = "from-six"
    plain: PlainWay = "explicit"


@dataclass(frozen=True, slots=True)
class Pasted:
    """What a pasted text says.

    Attributes
    ----------
    chart : Chart or None
        In numbers; ``None`` where there is nothing to read yet.
    text : str
        What is kept; empty where there are faults.
    page : Markup or None
        The chart drawn, as far as it can be.
    there : tuple of SongRow
        Songs of the same title in the book.
    """

    paste: Paste
    chart: Chart | None = None
    text: str = ""
    faults: tuple[Fault, ...] = ()
    notices: tuple[Fault, ...] = ()
    page: Markup | None = None
    there: tuple[SongRow, ...] = ()
    too_long: bool = False


def read_paste(form: Mapping[str, str]) -> Paste:
    """A form's paste; a way of counting that there is not is the usual one."""
    minor: MinorWay = next((way for way in MINOR_WAYS if way == form.get("minor")), "from-six")
    plain: PlainWay = next((way for way in PLAIN_WAYS if way == form.get("plain")), "explicit")
    text = form.get("text", "").replace("\r\n", "\n").replace("\r", "\n")
    return Paste(text, form.get("title", "").strip(), form.get("key", "").strip(), minor, plain)


def pasted(book: Book, paste: Paste, *, live: bool = False) -> Pasted:
    """Read a paste and draw it.

    Parameters
    ----------
    live : bool
        Whether this is while somebody types: a text without end then waits.
    """
    if not paste.text.strip():
        return Pasted(paste)
    if live and len(paste.text) > LONGEST_LIVE:
        return Pasted(paste, too_long=True)
    try:
        kept = chart_text(paste.text.encode("utf-8", "surrogatepass"), "text")
        key = read_key(paste.key) if paste.key else None
    except ChartFaults as error:
        return Pasted(paste, faults=error.faults)
    except KeyFault as error:
        return Pasted(paste, faults=(Fault(error.what, error.fix, 0, 1, 1, "", "key"),))
    reading, text = _read(kept, UNNAMED, key, paste.title or None, Numbering(paste.minor, paste.plain))
    faults = _mended(reading.faults, OF_PASTE)
    there = songs_titled(book, reading.chart.title)
    return Pasted(paste, reading.chart, text, faults, reading.notices, _page(reading.chart), there)


def file_chart(name: str, raw: bytes) -> tuple[Chart, str]:
    """The chart of a file that came in, and the text to keep.

    Raises
    ------
    FifthwiseError
        Everything that is wrong with it.
    """
    if not name.lower().endswith((CHART, ".md", *LETTERS)):
        what = "this is no chart that we read"
        raise ChartFaults(
            (Fault(what, "Charts end in .chart.md; those in letters in .txt", 0, 1, 1, "", name),)
        )
    text = chart_text(raw, name)
    if name.lower().endswith(LETTERS):
        reading, text = _read(text, name, None, None, Numbering())
    else:
        reading = read_chart(text, name)
    if reading.faults:
        raise ChartFaults(_mended(reading.faults, OF_FILE))
    return reading.chart, text


def same_song(book: Book, chart: Chart, text: str) -> tuple[SongRow | None, bool]:
    """The book's song with the same text, if there is one; and whether another has the title."""
    return same_text(book, chart.title, text), bool(songs_titled(book, chart.title))


def _read(
    text: str, name: str, key: Key | None, title: str | None, numbering: Numbering
) -> tuple[Reading, str]:
    """Read letters, or what is chart text already; gives the text to keep too."""
    if is_chart_text(text):
        return read_chart(text, name), text
    reading = read_letter_chart(text, PurePath(name).name, key, title=title, numbering=numbering)
    return reading, "" if reading.faults else write_chart(reading.chart)


def _mended(faults: tuple[Fault, ...], mends: Mapping[str, str]) -> tuple[Fault, ...]:
    return tuple(replace(fault, fix=mends.get(fault.what, fault.fix)) for fault in faults)


def _page(chart: Chart) -> Markup | None:
    if not chart.sections:
        return None
    try:
        return chart_html(lay_out(chart), lay_out(chart, columns=NARROW))
    except FifthwiseError:
        return None
