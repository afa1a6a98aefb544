"""Places of the form that a player may be asked for: kick-off, tag and turnaround.

Each is told only where the chart says enough for it. Common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from fifthwise.chart import Chart, PlayedBar, Timeline
from fifthwise.strings.advice.roles import chord_text
from fifthwise.strings.advice.scales import chord_kind
from fifthwise.strings.advice.sounding import SoundingChord, sounding_chords
from fifthwise.theory import Degree, Key, NumberChord, Numbering, make_quality

__all__ = ["FormPlace", "FormPlaceKind", "form_places"]

FormPlaceKind = Literal["kick-off", "tag", "turnaround"]
FEWEST_BARS, MOST_BARS = 2, 4
FIFTH, SECOND, SIXTH = 1, 2, 3  # on the line of fifths
EVEN = 2
BEGINNINGS = ("intro", "introduction", "kick-off", "opening", "turn", "turnaround")
ENDINGS = ("tag", "outro", "out", "coda", "ending", "end")
MAJOR, MINOR, SEVENTH = make_quality("", ""), make_quality("-", ""), make_quality("", "7")


@dataclass(frozen=True, slots=True)
class FormPlace:
    """A place of the form that may be filled.

    Attributes
    ----------
    bars : tuple of int
        Indices into ``Timeline.bars``: what a kick-off or a tag takes up, where a turnaround goes; empty
        where no bars of the song are meant.
    chords : tuple of NumberChord
        What is played instead of what is written; empty where it is as written.
    words : str
        ``Tag: the last line once more, bars 5 to 8.``
    """

    kind: FormPlaceKind
    bars: tuple[int, ...]
    chords: tuple[NumberChord, ...]
    words: str


def form_places(chart: Chart, timeline: Timeline) -> tuple[FormPlace, ...]:
    """Tell a kick-off, a tag and the turnarounds of a song, as far as its chart says enough.

    - Kick-off, unless the song begins with an intro of its own: the last two to four bars of the first part
      whose tune is written there; otherwise the 5 and the 1.
    - Tag: the last line once more, unless the song ends with a tag of its own.
    - Turnaround, in a major key and an even metre: 1 6- 2- 5 over two bars of 1 that end a part, or a pass
      through a repeat, where what comes next begins on 1.
    """
    chords = sounding_chords(timeline, chart.numbering)
    if not chords:
        return ()
    parts = _parts(timeline)
    found = [*_kick_off(chart, timeline, parts, chords[0]), *_tag(timeline, parts[-1])]
    return (*found, *_turnarounds(timeline, parts, chords))


def _parts(timeline: Timeline) -> list[list[int]]:
    """The bars of each playing of a section, and of each pass through a repeat in it.

    A pickup over the bar before counts with nothing.
    """
    parts: list[list[int]] = []
    before: PlayedBar | None = None
    for place, bar in enumerate(timeline.bars):
        if bar.overlays:
            continue
        if before is None or before.visit != bar.visit or bar.bar <= before.bar:
            parts.append([])
        parts[-1].append(place)
        before = bar
    return parts


def _is_called(timeline: Timeline, part: list[int], names: tuple[str, ...]) -> bool:
    words = (timeline.bars[part[0]].section_name or "").lower().replace(",", " ").split()
    return bool(words) and words[0] in names


def _kick_off(
    chart: Chart, timeline: Timeline, parts: list[list[int]], first: SoundingChord
) -> Iterator[FormPlace]:
    if _is_called(timeline, parts[0], BEGINNINGS):
        return
    tuned = (
        last for part in parts if (last := _last_line(timeline, part)) and _has_tune(chart, timeline, last)
    )
    if last := next(tuned, ()):
        name = timeline.bars[last[0]].section_name
        of = f" in the {name}" if name else ""
        words = f"Kick-off: the tune's last bars{of}, {_bars_text(timeline, last)}."
        yield FormPlace("kick-off", last, (), words)
        return
    pair = _five_one(first.key, chart.numbering)
    text = " ".join(chord_text(chord, first.key, chart.numbering) for chord in pair)
    yield FormPlace("kick-off", (), pair, f"Kick-off: {text}.")


def _has_tune(chart: Chart, timeline: Timeline, places: tuple[int, ...]) -> bool:
    bars = [timeline.bars[i] for i in places]
    return all(chart.sections[bar.section].bars[bar.bar].tune for bar in bars)


def _last_line(timeline: Timeline, part: list[int]) -> tuple[int, ...]:
    """The last line of a part, at most its last four bars; of a shorter line, as many bars as make two."""
    full = [i for i in part if timeline.bars[i].number]
    if not full:
        return ()
    line = [i for i in full if timeline.bars[i].line == timeline.bars[full[-1]].line]
    count = min(max(len(line), FEWEST_BARS), MOST_BARS)
    return tuple(full[-count:]) if len(full) >= FEWEST_BARS else ()


def _five_one(key: Key, numbering: Numbering) -> tuple[NumberChord, NumberChord]:
    home = numbering.home(key)
    minor = any(str(degree) == "b3" for degree in key.scale)
    return NumberChord(Degree(home.fifths + FIFTH), SEVENTH), NumberChord(home, MINOR if minor else MAJOR)


def _tag(timeline: Timeline, part: list[int]) -> Iterator[FormPlace]:
    last = _last_line(timeline, part)
    if last and not _is_called(timeline, part, ENDINGS):
        yield FormPlace("tag", last, (), f"Tag: the last line once more, {_bars_text(timeline, last)}.")


def _turnarounds(
    timeline: Timeline, parts: list[list[int]], chords: tuple[SoundingChord, ...]
) -> Iterator[FormPlace]:
    for part, after in pairwise(parts):
        last = tuple(part[-FEWEST_BARS:])
        bars, following = [timeline.bars[i] for i in last], timeline.bars[after[0]]
        if _has_room(bars, following) and _is_home(bars, following, chords):
            turn = _turn()
            text = " ".join(chord_text(chord, following.key) for chord in turn)
            yield FormPlace("turnaround", last, turn, f"Turnaround: {text}, {_bars_text(timeline, last)}.")


def _has_room(bars: list[PlayedBar], following: PlayedBar) -> bool:
    """Two bars of an even metre in the major key that goes on, and more than a vamp on these two."""
    vamp = (following.section, following.bar) in [(bar.section, bar.bar) for bar in bars]
    even = all(bar.metre.beats % EVEN == 0 and bar.key == following.key for bar in bars)
    return len(bars) == FEWEST_BARS and even and following.key.mode == "major" and not vamp


def _is_home(bars: list[PlayedBar], following: PlayedBar, chords: tuple[SoundingChord, ...]) -> bool:
    return all(_on_one(bar, chords) for bar in bars) and _begins_on_one(following, chords)


def _on_one(bar: PlayedBar, chords: tuple[SoundingChord, ...]) -> bool:
    """Whether the home chord sounds from one end of a bar to the other."""
    end = bar.start + bar.length
    inside = [each for each in chords if each.starts_at < end and each.ends_at > bar.start]
    covered = sum(min(each.ends_at, end) - max(each.starts_at, bar.start) for each in inside)
    return covered == bar.length and all(_is_one(each.chord) for each in inside)


def _begins_on_one(bar: PlayedBar, chords: tuple[SoundingChord, ...]) -> bool:
    return any(each.starts_at <= bar.start < each.ends_at and _is_one(each.chord) for each in chords)


def _is_one(chord: NumberChord) -> bool:
    return chord.root.fifths == 0 and chord.bass is None and chord_kind(chord.quality) == "major"


def _turn() -> tuple[NumberChord, ...]:
    """1 6- 2- 5."""
    places = ((0, MAJOR), (SIXTH, MINOR), (SECOND, MINOR), (FIFTH, MAJOR))
    return tuple(NumberChord(Degree(fifths), quality) for fifths, quality in places)


def _bars_text(timeline: Timeline, bars: tuple[int, ...]) -> str:
    return f"bars {timeline.bars[bars[0]].number} to {timeline.bars[bars[-1]].number}"
