"""Where a file's bars lie, and which metre, tempo and key hold in each.

A file that names no metre counts in 4/4, as the standard says. A metre that begins within a bar begins a
new one.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from fifthwise.exchange.any_metre import is_short_enough, metre_of_groups
from fifthwise.exchange.errors import TooLarge
from fifthwise.exchange.midi.limits import MOST_BARS
from fifthwise.exchange.midi.raw import RawSong
from fifthwise.theory import Metre

__all__ = ["Span", "bar_at", "bar_spans", "bar_tempos"]

COMMON = Metre(4, 4)
SMALLEST_UNIT = 32
HALVES, FEWEST_MARKS = 2, 2  # a section begins on an eighth
SIXTEENTHS = 4  # of a quarter; a metre begins on one
MICROSECONDS = 60_000_000  # a minute
# A tempo is said again where it changes by more than a twentieth; more changes than this are how somebody
# played, and their mean is kept.
CHANGED, MOST_TEMPOS = Fraction(1, 20), 12


@dataclass(frozen=True, slots=True)
class Span:
    """One bar, from quarter to quarter."""

    start: Fraction
    end: Fraction
    metre: Metre

    @property
    def length(self) -> Fraction:
        """Quarters."""
        return self.end - self.start


def bar_spans(
    song: RawSong, end: Fraction, file: str, marks: Sequence[Fraction] = ()
) -> tuple[tuple[Span, ...], list[str]]:
    """The bars of a song up to a quarter, and what of its metres could not be kept.

    Parameters
    ----------
    marks : sequence of Fraction
        Where the file's sections begin. Where they all lie at the same place within their bars, the bars
        before are taken to begin with a pickup.

    Raises
    ------
    TooLarge
        There are more than ``MOST_BARS``.
    """
    changes, told = _metres(song)
    pickup = _marked_pickup(changes, marks)
    if pickup:
        changes.append((pickup, changes[0][1] if changes else COMMON))
        told.append("the sections begin within bars; what is before the first is a pickup")
    found: list[Span] = []
    at, metre, waiting = Fraction(0), COMMON, 0
    while at < end or not found:
        while waiting < len(changes) and changes[waiting][0] <= at:
            metre = changes[waiting][1]
            waiting += 1
        stop = at + metre.length
        if waiting < len(changes):
            stop = min(stop, changes[waiting][0])
        found.append(Span(at, stop, metre))
        at = stop
        if len(found) > MOST_BARS:
            what = f"the song has more than {MOST_BARS} bars"
            raise TooLarge(what, file, "Cut the silence out, or export one song alone")
    return _with_short_first(found), told


def _metres(song: RawSong) -> tuple[list[tuple[Fraction, Metre]], list[str]]:
    found: dict[Fraction, Metre] = {}
    told = [] if song.metres else ["the file names no metre; it is counted in 4/4"]
    for tick, count, unit in song.metres:
        if unit > SMALLEST_UNIT or not is_short_enough([(count, unit)]):
            told.append(f"a metre of {count}/{unit if unit <= SMALLEST_UNIT else '?'} is left out")
            continue
        at = Fraction(round(Fraction(tick, song.ppq) * SIXTEENTHS), SIXTEENTHS)
        found[at] = metre_of_groups([(count, unit)])[0]
    return list(found.items()), list(dict.fromkeys(told))


def _marked_pickup(changes: Sequence[tuple[Fraction, Metre]], marks: Sequence[Fraction]) -> Fraction | None:
    """The place within their bars at which all sections but one at the very start begin."""
    if len({metre for _, metre in changes}) > 1 or any(at for at, _ in changes):
        return None
    length = changes[0][1].length if changes else COMMON.length
    places = {mark % length for mark in marks if mark}
    place = min(places, default=Fraction(0))
    agree = len(places) == 1 and place * HALVES % 1 == 0 and sum(map(bool, marks)) >= FEWEST_MARKS
    return place if agree and place else None


def _with_short_first(found: list[Span]) -> tuple[Span, ...]:
    """A first bar with a short metre of its own is a pickup of the metre after it."""
    if len(found) > 1 and found[0].length < found[1].length and found[0].metre != found[1].metre:
        found[0] = Span(found[0].start, found[0].end, found[1].metre)
    return tuple(found)


def bar_at(spans: Sequence[Span], at: Fraction) -> int:
    """The bar in which a quarter lies; the last one for what is after it."""
    return max(bisect_right(spans, at, key=lambda span: span.start) - 1, 0)


def bar_tempos(song: RawSong, spans: Sequence[Span]) -> tuple[list[Fraction | None], list[str]]:
    """The tempo that each bar sets anew, in quarters a minute, and what of the tempos was not kept."""
    heard = [(Fraction(tick, song.ppq), us) for tick, us in song.tempos if us > 0]
    found: list[Fraction | None] = [None] * len(spans)
    if not heard:
        return found, ["the file names no tempo"]
    now: Fraction | None = None
    for at, span in enumerate(spans):
        held = bisect_right(heard, span.start, key=lambda tempo: tempo[0]) - 1
        tempo = _settled(Fraction(MICROSECONDS, heard[max(held, 0)][1]), span.metre)
        if now is None or abs(tempo - now) > now * CHANGED:
            found[at] = now = tempo
    changes = sum(tempo is not None for tempo in found)
    if changes <= MOST_TEMPOS:
        return found, []
    return [_mean(heard, spans), *[None] * (len(spans) - 1)], [
        f"the tempo changes {changes} times, as somebody played it; its mean is kept"
    ]


def _settled(tempo: Fraction, metre: Metre) -> Fraction:
    """A tempo in whole felt beats."""
    return max(Fraction(round(tempo / metre.tempo_unit)), Fraction(1)) * metre.tempo_unit


def _mean(heard: Sequence[tuple[Fraction, int]], spans: Sequence[Span]) -> Fraction:
    """Quarters over the minutes that they take."""
    ends = [min(at, spans[-1].end) for at, _ in heard[1:]] + [spans[-1].end]
    taken = sum(
        (
            Fraction(us) * (end - max(at, spans[0].start))
            for (at, us), end in zip(heard, ends, strict=True)
            if end > at
        ),
        Fraction(0),
    )
    return _settled(spans[-1].end * MICROSECONDS / taken, spans[0].metre) if taken > 0 else Fraction(120)
