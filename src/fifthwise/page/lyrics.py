"""The lyric sheet: a song's words in playing order, chords over them, and the note it starts on."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby

from fifthwise.chart import Chart, PlayedBar, Timeline, unfold
from fifthwise.page.lyrics_lines import Song, Stretch, cues_for, lyric_line, stretches
from fifthwise.page.lyrics_model import LyricBlock, LyricLine, LyricSheet, Piece
from fifthwise.page.lyrics_start import reach_words, start_words
from fifthwise.page.text_signs import printed_key, printed_tempo
from fifthwise.theory import Key, SpelledPitch

__all__ = ["lyric_sheet"]


def lyric_sheet(chart: Chart, *, singer: str = "", one: SpelledPitch | None = None) -> LyricSheet:
    """Write a song out for its singer.

    Parameters
    ----------
    chart : Chart
        The song in tonight's key.
    singer : str, optional
        Who sings; cues with this name are printed too.
    one : SpelledPitch, optional
        The unmarked 1 as it is sung, where a singer's key settled it; otherwise the chart's octave.

    Returns
    -------
    LyricSheet
        Every playing of every section, in order.
    """
    timeline = unfold(chart)
    one = None if one is None else _as_called(one, chart)
    song = Song(chart, timeline, singer)
    return LyricSheet(
        chart.title,
        chart.by or "",
        singer,
        printed_key(chart.key),
        _facts(chart),
        start_words(chart, timeline, one),
        reach_words(chart, timeline, one),
        tuple(_marked_again(_named_keys(_blocks(song), timeline))),
    )


def _as_called(one: SpelledPitch, chart: Chart) -> SpelledPitch:
    """The same 1 in the spelling of tonight's key: C♭ where the singer's keys say B."""
    name = chart.numbering.one(chart.key)
    octaves = (one.octave - 1, one.octave, one.octave + 1)
    named = (SpelledPitch(name.fifths, octave) for octave in octaves)
    return next((pitch for pitch in named if pitch.midi == one.midi), one)


def _facts(chart: Chart) -> tuple[str, ...]:
    return tuple(
        fact for fact in (str(chart.metre), printed_tempo(chart), chart.feel or "", _home(chart)) if fact
    )


def _home(chart: Chart) -> str:
    """Where a minor song comes home, since its numbers may count from elsewhere."""
    if not chart.key.is_minor:
        return ""
    if chart.minor == "natural":
        return "home is 1–; 3, 6 and 7 are the minor scale’s"
    return "home is 6–" if chart.minor == "from-six" else "home is 1–"


def _blocks(song: Song) -> Iterator[tuple[LyricBlock, PlayedBar, PlayedBar]]:
    """Blocks, each with its first and its last bar."""
    indices = range(len(song.timeline.bars))
    for _, visit in groupby(indices, key=lambda index: song.timeline.bars[index].visit):
        for part in _by_verse(list(stretches(song, list(visit)))):
            bars = song.timeline.bars
            yield _block(song, part), bars[part[0].bars[0]], bars[part[-1].bars[-1]]


def _by_verse(parts: list[Stretch]) -> Iterator[list[Stretch]]:
    """A repeat that brings the next verse begins a block of its own."""
    group: list[Stretch] = []
    verse: int | None = None
    for part in parts:
        if part.verses > 1:
            if group and verse is not None and part.verse != verse:
                yield group
                group = []
            verse = part.verse
        group.append(part)
    yield group


def _block(song: Song, parts: Sequence[Stretch]) -> LyricBlock:
    parts = [part for part in parts if not _is_vamped_again(song, part)]
    first = parts[0].bars[0]
    bars = [song.timeline.bars[index] for part in parts for index in part.bars]
    section = song.chart.sections[bars[0].section]
    lines = [line for part in parts if (line := lyric_line(song, part, opener=first)).pieces]
    folded, times = _folded(lines)
    vamps = [f"open, {bar.vamp}" if bar.vamp else "open" for bar in bars if bar.vamp is not None][:1]
    told = [song.told[first]] if first in song.told else []
    cues = (*told, *cues_for(section.cues, song.singer), *vamps)
    played = sum(not bar.overlays for bar in bars)
    return LyricBlock(_name(section.name, parts), played, tuple(folded), times, cues=cues)


def _is_vamped_again(song: Song, part: Stretch) -> bool:
    """Whether this is a later time through an open vamp, which nobody counts."""
    bar = song.timeline.bars[part.bars[0]]
    return bar.vamp is not None and bar.repeat_pass > 1 and part.verses < 2


def _name(name: str | None, parts: Sequence[Stretch]) -> str:
    """The section's name, with the verse's number where there are several."""
    several = [part.verse + 1 for part in parts if part.verses > 1]
    shown = name or ("Verse" if several else "")
    if several and not shown[-1:].isdigit():
        shown = f"{shown} {several[0]}"
    return shown[:1].upper() + shown[1:]


def _folded(lines: list[LyricLine]) -> tuple[list[LyricLine], int]:
    """Lines that are sung several times over in the very same way are written once."""
    for times in range(len(lines), 1, -1):
        size, rest = divmod(len(lines), times)
        if not rest and lines == lines[:size] * times:
            return lines[:size], times
    return lines, 1


def _named_keys(
    blocks: Iterator[tuple[LyricBlock, PlayedBar, PlayedBar]], timeline: Timeline
) -> Iterator[LyricBlock]:
    before: Key | None = timeline.bars[0].key if timeline.bars else None
    for block, first, last in blocks:
        yield block if first.key == before else replace(block, key=printed_key(first.key))
        before = last.key


def _marked_again(blocks: Iterator[LyricBlock]) -> Iterator[LyricBlock]:
    seen: list[tuple[object, ...]] = []
    for block in blocks:
        same = (block.name, block.times, [[_heard(piece) for piece in line.pieces] for line in block.lines])
        yield replace(block, again=same in seen and block.is_sung)
        seen.append(same)


def _heard(piece: Piece) -> tuple[str, str, str]:
    """What is sung, played and told at a word; letters may differ after a change of key."""
    return piece.word, "" if piece.chord is None else piece.chord.number, piece.cue
