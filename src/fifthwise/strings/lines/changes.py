"""The chords of a song as they sound, one after the other, with what a fault calls each.

A push begins early and cuts what was there; a late chord lets it go on. A ``.stop`` is struck for an eighth.
Rests and NC are silence. A chord that the next one's push leaves no time for is left out.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart import Chart, Entry, Timeline
from fifthwise.strings.errors import LineFault
from fifthwise.strings.lines.beat import bar_label
from fifthwise.theory import Degree, Key, NoteName, NumberChord, write_number

__all__ = ["Change", "change_at", "changes_of", "degree_text", "number_text"]

STRUCK = Fraction(1, 2)  # a stop, in quarters


@dataclass(frozen=True, slots=True)
class Change:
    """One chord as it sounds.

    Attributes
    ----------
    one : NoteName
        The note that is called 1 there.
    starts_at, length : Fraction
        Quarters; a push over the very first bar begins before 0.
    written_at : Fraction
        Where it is written.
    entry, bar : int
        Index into the timeline's entries and bars.
    where : str
        As a fault names it: ``bar 3 (verse), chord 5/7``.
    until : Fraction
        When the next chord or silence begins; a stopped chord is over before.
    again : bool
        Whether it is the chord before, going on without a silence.
    rings, stopped : bool
        Marked ``.hold``; marked ``.stop``.
    """

    chord: NumberChord
    key: Key
    one: NoteName
    starts_at: Fraction
    length: Fraction
    written_at: Fraction
    entry: int
    bar: int
    where: str
    until: Fraction
    again: bool = False
    rings: bool = False
    stopped: bool = False

    @property
    def end(self) -> Fraction:
        """When it is over, in quarters."""
        return self.starts_at + self.length

    @property
    def bass(self) -> NoteName:
        """What the bass plays: the note under the slash, otherwise the root."""
        degree = self.chord.bass or self.chord.root
        return NoteName(degree.fifths + self.one.fifths)

    def degree(self, note: NoteName) -> Degree:
        """A note counted from the 1."""
        return Degree(note.fifths - self.one.fifths)


def changes_of(chart: Chart, timeline: Timeline) -> tuple[Change, ...]:
    """Tell a song's chords as they sound, in order of time.

    Raises
    ------
    LineFault
        The song has no chords.
    """
    heard = _heard(timeline)
    found: list[Change] = []
    for place, (index, entry) in enumerate(heard, 1):
        end = heard[place][1].sounds_at if place < len(heard) else timeline.length
        if entry.chord is not None:
            found.append(_change(chart, timeline, index, end, found[-1] if found else None))
    if not found:
        fix = "Write a chord in a bar, as in '1 | 4 | 5 | 1'"
        raise LineFault("the song has no chords", chart.title or "chart", fix)
    return tuple(found)


def change_at(changes: Sequence[Change], when: Fraction) -> Change | None:
    """The chord that holds at a time; ``None`` in a rest or NC, and before the first."""
    place = bisect_right(changes, when, key=lambda change: change.starts_at) - 1
    return changes[place] if place >= 0 and when < changes[place].until else None


def number_text(chart: Chart, chord: NumberChord, key: Key) -> str:
    """A chord's number as the song's own numbering writes it."""
    numbering = chart.numbering
    scale = numbering.scale(key) if numbering.plain == "diatonic" else ()
    return write_number(chord, scale=scale, lowers=numbering.lowers(key))


def degree_text(chart: Chart, degree: Degree, key: Key) -> str:
    """A degree as the song's own numbering writes it: in natural minor b3 is 3."""
    return write_number(NumberChord(degree), lowers=chart.numbering.lowers(key))


def _heard(timeline: Timeline) -> list[tuple[int, Entry]]:
    """The entries that have time to sound, each with its index."""
    heard: list[tuple[int, Entry]] = []
    for index, entry in enumerate(timeline.entries):
        while heard and heard[-1][1].sounds_at >= entry.sounds_at:
            heard.pop()
        heard.append((index, entry))
    return heard


def _change(chart: Chart, timeline: Timeline, index: int, end: Fraction, before: Change | None) -> Change:
    entry = timeline.entries[index]
    assert entry.chord is not None
    one = chart.numbering.one(entry.key)
    stopped = "stop" in entry.marks
    length = end - entry.sounds_at
    goes_on = before is not None and before.end == entry.sounds_at and not before.stopped
    again = goes_on and before is not None and (before.chord, before.one) == (entry.chord, one)
    name = number_text(chart, entry.chord, entry.key)
    return Change(
        entry.chord, entry.key, one, entry.sounds_at, min(length, STRUCK) if stopped else length,
        entry.written_at, index, entry.bar, f"{bar_label(timeline.bars[entry.bar])}, chord {name}",
        end, again, "hold" in entry.marks, stopped,
    )  # fmt: skip
