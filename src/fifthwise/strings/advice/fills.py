"""Where a fill fits, and where it leads.

In bars that have a tune: its rests, from the end of the sung note until half a beat before the next one.
In bars that have none the voice is not known: there the last bar of each line and section is offered, from
its second beat, since the line's last word falls on the first, until half a beat before a pickup, which is
taken to be sung. No fill lies in a rest, in NC or after a stop: that silence is the band's. A fill is judged
by where it ends, so each leads to a chord. Common practice; the endings: Townend, Bluegrass Your Fiddle 1-10;
out of the singer's way: teaching pages on back-up fiddling.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import groupby
from typing import Literal

from fifthwise.chart import Chart, PlayedBar, Timeline
from fifthwise.strings.advice.landing import LandingNote
from fifthwise.strings.advice.sounding import SoundingChord, landings, sounding_chords
from fifthwise.strings.advice.spans import Span, left_of
from fifthwise.theory import Metre

__all__ = ["LEAST_BEATS", "FillKind", "FillSlot", "fills"]

FillKind = Literal["gap", "phrase end", "break"]
LEAST_BEATS = Fraction(3, 2)  # the gap is half a beat longer, which is left to the singer's breath
MARGIN_BEATS = Fraction(1, 2)
BREAK_BARS = 2
BEST, TOLD = 3, 2
PARTS = {
    Fraction(0): "", Fraction(1, 4): "¼", Fraction(1, 3): "⅓", Fraction(1, 2): "½", Fraction(2, 3): "⅔",
    Fraction(3, 4): "¾",
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class FillSlot:
    """A place for a fill.

    Attributes
    ----------
    kind : {'gap', 'phrase end', 'break'}
        Between notes of the tune; at the end of a line without one; a gap of more than two bars, which is no
        fill any more but a solo.
    bar : int
        Index into ``Timeline.bars`` of the bar in which it begins.
    starts_at, length : Fraction
        Quarters.
    chords : tuple of SoundingChord
        What sounds meanwhile.
    lands_on : SoundingChord
        The chord that sounds when the voice comes in again, or the last one of the slot.
    notes : tuple of LandingNote
        The best notes to land on there, reached from the chord before.
    words : str
        ``Bar 4 (verse), from beat 2: 2½ beats over 5, into 1. Land on 3 or 1.``.
    """

    kind: FillKind
    bar: int
    starts_at: Fraction
    length: Fraction
    chords: tuple[SoundingChord, ...]
    lands_on: SoundingChord
    notes: tuple[LandingNote, ...]
    words: str

    @property
    def ends_at(self) -> Fraction:
        """When it has to be over, in quarters."""
        return self.starts_at + self.length


def fills(chart: Chart, timeline: Timeline) -> tuple[FillSlot, ...]:
    """Find the places for fills in a song as played, in order of time; none where no chord sounds."""
    chords = sounding_chords(timeline, chart.numbering)
    closed = (*_sung(timeline), *_pickups(chart, timeline), *_silences(timeline, chords))
    song = _Song(timeline, chords, landings(chords))
    found = []
    for window, tuned in _windows(chart, timeline):
        for span in left_of(window, closed):
            bar = song.bar_at(span.start)
            if span.length >= LEAST_BEATS * count_beat(timeline.bars[bar].metre):
                found.append(_slot(song, span, bar, tuned=tuned))
    return tuple(found)


def count_beat(metre: Metre) -> Fraction:
    """The beat of a fill, in quarters: a felt beat; a quarter in halves and where groups are named."""
    return min(metre.tempo_unit, Fraction(1)) if metre.unit == 2 else metre.tempo_unit


def _sung(timeline: Timeline) -> Iterator[Span]:
    for event in timeline.notes:
        if event.note.kind == "note":
            yield Span(event.starts_at - _margin(timeline.bars[event.bar]), event.starts_at + event.length)


def _pickups(chart: Chart, timeline: Timeline) -> Iterator[Span]:
    """Pickups without a tune, over the end of the bar before."""
    for bar in timeline.bars:
        if bar.overlays and not _is_tuned(chart, bar):
            yield Span(bar.start - _margin(bar), bar.start + bar.length)


def _margin(bar: PlayedBar) -> Fraction:
    return MARGIN_BEATS * count_beat(bar.metre)


def _is_tuned(chart: Chart, bar: PlayedBar) -> bool:
    return chart.sections[bar.section].bars[bar.bar].tune is not None


def _silences(timeline: Timeline, chords: tuple[SoundingChord, ...]) -> tuple[Span, ...]:
    whole = Span(Fraction(0), timeline.length)
    return left_of(whole, [Span(chord.starts_at, chord.ends_at) for chord in chords])


def _windows(chart: Chart, timeline: Timeline) -> Iterator[tuple[Span, bool]]:
    """Spans in which fills are looked for, and whether a tune is written there."""
    bars = [bar for bar in timeline.bars if not bar.overlays]
    tuned = [_is_tuned(chart, bar) for bar in bars]
    ends = _phrase_ends(chart, bars)
    start: Fraction | None = None
    for place, bar in enumerate(bars):
        last = place + 1 == len(bars)
        margin = Fraction(0) if last else _margin(bar)
        if tuned[place]:
            start = bar.start if start is None else start
            if last or not tuned[place + 1]:
                yield Span(start, bar.start + bar.length - margin), True
                start = None
        elif place in ends:
            yield _end_window(bar, margin), False


def _end_window(bar: PlayedBar, margin: Fraction) -> Span:
    """A line's last bar from its second beat, or all of it where that is too short."""
    beat = count_beat(bar.metre)
    enough = bar.length - beat - margin >= LEAST_BEATS * beat
    return Span(bar.start + (beat if enough else 0), bar.start + bar.length - margin)


