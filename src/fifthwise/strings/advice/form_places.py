"""Places of the form that a player may be asked for: kick-off, tag and turnaround.

Each is told only where the chart says enough for it. Common practice, no source.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import groupby, pairwise
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

    - Kick-off: the last two to four bars of the first sung part, where its tune is written there; otherwise
      the 5 and the 1.
    - Tag: the last line once more, unless the song ends with a tag of its own.
    - Turnaround, in a major key and an even metre: 1 6- 2- 5 over two bars of 1 that end a part, where the
      next one begins on 1.
    """
    chords = sounding_chords(timeline, chart.numbering)
    if not chords:
        return ()
    visits = _visits(timeline)
    found = [_kick_off(chart, timeline, visits, chords[0]), *_tag(timeline, visits[-1])]
    return (*found, *_turnarounds(timeline, visits, chords))


def _visits(timeline: Timeline) -> list[list[int]]:
    """The bars of each playing of a section; a pickup over the bar before counts with nothing."""
    full = [i for i, bar in enumerate(timeline.bars) if not bar.overlays]
    return [list(group) for _, group in groupby(full, key=lambda i: timeline.bars[i].visit)]


def _kick_off(chart: Chart, timeline: Timeline, visits: list[list[int]], first: SoundingChord) -> FormPlace:
    for visit in visits:
        last = _last_line(timeline, visit)
        if last and all(_has_tune(chart, timeline.bars[i]) for i in last):
            name = timeline.bars[last[0]].section_name
            of = f" in the {name}" if name else ""
            return FormPlace(
                "kick-off", last, (), f"Kick-off: the tune's last bars{of}, {_bars_text(timeline, last)}."
            )
    pair = _five_one(first.key, chart.numbering)
    text = " ".join(chord_text(chord, first.key, chart.numbering) for chord in pair)
    return FormPlace("kick-off", (), pair, f"Kick-off: {text}.")


def _has_tune(chart: Chart, bar: PlayedBar) -> bool:
    return bool(chart.sections[bar.section].bars[bar.bar].tune)


def _last_line(timeline: Timeline, visit: list[int]) -> tuple[int, ...]:
    """The last line of a part, at most its last four bars; of a shorter line, as many bars as make two."""
    full = [i for i in visit if timeline.bars[i].number]
    if not full:
        return ()
    line = [i for i in full if timeline.bars[i].line == timeline.bars[full[-1]].line]
    count = min(max(len(line), FEWEST_BARS), MOST_BARS)
    return tuple(full[-count:]) if len(full) >= FEWEST_BARS else ()


def _five_one(key: Key, numbering: Numbering) -> tuple[NumberChord, NumberChord]:
    home = numbering.home(key)
    minor = any(str(degree) == "b3" for degree in key.scale)
    return NumberChord(Degree(home.fifths + FIFTH), SEVENTH), NumberChord(home, MINOR if minor else MAJOR)


def _tag(timeline: Timeline, visit: list[int]) -> Iterator[FormPlace]:
    name = (timeline.bars[visit[-1]].section_name or "").lower().split(",")[0].split()
    last = _last_line(timeline, visit)
    if last and not (name and name[0] in ENDINGS):
        yield FormPlace("tag", last, (), f"Tag: the last line once more, {_bars_text(timeline, last)}.")


def _turnarounds(
    timeline: Timeline, visits: list[list[int]], chords: tuple[SoundingChord, ...]
) -> Iterator[FormPlace]:
    for visit, after in pairwise(visits):
        last = tuple(visit[-FEWEST_BARS:])
        bars, following = [timeline.bars[i] for i in last], timeline.bars[after[0]]
        even = all(bar.metre.beats % EVEN == 0 and bar.key == following.key for bar in bars)
        stays = even and following.key.mode == "major" and len(last) == FEWEST_BARS
        if stays and all(_on_one(bar, chords) for bar in bars) and _begins_on_one(following, chords):
            turn = _turn()
            text = " ".join(chord_text(chord, following.key) for chord in turn)
            yield FormPlace("turnaround", last, turn, f"Turnaround: {text}, {_bars_text(timeline, last)}.")


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
