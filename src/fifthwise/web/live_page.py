"""A text being written: its page as far as it can be read, and its faults at their places."""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from fifthwise.chart import Chart, ChartFaults, Fault, FormFault, chart_text, read_chart, rekey
from fifthwise.page import PageView, chart_html, lay_out
from fifthwise.stage import key_as_called
from fifthwise.theory import Key, KeyFault
from fifthwise.web.key_row import KeyPlace, key_row

__all__ = ["LivePage", "Mark", "Mend", "live_page"]

NARROW = 2  # bars a row on a telephone
NEAR = 2  # strings left and right of the written key that are offered
# A song of 60 bars with its words takes about 3 kB. What is far beyond is not drawn at every pause in typing.
MOST_LIVE, MOST_LIVE_BARS = 30_000, 400
MOST_TOLD = 20  # faults in words; all of them are marked in the text
LENGTHENS = ("/", "-")


@dataclass(frozen=True, slots=True)
class Mend:
    """What may have been meant.

    Attributes
    ----------
    text : str
        To be typed in place of what is at fault.
    means : str
        What that is, where the mends differ in it; else empty.
    place : str
        The whole mend as a form sends it: line, column, length, text.
    """

    text: str
    means: str
    place: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A fault at its place in a text field.

    Attributes
    ----------
    line : int
        From 1.
    column, length : int
        From 1, in UTF-16 units: a browser counts so.
    asks : bool
        Whether the fix is a question, which comes first.
    """

    fault: Fault
    line: int
    column: int
    length: int
    asks: bool
    mends: tuple[Mend, ...]


@dataclass(frozen=True, slots=True)
class LivePage:
    """The page of a text that may have faults.

    Attributes
    ----------
    drawn : Markup
        The chart, ``?`` for what could not be read; empty where nothing could.
    chart : Chart or None
        As drawn.
    keys : tuple of KeyPlace
        The written key and its neighbours.
    marks : tuple of Mark
        All faults.
    notices : tuple of Fault
        What was read, but may have been meant otherwise.
    too_long : bool
        Whether it is not drawn because it is too long for that.
    """

    drawn: Markup
    chart: Chart | None
    keys: tuple[KeyPlace, ...]
    marks: tuple[Mark, ...]
    notices: tuple[Fault, ...]
    too_long: bool = False

    @property
    def title(self) -> str:
        """The song's, empty where it has none yet."""
        return self.chart.title if self.chart else ""

    @property
    def told(self) -> tuple[Mark, ...]:
        """The faults that are told in words."""
        return self.marks[:MOST_TOLD]

    @property
    def places(self) -> str:
        """Every fault's line, column and length, for the marks in the text."""
        return " ".join(f"{mark.line}:{mark.column}:{mark.length}" for mark in self.marks)


def live_page(text: str, key: str = "", known: tuple[Fault, ...] = ()) -> LivePage:
    """Read a text and draw what can be read.

    Parameters
    ----------
    key : str
        The key to show it in; empty, or no key of this song, is the written one.
    known : tuple of Fault
        Faults already found, told where the text is too long to be read at every pause in typing.
    """
    if len(text) > MOST_LIVE:
        return LivePage(Markup(), None, (), _marks(text, known), (), too_long=True)
    try:
        reading = read_chart(chart_text(text.encode("utf-8", "surrogatepass"), "text"), "text")
    except ChartFaults as error:
        return LivePage(Markup(), None, (), _marks(text, error.faults), ())
    written = reading.chart
    chart = _in_key(written, key)
    bars = sum(len(section.bars) for section in written.sections)
    too_long = bars > MOST_LIVE_BARS
    drawn, faults = _drawn(chart) if bars and not too_long else (Markup(), ())
    marks = _marks(text, reading.faults + faults)
    return LivePage(drawn, chart, _near(chart.key, written.key), marks, reading.notices, too_long)


def _near(shown: Key, written: Key) -> tuple[KeyPlace, ...]:
    return tuple(
        place
        for place in key_row(shown, written, {})
        if abs(place.key.signature - written.signature) <= NEAR or place.current
    )


def _in_key(written: Chart, key: str) -> Chart:
    try:
        return rekey(written, key_as_called(key, written).tonic) if key else written
    except KeyFault:
        return written


def _drawn(chart: Chart) -> tuple[Markup, tuple[Fault, ...]]:
    """The chart, and what is wrong with its form where it runs away: the reader does not see that."""
    view = PageView("both")
    try:
        return chart_html(lay_out(chart, view), lay_out(chart, view, columns=NARROW)), ()
    except FormFault as fault:
        return Markup(), (Fault(fault.what, f"{fault.where}: {fault.fix}", 1, 1, 1, "", "text"),)


def _marks(text: str, faults: tuple[Fault, ...]) -> tuple[Mark, ...]:
    lines = text.split("\n")
    return tuple(_mark(lines[fault.line - 1 : fault.line], fault) for fault in faults)


def _mark(line: list[str], fault: Fault) -> Mark:
    said = "".join(line)
    start, end = fault.column - 1, fault.column - 1 + fault.length
    column, length = _units(said[:start]) + 1, max(1, _units(said[start:end]))
    at = f"{fault.line} {column} {length}"
    mends = tuple(Mend(mend, means, f"{at} {mend}") for mend, means in _meanings(fault.mends))
    return Mark(fault, fault.line, column, length, fault.fix.endswith("?"), mends)


def _units(text: str) -> int:
    return len(text.encode("utf-16-le", "surrogatepass")) // 2


def _meanings(mends: tuple[str, ...]) -> Iterator[tuple[str, str]]:
    """Each mend with what tells it from the others: how many chords it is."""
    pairs = [len(parts) == 2 and parts[1] not in LENGTHENS for parts in map(str.split, mends)]
    for mend, pair in zip(mends, pairs, strict=True):
        yield mend, ("two chords" if pair else "one chord") if len(set(pairs)) > 1 else ""
