"""What a kept song's text gives, worked out once: chart, what is sung, how keys suit, pages drawn.

The same text always gives the same, so the last of each are kept in memory: an evening's songs, not the book,
since the search for waste goes through all that is kept, and holds answers up. A kept text has no faults.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

from markupsafe import Markup

from fifthwise.chart import Chart, WrittenPlace, parse, rekey, written_places
from fifthwise.page import PageView, Sheet, SheetRow, chart_html, lay_out, small_picture
from fifthwise.stage import tune_of
from fifthwise.theory import NoteName, NumberChord
from fifthwise.voice import KeyFit, Singer, SungTune, rank_keys, sung_profile

__all__ = [
    "NARROW",
    "Drawn",
    "Places",
    "drawn",
    "has_tune",
    "has_words",
    "parsed",
    "picture",
    "places",
    "ranking",
    "sung",
]

NARROW = 2  # bars a row on a telephone
WIDE = 8  # bars a row where a long chart has a whole screen
FEW_ROWS = 6  # rows that a laptop's screen shows large


@dataclass(frozen=True, slots=True)
class Drawn:
    """A chart laid out and drawn.

    Attributes
    ----------
    sheet : Sheet
        What its head says; its bars are in the drawing and would take as much memory again.
    rows, more : int
        Rows of bars in it, and lines of small text between them.
    """

    sheet: Sheet
    html: Markup
    rows: int
    more: int


@dataclass(frozen=True, slots=True)
class Places:
    """The places of a chart, and of each of its different chords the first."""

    every: tuple[WrittenPlace, ...]
    chords: tuple[WrittenPlace, ...]


@lru_cache(maxsize=64)
def parsed(text: str) -> Chart:
    """A kept text's chart."""
    return parse(text)


@lru_cache(maxsize=64)
def sung(text: str) -> SungTune | None:
    """What is sung; ``None`` where the song has no tune."""
    return tune_of(parsed(text))


@lru_cache(maxsize=16)  # many small values, and read again only while a song is played
def places(text: str, tonic: NoteName) -> Places:
    """Every place of a song's chart in one key."""
    every = written_places(rekey(parsed(text), tonic))
    first: dict[NumberChord, WrittenPlace] = {}
    for place in every:
        if place.chord is not None:
            first.setdefault(place.chord, place)
    return Places(every, tuple(first.values()))


@lru_cache(maxsize=256)
def ranking(text: str, singer: Singer) -> tuple[KeyFit, ...]:
    """How every key suits a singer, the best first; nothing where the song has no tune."""
    tune = sung(text)
    return rank_keys(tune, singer) if tune else ()


@lru_cache(maxsize=128)
def picture(text: str, singer: Singer, fit: KeyFit) -> Markup:
    """The singer's small picture in one key."""
    tune = sung(text)
    assert tune is not None  # a fit has a tune
    return small_picture(sung_profile(tune, singer, fit), singer.name)


@lru_cache(maxsize=64)
def drawn(text: str, tonic: NoteName, view: PageView, *, only: bool) -> Drawn:
    """A song in one key, drawn for a page; ``only`` fits it to a whole screen."""
    chart = rekey(parsed(text), tonic)
    sheet = lay_out(chart, view)
    if only and _rows(sheet) > FEW_ROWS:
        sheet = lay_out(chart, view, columns=WIDE)
    html = chart_html(sheet, lay_out(chart, view, columns=NARROW))
    return Drawn(replace(sheet, sections=()), html, _rows(sheet), _more(sheet))


def _rows(sheet: Sheet) -> int:
    return sum(len(section.rows) for section in sheet.sections)


def _more(sheet: Sheet) -> int:
    """Lines of text over and under the rows; a section's head counts as half a line."""
    small = sum(map(_small_lines, (row for section in sheet.sections for row in section.rows)))
    return small + (len(sheet.sections) + 1) // 2 + len(sheet.notes)


def _small_lines(row: SheetRow) -> int:
    bars = (*row.bars, row.pickup) if row.pickup else row.bars
    over = any(bar.metre or bar.changes or bar.signs or bar.goes or bar.times or bar.cues for bar in bars)
    words = max((len(bar.words) for bar in bars), default=0) + len(row.words)
    return over + bool(row.brackets) + any(bar.tune for bar in bars) + words


def has_tune(chart: Chart) -> bool:
    """Whether a tune is written under the bars."""
    return any(bar.tune for section in chart.sections for bar in section.bars)


def has_words(chart: Chart) -> bool:
    """Whether a song has words to sing."""
    return any(line.words for section in chart.sections for line in section.lines)
