"""A chart as a MusicXML 4.0 file, plain or packed."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from io import BytesIO
from math import lcm
from zipfile import ZIP_DEFLATED, ZipFile, ZipInfo

from fifthwise.chart import Chart
from fifthwise.exchange.chart_sheet import sheet_of_chart
from fifthwise.exchange.lead_sheet import LeadBar, LeadSheet
from fifthwise.exchange.musicxml.mxl import CONTAINER, MEDIA_TYPE
from fifthwise.exchange.musicxml.pen import element, escaped
from fifthwise.exchange.musicxml.read_attributes import CONCERT
from fifthwise.exchange.musicxml.write_directions import after_bar, before_bar, left_barline, right_barline
from fifthwise.exchange.musicxml.write_harmony import count_in
from fifthwise.exchange.musicxml.write_notes import BarWriter, Carried, Laid, laid
from fifthwise.exchange.paper import late_pickups, ties_over, written_key
from fifthwise.theory import Interval, Key, Metre, Numbering

__all__ = ["pack_musicxml", "write_musicxml"]

HEAD = '<?xml version="1.0" encoding="UTF-8"?>\n<score-partwise version="4.0">'
IMPLICIT = ' implicit="yes"'
CLEFS = {"treble": ("G", 2), "alto": ("C", 3), "tenor": ("C", 4), "bass": ("F", 4)}
# A part of chords alone: programs that know slashes draw them, the others draw rests.
SLASHES = '<measure-style><slash type="start" use-stems="no"/></measure-style>'
MIDDLE = 57  # MIDI: below A3 a tune is easier to read in the bass clef
MOST_DIVISIONS = 16_383  # of a quarter, which every program can count; a bar that needs others says so
PACKED_AT = (1980, 1, 1, 0, 0, 0)


def write_musicxml(
    chart: Chart,
    *,
    as_numbers: bool = False,
    written: Interval = CONCERT,
    clef: str | None = None,
    title: str | None = None,
    part: str = "Lead sheet",
) -> bytes:
    """Write a chart: chords, tune, words, and the way through the song.

    Parameters
    ----------
    as_numbers : bool
        Whether chords are written as numerals, rather than as letters.
    written : Interval
        From the sounding note to the one that is written: a major second up for a B-flat trumpet.
    clef : {'treble', 'alto', 'tenor', 'bass'} or None
        ``None`` takes treble or bass, as the tune lies.
    title : str or None
        ``None`` takes the chart's.
    part : str
        The name of the part.

    Returns
    -------
    bytes
        UTF-8; always the same for the same chart.
    """
    sheet = sheet_of_chart(chart)
    how = _How(chart.numbering, as_numbers, written, clef, chart.tempo is not None)
    return "".join(_Score(sheet, how).text(title or sheet.title, part)).encode()


def pack_musicxml(data: bytes) -> bytes:
    """Pack a MusicXML file (``.mxl``)."""
    file = BytesIO()
    root = f'<rootfile full-path="score.musicxml" media-type="{MEDIA_TYPE}"/>'
    container = (
        f'<?xml version="1.0" encoding="UTF-8"?>\n<container><rootfiles>{root}</rootfiles></container>'
    )
    with ZipFile(file, "w", ZIP_DEFLATED) as archive:
        for name, content in ((CONTAINER, container.encode()), ("score.musicxml", data)):
            member = ZipInfo(name, PACKED_AT)
            member.compress_type = ZIP_DEFLATED
            archive.writestr(member, content)
    return file.getvalue()


@dataclass(frozen=True, slots=True)
class _How:
    """How a part is written; as in ``write_musicxml``, and whether its first tempo is printed."""

    numbering: Numbering
    as_numbers: bool
    written: Interval
    clef: str | None
    marks_tempo: bool


class _Score:
    """Writes the bars of one part."""

    def __init__(self, sheet: LeadSheet, how: _How) -> None:
        self.sheet, self.how = sheet, how
        self.carried = Carried(sum(not note.goes_on for bar in sheet.bars for note in bar.notes))
        self.has_tune = any(bar.notes for bar in sheet.bars)
        self.late = late_pickups(sheet.bars)
        self.laid = [laid(bar, late) for bar, late in zip(sheet.bars, self.late, strict=True)]
        self.divisions = [_divisions(bar, laid) for bar, laid in zip(sheet.bars, self.laid, strict=True)]
        common = lcm(1, *self.divisions)
        if common <= MOST_DIVISIONS:
            self.divisions = [common] * len(self.divisions)

    def text(self, title: str, part: str) -> Iterator[str]:
        """The file, piece by piece."""
        yield HEAD
        yield element("work", element("work-title", escaped(title)))
        by = f'<creator type="composer">{escaped(self.sheet.by)}</creator>' if self.sheet.by else ""
        yield element("identification", by + element("encoding", element("software", "fifthwise")))
        named = element("part-name", escaped(part))
        yield element("part-list", f'<score-part id="P1">{named}</score-part>')
        yield '<part id="P1">'
        number = 0
        endings: Sequence[int] = ()
        for at, bar in enumerate(self.sheet.bars):
            implicit = self.late[at] > 0
            number += not implicit
            endings = bar.endings or endings
            named = f"X{at + 1}" if implicit and at else str(number)
            yield f'<measure number="{named}"{IMPLICIT if implicit else ""}>'
            yield from self._bar(at, bar, endings)
            yield "</measure>"
            endings = () if bar.ends_ending else endings
        yield "</part></score-partwise>\n"

    def _bar(self, at: int, bar: LeadBar, endings: Sequence[int]) -> Iterator[str]:
        bars = self.sheet.bars
        before, after = (bars[at - 1] if at else None), (bars[at + 1] if at + 1 < len(bars) else None)
        key, by = written_key(bar.key, self.how.written)
        yield left_barline(bar)
        yield self._attributes(at, bar, before, key, by)
        yield before_bar(bar, self.sheet.feel if at == 0 else "", marked=at > 0 or self.how.marks_tempo)
        count = count_in(bar.key, self.how.numbering, by.fifths, as_numbers=self.how.as_numbers)
        ties = bool(after and bar.notes and ties_over(bar, after))
        writer = BarWriter(bar, self.laid[at], self.divisions[at], by, count, self.carried, ties=ties)
        yield from writer.text()
        yield after_bar(bar)
        is_double = after is not None and bool(after.section) and not after.repeat_start
        yield right_barline(bar, endings, is_last=after is None, is_double=is_double)

    def _attributes(self, at: int, bar: LeadBar, before: LeadBar | None, key: Key, by: Interval) -> str:
        """What has changed since the bar before."""
        found = []
        if before is None or self.divisions[at] != self.divisions[at - 1]:
            found.append(element("divisions", self.divisions[at]))
        if before is None or bar.key != before.key:
            signature = element("fifths", key.signature) + element("mode", key.mode)
            found.append(element("key", signature))
        if before is None or bar.metre != before.metre:
            found.append(_time(bar.metre))
        if before is None:
            found.append(self._clef(by))
        if by != CONCERT and (before is None or by != written_key(before.key, self.how.written)[1]):
            found.append(_transposition(-by))
        if before is None and not self.has_tune:
            found.append(SLASHES)
        return element("attributes", "".join(found)) if found else ""

    def _clef(self, by: Interval) -> str:
        midis = sorted(p.midi for bar in self.sheet.bars for note in bar.notes for p in note.pitches)
        low = bool(midis) and midis[len(midis) // 2] + by.semitones < MIDDLE
        sign, line = CLEFS[self.how.clef or ("bass" if low else "treble")]
        return element("clef", element("sign", sign) + element("line", line))


def _divisions(bar: LeadBar, laid: Laid) -> int:
    """The parts of a quarter that a bar's notes and chords need."""
    times = [bar.length, *(chord.at for chord in bar.chords)]
    times += [time for value in laid.values for time in (value.start, value.length)]
    return lcm(*(time.denominator for time in times))


def _time(metre: Metre) -> str:
    beats = "+".join(map(str, metre.groups)) or str(metre.count)
    return element("time", element("beats", beats) + element("beat-type", metre.unit))


def _transposition(sounding: Interval) -> str:
    """From the written note to the sounding one, whole octaves apart."""
    octaves = int(sounding.steps / 7)
    diatonic, chromatic = sounding.steps - 7 * octaves, sounding.semitones - 12 * octaves
    octave = element("octave-change", octaves) if octaves else ""
    return element("transpose", element("diatonic", diatonic) + element("chromatic", chromatic) + octave)
