"""Songs for other people's programs: one in a kind of file, or a whole evening in one packed file."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from io import BytesIO
from typing import Literal
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from fifthwise.chart import Chart, write_chart
from fifthwise.evening import file_names
from fifthwise.exchange.abc import write_abc
from fifthwise.exchange.midi import write_midi
from fifthwise.exchange.musicxml import pack_musicxml, write_musicxml
from fifthwise.exchange.song_json import write_song_json
from fifthwise.page import PagePart, PageView, Show, lay_out, reading_key, text_page
from fifthwise.theory import Interval

__all__ = ["OUT_WAYS", "OutKind", "OutWay", "export_song", "export_songs"]

OutKind = Literal["musicxml", "mxl", "midi", "abc", "text", "json", "chart"]
CONCERT = PagePart()
COMMA, OCTAVES = 12, 7  # twelve fifths are seven octaves: C sharp and D flat
PACKED_AT = (1980, 1, 1, 0, 0, 0)  # the first moment that a ZIP can say, so that equal songs give equal files


@dataclass(frozen=True, slots=True)
class _Asked:
    """A song as it is to go out."""

    chart: Chart
    as_numbers: bool
    part: PagePart


@dataclass(frozen=True, slots=True)
class OutWay:
    """A kind of file.

    Attributes
    ----------
    kind : str
        As a command and an address name it.
    name : str
        As a player calls it.
    ending : str
        Of its files' names.
    media_type : str
        As the Internet calls it.
    """

    kind: OutKind
    name: str
    ending: str
    media_type: str
    write: Callable[[_Asked], bytes]


def export_song(chart: Chart, kind: OutKind, *, as_numbers: bool = False, part: PagePart = CONCERT) -> bytes:
    """Write a song in the key in which it stands.

    Parameters
    ----------
    as_numbers : bool
        Whether chords are numbers, where the kind has a choice.
    part : PagePart
        Whose reading it is written for, where the kind has a choice.
    """
    return OUT_WAYS[kind].write(_Asked(chart, as_numbers, part))


def export_songs(
    charts: Sequence[Chart], kinds: Sequence[OutKind], *, as_numbers: bool = False, part: PagePart = CONCERT
) -> bytes:
    """Write songs into one ZIP, a file each and kind, numbered in their order."""
    digits = len(str(len(charts)))
    names = file_names(f"{place:0{digits}}-{chart.title}" for place, chart in enumerate(charts, 1))
    packed = BytesIO()
    with ZipFile(packed, "w", ZIP_DEFLATED) as archive:
        for name, chart in zip(names, charts, strict=True):
            for kind in kinds:
                member = ZipInfo(f"{name}{OUT_WAYS[kind].ending}", PACKED_AT)
                member.compress_type = ZIP_DEFLATED
                archive.writestr(member, export_song(chart, kind, as_numbers=as_numbers, part=part))
    return packed.getvalue()


def _musicxml(asked: _Asked) -> bytes:
    part = asked.part
    name = {"part": part.label} if part.label else {}
    return write_musicxml(
        asked.chart, as_numbers=asked.as_numbers, written=_written(asked), clef=part.clef, **name
    )


def _written(asked: _Asked) -> Interval:
    """From what sounds to what is written, spelled so that the song stands in the key of the printed page."""
    part, key = asked.part, asked.chart.key
    plain = key.tonic.fifths + part.written.fifths
    turns = (reading_key(part, key).tonic.fifths - plain) // COMMA if part.written.fifths else 0
    return Interval(part.written.fifths + COMMA * turns, part.written.octaves - OCTAVES * turns)


def _mxl(asked: _Asked) -> bytes:
    return pack_musicxml(_musicxml(asked))


def _midi(asked: _Asked) -> bytes:
    return write_midi(asked.chart)


def _abc(asked: _Asked) -> bytes:
    return write_abc(asked.chart, numbers=asked.as_numbers, written=_written(asked)).encode()


def _text(asked: _Asked) -> bytes:
    show: Show = "numbers" if asked.as_numbers else "both"
    return text_page(lay_out(asked.chart, PageView(show, asked.part, words=True))).encode()


def _json(asked: _Asked) -> bytes:
    return write_song_json(asked.chart)


def _chart(asked: _Asked) -> bytes:
    return write_chart(asked.chart).encode()


XML_TYPE = "application/vnd.recordare.musicxml"  # as IANA lists it
_WAYS = (
    OutWay("musicxml", "MusicXML", ".musicxml", f"{XML_TYPE}+xml", _musicxml),
    OutWay("mxl", "MusicXML, packed", ".mxl", XML_TYPE, _mxl),
    OutWay("midi", "MIDI", ".mid", "audio/midi", _midi),
    OutWay("abc", "ABC", ".abc", "text/vnd.abc", _abc),
    OutWay("text", "plain text", ".txt", "text/plain", _text),
    OutWay("json", "JSON", ".json", "application/json", _json),
    OutWay("chart", "chart text", ".chart.md", "text/markdown", _chart),
)
OUT_WAYS: dict[str, OutWay] = {way.kind: way for way in _WAYS}
