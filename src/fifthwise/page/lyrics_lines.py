"""The lines of a lyric sheet, taken from the bars as they are played."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from fifthwise.chart import Chart, Cue, Entry, Line, NoteEvent, PlayedBar, Timeline
from fifthwise.page.lyrics_changes import changes
from fifthwise.page.lyrics_chord import lyric_chord
from fifthwise.page.lyrics_model import LyricLine, Piece
from fifthwise.page.lyrics_spread import Place, joined, spread

__all__ = ["Song", "Stretch", "cues_for", "lyric_line", "stretches"]

# Characters that stand on one line of a page at a size that is read from the stand.
LONGEST_LINE = 56


class Song:
    """A chart and its timeline, with the chords and the sung onsets of each played bar at hand."""

    def __init__(self, chart: Chart, timeline: Timeline, singer: str) -> None:
        self.chart, self.timeline, self.singer = chart, timeline, singer
        self.told = changes(chart, timeline)
        self.chords: dict[int, list[Entry]] = {}
        self.onsets: dict[int, list[Fraction]] = {}
        for entry in timeline.entries:
            self.chords.setdefault(entry.bar, []).append(entry)
        slurred = False
        for event in timeline.notes:
            if not slurred:
                self.onsets.setdefault(event.bar, []).append(event.starts_at)
            slurred = _sings_on(event)

    def line(self, bar: PlayedBar) -> Line:
        """The written line that a played bar stands in."""
        return self.chart.sections[bar.section].lines[bar.line]

    def is_full(self, bar: PlayedBar) -> bool:
        """Whether a played bar is no pickup, and so begins with a bar line."""
        return self.chart.sections[bar.section].bars[bar.bar].pickup is None

    def place_in_line(self, bar: PlayedBar) -> int:
        """A played bar's place among the bars of its written line."""
        return bar.bar - sum(len(line.bars) for line in self.chart.sections[bar.section].lines[: bar.line])


def _sings_on(event: NoteEvent) -> bool:
    return event.note.kind == "note" and event.note.slur


@dataclass(frozen=True, slots=True)
class Stretch:
    """Bars of one written line that are played in a row; ``bars`` are indices into the timeline."""

    bars: tuple[int, ...]
    words: str | None
    verse: int
    verses: int


def stretches(song: Song, bars: Sequence[int]) -> Iterator[Stretch]:
    """Part the bars of one playing of a section into stretches of one line each."""
    group: list[int] = []
    for index in bars:
        if group and _begins_anew(song.timeline.bars[group[-1]], song.timeline.bars[index]):
            yield from _parted(_stretch(song, group))
            group = []
        group.append(index)
    if group:
        yield from _parted(_stretch(song, group))


def _begins_anew(before: PlayedBar, bar: PlayedBar) -> bool:
    return bar.line != before.line or bar.bar <= before.bar


def _stretch(song: Song, bars: list[int]) -> Stretch:
    first = song.timeline.bars[bars[0]]
    words = song.line(first).words
    return Stretch(tuple(bars), words[first.verse] if words else None, first.verse, len(words))


def _parted(stretch: Stretch) -> Iterator[Stretch]:
    """Part a line whose words are too long for a page in the middle, where its bars are known."""
    half = len(stretch.bars) // 2
    words = stretch.words or ""
    if half < 2 or "|" not in words or len(words) <= LONGEST_LINE:
        yield stretch
        return
    yield replace(stretch, bars=stretch.bars[:half])
    yield replace(stretch, bars=stretch.bars[half:])


def cues_for(cues: Sequence[Cue], singer: str) -> tuple[str, ...]:
    """The cues that stand on this singer's page: everyone's, and those with the singer's own name."""
    return tuple(cue.text for cue in cues if cue.text and cue.player in (None, "all", singer.lower()))


def lyric_line(song: Song, stretch: Stretch, *, opener: int) -> LyricLine:
    """Set the chords of a stretch over its words; what changes at the block's opener, its heading tells."""
    words = stretch.words or ""
    if "|" in words:
        cells = words.removeprefix("|").removesuffix("|").split("|")
        pieces = (piece for index in stretch.bars for piece in _bar_pieces(song, index, cells, opener))
        return LyricLine(joined(tuple(pieces)))
    return LyricLine(joined(spread(words.split(), _places(song, stretch.bars, opener))))


def _bar_pieces(song: Song, index: int, cells: list[str], opener: int) -> tuple[Piece, ...]:
    place = song.place_in_line(song.timeline.bars[index])
    return spread((cells[place] if place < len(cells) else "").split(), _places(song, (index,), opener))


def _places(song: Song, bars: Sequence[int], opener: int) -> list[Place]:
    """Chords, bar lines and cues of some bars, by their share of what is sung over them."""
    share = _Share(song, bars)
    found = []
    for index in bars:
        bar = song.timeline.bars[index]
        entries = [e for e in song.chords.get(index, []) if lyric_chord(e, song.chart.numbering)]
        told = (song.told[index],) if index in song.told and index != opener else ()
        cue = ", ".join((*told, *cues_for(bar.cues, song.singer)))
        if not entries or entries[0].written_at > bar.start:
            found.append(Place(share.of(bar.start), None, bar=song.is_full(bar), cue=cue))
            cue = ""
        for entry in entries:
            starts = entry.written_at == bar.start and song.is_full(bar)
            chord = lyric_chord(entry, song.chart.numbering)
            found.append(Place(share.of(entry.written_at), chord, bar=starts, cue=cue))
            cue = ""
    return [place for place in found if place.chord or place.bar or place.cue]


class _Share:
    """How much of the words has been sung at a time: by notes where a tune is there, else by beats."""

    def __init__(self, song: Song, bars: Sequence[int]) -> None:
        played = [song.timeline.bars[index] for index in bars]
        self.spans = [(bar.start, bar.length) for bar in played]
        self.onsets = [onset for index in bars for onset in song.onsets.get(index, [])]
        written = [song.chart.sections[bar.section].bars[bar.bar] for bar in played]
        self.by_notes = bool(self.onsets) and all(bar.tune is not None for bar in written)

    def of(self, at: Fraction) -> Fraction:
        if self.by_notes:
            return Fraction(sum(onset < at for onset in self.onsets), len(self.onsets))
        total = sum((length for _, length in self.spans), Fraction(0))
        done = sum((min(max(at - start, Fraction(0)), length) for start, length in self.spans), Fraction(0))
        return done / total if total else Fraction(0)
