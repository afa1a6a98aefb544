"""The chords as they sound, of a song or of a progression.

A push begins early and cuts what was there; a late chord lets it go on. A ``.stop`` is struck for an eighth.
In a rest, in NC and after a stop no chord sounds.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.chart import Entry, Timeline
from fifthwise.strings.advice.landing import LandingNote, landing
from fifthwise.strings.advice.roles import COUNTED, chord_text
from fifthwise.theory import Key, LetterChord, NumberChord, Numbering, to_letters

__all__ = ["SoundingChord", "landings", "progression_chords", "sounding_chords"]

STRUCK = Fraction(1, 2)


@dataclass(frozen=True, slots=True)
class SoundingChord:
    """A chord and the time for which it sounds.

    Attributes
    ----------
    numbering : Numbering
        How ``chord`` is counted in ``key``.
    starts_at, length : Fraction
        Quarters; a push over the very first bar begins before 0.
    entry, bar : int
        Index into the timeline's entries and bars; the place in a progression.
    """

    chord: NumberChord
    key: Key
    numbering: Numbering
    starts_at: Fraction
    length: Fraction
    entry: int
    bar: int

    @property
    def ends_at(self) -> Fraction:
        """When it is over, in quarters."""
        return self.starts_at + self.length

    @property
    def letters(self) -> LetterChord:
        """The chord by its notes."""
        return to_letters(self.chord, self.numbering.one(self.key))

    @property
    def text(self) -> str:
        """The chord as the song writes it."""
        return chord_text(self.chord, self.key, self.numbering)


def sounding_chords(
    timeline: Timeline, numbering: Numbering = COUNTED, section: int | None = None
) -> tuple[SoundingChord, ...]:
    """Tell a song's chords in order of time; none where it has none.

    Parameters
    ----------
    section : int, optional
        Index into the chart's sections; only chords that are written there, every time that it is played.
    """
    heard = _heard(timeline)
    ends = [entry.sounds_at for _, entry in heard[1:]] + [timeline.length]
    found = []
    for (index, entry), end in zip(heard, ends, strict=True):
        if entry.chord is not None and section in (None, timeline.bars[entry.bar].section):
            length = end - entry.sounds_at
            length = min(length, STRUCK) if "stop" in entry.marks else length
            chord = entry.chord, entry.key, numbering, entry.sounds_at, length, index, entry.bar
            found.append(SoundingChord(*chord))
    return tuple(found)


def _heard(timeline: Timeline) -> list[tuple[int, Entry]]:
    """The entries that have time to sound: the next one's push may leave none."""
    heard: list[tuple[int, Entry]] = []
    for index, entry in enumerate(timeline.entries):
        while heard and heard[-1][1].sounds_at >= entry.sounds_at:
            heard.pop()
        heard.append((index, entry))
    return heard


def progression_chords(
    chords: Sequence[NumberChord], key: Key, numbering: Numbering = COUNTED, length: Fraction = Fraction(4)
) -> tuple[SoundingChord, ...]:
    """Chords in a row, each of one length in quarters."""
    return tuple(
        SoundingChord(chord, key, numbering, place * length, length, place, place)
        for place, chord in enumerate(chords)
    )


def landings(chords: Sequence[SoundingChord]) -> tuple[tuple[LandingNote, ...], ...]:
    """The notes to land on at each chord of a song, best first.

    They are reached from the last chord that was another one: a chord that comes again, also after a rest,
    has the same notes as before.
    """
    return tuple(
        landing(chord.chord, chord.key, chord.numbering, before)
        for chord, before in zip(chords, _befores(chords), strict=True)
    )


def _befores(chords: Sequence[SoundingChord]) -> Iterator[LetterChord | None]:
    now: LetterChord | None = None
    before: LetterChord | None = None
    for chord in chords:
        if chord.letters != now:
            before, now = now, chord.letters
        yield before