def _phrase_ends(chart: Chart, bars: list[PlayedBar]) -> set[int]:
    """The bars that end a section or a line of two bars, two or more after the last such end."""
    ends, run = set(), 0
    for place, bar in enumerate(bars):
        run += 1
        after = bars[place + 1] if place + 1 < len(bars) else None
        section_ends = after is None or after.visit != bar.visit
        line_ends = section_ends or after is None or after.line != bar.line or after.bar <= bar.bar
        long = section_ends or len(chart.sections[bar.section].lines[bar.line].bars) > 1
        if line_ends and long:
            if run > 1:
                ends.add(place)
            run = 0
    return ends


@dataclass(frozen=True, slots=True)
class _Song:
    """A song's bars and chords, and the notes to land on at each chord."""

    timeline: Timeline
    chords: tuple[SoundingChord, ...]
    told: tuple[tuple[LandingNote, ...], ...]

    def bar_at(self, when: Fraction) -> int:
        bars = self.timeline.bars
        return max(i for i, bar in enumerate(bars) if not bar.overlays and bar.start <= when)


def _slot(song: _Song, span: Span, bar: int, *, tuned: bool) -> FillSlot:
    chords, first = song.chords, song.timeline.bars[bar]
    within = [i for i, c in enumerate(chords) if c.starts_at < span.end and c.ends_at > span.start]
    entry = span.end + _margin(first)
    lands = next((i for i, c in enumerate(chords) if c.starts_at <= entry < c.ends_at), within[-1])
    kind: FillKind = "gap" if tuned else "phrase end"
    if tuned and span.length > BREAK_BARS * first.metre.length:
        kind = "break"
    over, notes = tuple(chords[i] for i in within), song.told[lands][:BEST]
    words = f"{_where(first, span)} {_lead(over, chords[lands])} {_land(notes)}"
    return FillSlot(kind, bar, span.start, span.length, over, chords[lands], notes, words)


def _where(bar: PlayedBar, span: Span) -> str:
    beat = count_beat(bar.metre)
    first = 1 + (span.start - bar.start + bar.metre.length - bar.length) / beat
    name = f" ({bar.section_name})" if bar.section_name else ""
    return f"Bar {bar.number}{name}, from beat {_count(first)}: {_count(span.length / beat)} beats"


def _lead(over: tuple[SoundingChord, ...], lands_on: SoundingChord) -> str:
    chords = " ".join(text for text, _ in groupby(chord.text for chord in over))
    return f"over {chords}." if lands_on in over else f"over {chords}, into {lands_on.text}."


def _land(notes: tuple[LandingNote, ...]) -> str:
    return f"Land on {' or '.join(note.written for note in notes[:TOLD])}."


def _count(beats: Fraction) -> str:
    whole, part = divmod(beats, 1)
    if part in PARTS:
        return f"{whole or ''}{PARTS[part]}" or "0"
    return f"{float(beats):.1f}"
