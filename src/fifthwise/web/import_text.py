"""Songs on their way into the book: what a file or a pasted text holds, what is told of it, what is open."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from pathlib import PurePath

from markupsafe import Markup

from fifthwise.book import Book, SongRow, songs_titled
from fifthwise.chart import Chart, ChartFaults, Fault, Reading, TextFaults, chart_text, read_chart
from fifthwise.errors import FifthwiseError
from fifthwise.exchange import (
    NUMBERS,
    FoundSong,
    Incoming,
    Question,
    Wish,
    is_chart_text,
    read_incoming,
    read_letter_chart,
)
from fifthwise.page import PageView, chart_html, lay_out
from fifthwise.theory import MINOR_WAYS, PLAIN_WAYS, Key, KeyFault, MinorWay, Numbering, PlainWay, read_key

__all__ = ["Paste", "Pasted", "file_songs", "pasted", "read_paste", "seen", "wish_of"]

# A longer text is read when it is saved, not while it is typed.
LONGEST_LIVE = 100_000
NARROW = 2
UNNAMED = "Untitled"
SETTLED = "settle-"  # before a question's name, in a form
# The command's own way out, and what to do on a page instead.
NO_KEY, MIXED = "the chart does not say its key", "this is number text: its chords are numbers"
ON_PAGE = {
    NO_KEY: "Choose the key, or add a line 'Key: G' at the top",
    MIXED: "Write it as a new song: title and key first",
}


@dataclass(frozen=True, slots=True)
class Paste:
    """A pasted text, or what is wished for a file, as its form brings it.

    Attributes
    ----------
    settled : mapping
        A question's name to the option that was chosen.
    """

    text: str = ""
    title: str = ""
    key: str = ""
    minor: MinorWay = "from-six"
    plain: PlainWay = "explicit"
    settled: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Pasted:
    """What a pasted text, or a file, says.

    Attributes
    ----------
    songs : tuple of FoundSong
        Empty where there is nothing to read yet, or there are faults.
    chart : Chart or None
        The first one in numbers, as far as it can be read.
    page : Markup or None
        The chart drawn.
    there : tuple of SongRow
        Songs of the same title in the book.
    """

    paste: Paste
    songs: tuple[FoundSong, ...] = ()
    chart: Chart | None = None
    faults: tuple[Fault, ...] = ()
    page: Markup | None = None
    there: tuple[SongRow, ...] = ()
    too_long: bool = False

    @property
    def notices(self) -> tuple[Fault, ...]:
        """What the first song's text may have meant otherwise."""
        return self.songs[0].notices if self.songs else ()

    @property
    def told(self) -> tuple[str, ...]:
        """What the first song cannot hold, and what was settled."""
        return self.songs[0].told if self.songs else ()

    @property
    def questions(self) -> tuple[Question, ...]:
        """What may be settled otherwise."""
        return self.songs[0].questions if self.songs else ()


def read_paste(form: Mapping[str, str]) -> Paste:
    """A form's paste; a way of counting that there is not is the usual one."""
    minor: MinorWay = next((way for way in MINOR_WAYS if way == form.get("minor")), "from-six")
    plain: PlainWay = next((way for way in PLAIN_WAYS if way == form.get("plain")), "explicit")
    text = form.get("text", "").replace("\r\n", "\n").replace("\r", "\n")
    settled = {name.removeprefix(SETTLED): value for name, value in form.items() if name.startswith(SETTLED)}
    return Paste(text, form.get("title", "").strip(), form.get("key", "").strip(), minor, plain, settled)


def wish_of(paste: Paste) -> Wish:
    """What is settled beforehand; a key that is typed goes before one that is chosen.

    Raises
    ------
    KeyFault
        The key is none.
    """
    settled = paste.settled
    key = paste.key or settled.get("key", "")
    return Wish(
        settled.get("part"), read_key(key) if key else None, paste.title or None, paste.minor, paste.plain,
        tuple((name.removeprefix(NUMBERS), way) for name, way in settled.items() if name.startswith(NUMBERS)),
        settled.get("bars"),
    )  # fmt: skip


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
    except ChartFaults as error:
        return Pasted(paste, faults=error.faults)
    found = seen(book, paste, kept.encode(), UNNAMED)
    return found if found.songs else _partly(found, kept)


def seen(book: Book, paste: Paste, raw: bytes, name: str) -> Pasted:
    """Read a file as is wished, and draw its first song."""
    try:
        found = file_songs(name, raw, wish_of(paste))
    except KeyFault as error:
        return Pasted(paste, faults=(Fault(error.what, error.fix, 0, 1, 1, "", "key"),))
    except TextFaults as error:
        return Pasted(paste, faults=error.faults)
    except FifthwiseError as error:
        return Pasted(paste, faults=(Fault(error.what, error.fix, 0, 1, 1, "", name),))
    first, *others = found.songs
    first = replace(first, questions=(*_answered(paste, first, raw, name), *first.questions))
    chart = first.chart
    return Pasted(paste, (first, *others), chart, (), _page(chart), songs_titled(book, chart.title))


def _answered(paste: Paste, song: FoundSong, raw: bytes, name: str) -> Iterator[Question]:
    """The questions that are no more, since an option was chosen: it can be chosen anew."""
    asked = {question.name for question in song.questions}
    if not paste.settled.keys() - asked:
        return
    open_again = file_songs(name, raw, wish_of(replace(paste, settled={})))
    for question in open_again.songs[0].questions:
        chosen = paste.settled.get(question.name)
        if question.name not in asked and chosen in {option.value for option in question.options}:
            yield replace(question, chosen=chosen, sure=True)


def file_songs(name: str, raw: bytes, wish: Wish) -> Incoming:
    """The songs of a file that came in, at least one.

    Raises
    ------
    FifthwiseError
        Everything that is wrong with it.
    """
    try:
        found = read_incoming(raw, name, wish)
    except TextFaults as error:
        raise ChartFaults(_mended(error.faults)) from error
    if not found.songs:
        raise found.failed[0]
    return found


def _partly(found: Pasted, text: str) -> Pasted:
    """A text at fault, drawn as far as it can be read; another kind of text is not drawn."""
    if is_chart_text(text):
        reading: Reading = read_chart(text, UNNAMED)
    else:
        paste = found.paste
        key = _key(paste.key)
        numbering = Numbering(paste.minor, paste.plain)
        name = PurePath(UNNAMED).name
        reading = read_letter_chart(text, name, key, title=paste.title or None, numbering=numbering)
    if not reading.faults or [fault.what for fault in reading.faults] != [f.what for f in found.faults]:
        return found
    return replace(found, chart=reading.chart, page=_page(reading.chart))


def _key(text: str) -> Key | None:
    try:
        return read_key(text) if text else None
    except KeyFault:
        return None


def _mended(faults: tuple[Fault, ...]) -> tuple[Fault, ...]:
    return tuple(replace(fault, fix=ON_PAGE.get(fault.what, fault.fix)) for fault in faults)


def _page(chart: Chart) -> Markup | None:
    if not chart.sections:
        return None
    try:
        view = PageView(tune=any(bar.tune for section in chart.sections for bar in section.bars), words=True)
        return chart_html(lay_out(chart, view), lay_out(chart, view, columns=NARROW))
    except FifthwiseError:
        return None
