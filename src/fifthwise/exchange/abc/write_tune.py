"""A chart as an ABC tune."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from fractions import Fraction

from fifthwise.chart import Chart
from fifthwise.exchange.abc.write_bar import BarText, Bow, ChordHand, bar_text
from fifthwise.exchange.abc.write_notes import PitchWriter
from fifthwise.exchange.abc.write_texts import field_text
from fifthwise.exchange.chart_sheet import sheet_of_chart
from fifthwise.exchange.lead_sheet import LeadBar, LeadSheet
from fifthwise.exchange.paper import late_pickups, ties_over, written_key
from fifthwise.theory import Interval, Key, Metre, NoteName, Numbering

__all__ = ["write_abc"]

VERSION = "%abc-2.1"
BARS_A_LINE = 4
CONCERT = Interval(0, 0)
MODES = {"major": "", "minor": "m"}
LOW = 50  # MIDI: below D3 a tune stands in the bass clef


def write_abc(
    chart: Chart,
    *,
    numbers: bool = False,
    written: Interval = CONCERT,
    title: str | None = None,
    number: int = 1,
) -> str:
    """Write a chart: chords in letters, tune, words, and the way through the song.

    Parameters
    ----------
    numbers : bool
        Whether chords stand in numbers over their letters too.
    written : Interval
        From the sounding note to the one that is written: a major second up for a B-flat trumpet. The tune
        is then as the player reads it.
    title : str or None
        ``None`` takes the chart's.
    number : int
        Of the tune in its file.

    Returns
    -------
    str
        ABC 2.1; always the same for the same chart.
    """
    sheet = _without_silence(sheet_of_chart(chart))
    lines = _Tune(sheet, chart.numbering, written, numbers).lines(title or sheet.title, number)
    return "\n".join((VERSION, *lines)) + "\n"


def _without_silence(sheet: LeadSheet) -> LeadSheet:
    """A sheet without its ``N.C.`` where it has no other chord."""
    if any(chord.chord is not None or chord.marks for bar in sheet.bars for chord in bar.chords):
        return sheet
    return replace(sheet, bars=tuple(replace(bar, chords=()) for bar in sheet.bars))


class _Tune:
    """Writes the lines of one tune."""

    def __init__(self, sheet: LeadSheet, numbering: Numbering, written: Interval, numbers: bool) -> None:
        self.sheet, self.numbering, self.written, self.numbers = sheet, numbering, written, numbers
        self.late = late_pickups(sheet.bars)
        self.bow = Bow(sum(not note.goes_on for bar in sheet.bars for note in bar.notes))
        self.in_ending = False

    def lines(self, title: str, number: int) -> Iterator[str]:
        """The head, and the music line by line."""
        yield from self._head(title, number)
        bars = self.sheet.bars
        start = 0
        while start < len(bars):
            end = _line_end(bars, start, self.late)
            if bars[start].section:
                yield f"P:{field_text(bars[start].section)}"
            found = [self._bar(at, is_last=at + 1 == end) for at in range(start, end)]
            yield "".join(bar.music for bar in found).rstrip()
            if any(note.syllable.strip() for bar in bars[start:end] for note in bar.notes):
                yield "w: " + " | ".join(bar.words.strip() for bar in found)
            start = end

    def _head(self, title: str, number: int) -> Iterator[str]:
        yield f"X:{number}"
        yield f"T:{field_text(title)}"
        if self.sheet.by:
            yield f"C:{field_text(self.sheet.by)}"
        first = self.sheet.bars[0] if self.sheet.bars else None
        yield f"M:{_metre(first.metre) if first else 'none'}"
        yield "L:1/8"
        tempo = _tempo(first.tempo_bpm, first.metre) if first and first.tempo_bpm is not None else ""
        feel = '"' + field_text(self.sheet.feel.replace('"', "'")) + '"' if self.sheet.feel else ""
        if tempo or feel:
            yield f"Q:{feel} {tempo}".rstrip()
        key = _key(written_key(first.key, self.written)[0]) if first else "none"
        yield f"K:{key}{self._clef()}"

    def _clef(self) -> str:
        midis = sorted(p.midi for bar in self.sheet.bars for note in bar.notes for p in note.pitches)
        low = bool(midis) and midis[len(midis) // 2] + self.written.semitones < LOW
        return " clef=bass" if low else ""

    def _bar(self, at: int, *, is_last: bool) -> BarText:
        """A bar with the lines on both of its sides."""
        bars = self.sheet.bars
        bar, before = bars[at], bars[at - 1] if at else None
        after = bars[at + 1] if at + 1 < len(bars) else None
        key, by = written_key(bar.key, self.written)
        one = self.numbering.one(bar.key)
        hand = ChordHand(NoteName(one.fifths + by.fifths), one, self.numbers)
        found = bar_text(
            bar,
            self.late[at],
            PitchWriter(key, by),
            hand,
            self.bow,
            ties=bool(after and bar.notes and ties_over(bar, after)),
        )
        opens = self._opens(bar) + self._changes(bar, before, key)
        closes = self._closes(bar, after)
        if not is_last and after is not None and after.repeat_start and closes == "|":
            closes = ""  # the next bar opens with a line of its own
        return BarText(f"{opens}{found.music} {closes}{' ' if closes else ''}", found.words)

    def _opens(self, bar: LeadBar) -> str:
        """The bar line before a bar, where a repeat or an ending begins."""
        self.in_ending = self.in_ending or bool(bar.endings)
        ending = f"[{','.join(map(str, bar.endings))} " if bar.endings else ""
        return ("|:" if bar.repeat_start else "") + ending

    def _closes(self, bar: LeadBar, after: LeadBar | None) -> str:
        ends = self.in_ending and bar.ends_ending
        self.in_ending = self.in_ending and not ends
        if bar.repeat_end:
            return ":" * (max(bar.repeat_end, 2) - 1) + "|"
        if after is None:
            return "|]"
        is_double = bool(after.section) and not self.in_ending
        return "||" if (ends and not after.endings) or is_double else "|"

    def _changes(self, bar: LeadBar, before: LeadBar | None, key: Key) -> str:
        """What has changed since the bar before."""
        if before is None:
            return ""
        found = []
        if bar.key != before.key:
            found.append(f"[K:{_key(key)}]")
        if bar.metre != before.metre:
            found.append(f"[M:{_metre(bar.metre)}]")
        if bar.tempo_bpm is not None:
            found.append(f"[Q:{_tempo(bar.tempo_bpm, bar.metre)}]")
        return "".join(found)


def _line_end(bars: Sequence[LeadBar], start: int, late: Sequence[Fraction]) -> int:
    """Where a line of music ends: after four bars, or before a section."""
    whole = 0
    for at in range(start, len(bars)):
        if at > start and bars[at].section:
            return at
        whole += not late[at]
        if whole == BARS_A_LINE:
            return at + 1
    return len(bars)


def _key(key: Key) -> str:
    return f"{key.tonic}{MODES.get(key.mode, key.mode[:3])}"


def _metre(metre: Metre) -> str:
    beats = "+".join(map(str, metre.groups)) or str(metre.count)
    return f"{beats}/{metre.unit}"


def _tempo(tempo_bpm: Fraction, metre: Metre) -> str:
    unit = metre.tempo_unit
    beats = tempo_bpm / unit
    shown = f"{float(beats):.6f}".rstrip("0").rstrip(".")
    return f"{(unit / 4).numerator}/{(unit / 4).denominator}={shown}"
