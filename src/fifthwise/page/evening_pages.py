"""The two pages about a whole evening: the title page with the running order, and the leader's key sheet.

Both are plain values for ``title.typ`` and ``keysheet.typ``.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from fifthwise.chart import DEFAULT_TEMPO, Chart
from fifthwise.page.layout_reader import Reader
from fifthwise.page.layout_view import PageView
from fifthwise.page.text_signs import printed
from fifthwise.theory import Key
from fifthwise.voice import BandTerms, KeyFit, band_terms

__all__ = ["RunningSong", "key_read", "keysheet_record", "printed_date", "title_record"]

BEST_KEYS = 3
MONTHS = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
]
DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


@dataclass(frozen=True, slots=True)
class RunningSong:
    """One song of the running order.

    Attributes
    ----------
    number : int
        Its place, from 1.
    chart : Chart
        In tonight's key.
    singer, counts_in : str
        Names; empty where there is nobody.
    segue : bool
        Whether the next song follows without a stop.
    fits : mapping of str to sequence of KeyFit
        Every singer's ranking of the keys, by name; empty where there is no tune.
    anchor : str
        The label of the song's page in the same book; empty where it has none.
    reads : str
        The key that the book's player reads, as printed, where that is not the sounding one.
    """

    number: int
    chart: Chart
    singer: str = ""
    counts_in: str = ""
    segue: bool = False
    fits: Mapping[str, Sequence[KeyFit]] = field(default_factory=dict)
    anchor: str = ""
    reads: str = ""


def key_read(chart: Chart, view: PageView) -> str:
    """The key that a page is read in: ``D``, ``C, capo 2``; empty where it is the sounding one."""
    reader = Reader(view, chart.numbering)
    if not reader.moves:
        return ""
    name = _name(reader.key(chart.key))
    return f"{name}, capo {view.part.capo}" if view.part.capo else name


def title_record(name: str, day: str, songs: Sequence[RunningSong]) -> dict[str, Any]:
    """The title page: the evening's name, its date and the running order.

    Parameters
    ----------
    name, day : str
        As the evening's file has them; an ISO date is written out, any other text is left as it is.
    songs : sequence of RunningSong
        In running order.
    """
    singers = list(dict.fromkeys(song.singer for song in songs if song.singer))
    rows = [_title_row(song) for song in songs]
    return {"kind": "title", "name": name, "date": printed_date(day), "singers": singers, "songs": rows}


def _title_row(song: RunningSong) -> dict[str, Any]:
    chart = song.chart
    tempo = chart.tempo or DEFAULT_TEMPO
    return {
        "number": song.number,
        "title": chart.title,
        "anchor": song.anchor,
        "singer": song.singer,
        "key": _name(chart.key),
        "mode": _mode(chart.key),
        "reads": song.reads,
        "tempo": f"{float(tempo):g}",
        "about": chart.tempo is None,
        "metre": str(chart.metre),
        "feel": chart.feel or "",
        "counts_in": song.counts_in,
        "segue": song.segue,
    }


def keysheet_record(
    name: str, day: str, songs: Sequence[RunningSong], singers: Sequence[str]
) -> dict[str, Any]:
    """The key sheet: every song with every singer's best keys, and what tonight's key gives the band.

    Parameters
    ----------
    singers : sequence of str
        Names in the order of their columns.
    """
    rows = [_key_row(song, singers) for song in songs]
    horns = [horn.instrument for horn in band_terms(songs[0].chart.key).horns] if songs else []
    return {
        "kind": "keysheet",
        "name": name,
        "date": printed_date(day),
        "singers": list(singers),
        "horns": [printed(horn) for horn in horns],
        "songs": rows,
    }


def _key_row(song: RunningSong, singers: Sequence[str]) -> dict[str, Any]:
    key = song.chart.key
    band = band_terms(key)
    return {
        "number": song.number,
        "title": song.chart.title,
        "anchor": song.anchor,
        "singer": song.singer,
        "key": _name(key),
        "mode": _mode(key),
        "fits": [[_fit_cell(fit) for fit in song.fits.get(name, ())[:BEST_KEYS]] for name in singers],
        "tonight": [_tonight(song, name) for name in singers],
        "open": " ".join(str(note) for note in band.open_strings),
        "capo": _capo(band),
        "horns": [_name(horn.key) for horn in band.horns],
    }


def _name(key: Key) -> str:
    """A key in a narrow place: ``E♭``, ``F♯m``; a mode stands apart."""
    return printed(key.tonic) + ("m" if key.is_minor else "")


def _mode(key: Key) -> str:
    return "" if key.mode in ("major", "minor") else key.mode


def _fit_cell(fit: KeyFit) -> dict[str, Any]:
    """One key for one singer; how much is easy is not known where the tune's lengths are not."""
    return {
        "key": _name(fit.key),
        "also": _name(fit.also) if fit.also else "",
        "easy": None if fit.sitting.cycle_dose is None else round(100 * fit.sitting.in_comfort),
        "fault": _fault(fit),
    }


def _fault(fit: KeyFit) -> str:
    """Whether an end of the tune is out of reach: ``high``, ``low``, ``high and low`` or nothing."""
    ends = ("high" * (fit.sitting.upper_reserve < 0), "low" * (fit.sitting.lower_reserve < 0))
    return " and ".join(end for end in ends if end)


def _tonight(song: RunningSong, name: str) -> dict[str, Any] | None:
    """How tonight's key sits for a singer."""
    sound = song.chart.key.tonic.pitch_class
    fits = (fit for fit in song.fits.get(name, ()) if fit.key.tonic.pitch_class == sound)
    return next(({**_fit_cell(fit), "key": _name(song.chart.key)} for fit in fits), None)


def _capo(band: BandTerms) -> str:
    if band.capo is None:
        return ""
    return f"{band.capo} {band.shape}" if band.capo else f"open {band.shape}"


def printed_date(text: str) -> str:
    """Write an ISO date out, ``Saturday 5 December 2026``; leave any other text as it is."""
    try:
        day = date.fromisoformat(text)
    except ValueError:
        return text
    return f"{DAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]} {day.year}"
