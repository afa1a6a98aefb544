"""How a bar divides: halves, beats, parts of a beat; and which of its stretches need a tuplet.

A bar is a tree of spans. A note may be written as one sign only where it does not hide the spans that a
reader counts by; a beat that is divided by three, five or seven becomes a tuplet over the smallest span
that holds it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from fifthwise.theory import Metre

__all__ = ["Span", "Tuplet", "bar_span", "beats_of", "is_binary", "tuplets_in"]

FINEST = Fraction(1, 64)  # of a quarter: no span is divided further


@dataclass(frozen=True, slots=True)
class Span:
    """A stretch of a bar, in quarters, and the stretches that it is counted in."""

    start: Fraction
    end: Fraction
    parts: tuple["Span", ...] = ()

    @property
    def length(self) -> Fraction:
        """Quarters."""
        return self.end - self.start

    @property
    def inner(self) -> tuple[Fraction, ...]:
        """Where one part ends and the next begins."""
        return tuple(part.start for part in self.divided[1:])

    @property
    def divided(self) -> tuple["Span", ...]:
        """Its parts; a beat without named ones has thirds or halves."""
        if self.parts or self.length <= FINEST:
            return self.parts
        return _even(self, 3 if self.length.numerator % 3 == 0 else 2)


@dataclass(frozen=True, slots=True)
class Tuplet:
    """A stretch in which ``number`` notes stand in the time of ``base``."""

    start: Fraction
    end: Fraction
    number: int
    base: int


def _even(span: Span, count: int) -> tuple[Span, ...]:
    step = span.length / count
    return tuple(Span(span.start + step * n, span.start + step * (n + 1)) for n in range(count))


def beats_of(metre: Metre) -> tuple[Span, ...]:
    """The felt beats of a bar; named groups where the metre has them."""
    lengths = [Fraction(count, 2) for count in metre.groups] or [metre.beat] * metre.beats
    starts = [sum(lengths[:place], Fraction(0)) for place in range(len(lengths))]
    return tuple(Span(start, start + length) for start, length in zip(starts, lengths, strict=True))


def bar_span(metre: Metre) -> Span:
    """A bar as it is counted: in two halves where it has four beats, else in beats."""
    beats = beats_of(metre)
    if len(beats) == 4 and not metre.groups:
        middle = metre.length / 2
        halves = (Span(Fraction(0), middle, beats[:2]), Span(middle, metre.length, beats[2:]))
        return Span(Fraction(0), metre.length, halves)
    return Span(Fraction(0), metre.length, beats if len(beats) > 1 else ())


def is_binary(time: Fraction) -> bool:
    """Whether notes without tuplets reach a time."""
    return time.denominator & (time.denominator - 1) == 0


def tuplets_in(span: Span, events: Sequence[tuple[Fraction, Fraction]]) -> Iterator[Tuplet]:
    """The tuplets that some stretches of sound and silence need.

    Parameters
    ----------
    events : sequence of (start, end)
        In order; they fill the span.
    """
    here = [
        (max(start, span.start), min(end, span.end))
        for start, end in events
        if start < span.end and end > span.start
    ]
    if all(is_binary(start) and is_binary(end) for start, end in here):
        return
    times = [time for event in here for time in event]
    if span.length <= FINEST or _belongs_together(span, here, times):
        yield Tuplet(span.start, span.end, *_ratio(span, times))
        return
    for part in span.divided:
        yield from tuplets_in(part, here)


def _belongs_together(
    span: Span, events: Sequence[tuple[Fraction, Fraction]], times: Sequence[Fraction]
) -> bool:
    """Whether something sounds over an edge within, and cannot be written as two notes tied there.

    Over several beats that is so where they are divided evenly: three notes over two beats. Elsewhere a
    tie from tuplet to tuplet reads more easily.
    """
    over = [event for event in events for edge in span.inner if event[0] < edge < event[1]]
    if not span.parts:
        return any(not (is_binary(start) and is_binary(end)) for start, end in over)
    if not any(not is_binary(start) and not is_binary(end) for start, end in over):
        return False
    return lcm(*(((time - span.start) / span.length).denominator for time in times)) % 2 == 1


def _ratio(span: Span, times: Sequence[Fraction]) -> tuple[int, int]:
    """How many notes stand in the time of how many."""
    dotted = span.length.numerator % 3 == 0
    parts = _odd(lcm(*((time - span.start).denominator for time in times)))
    if dotted:
        of_span = _odd(lcm(*(((time - span.start) / span.length).denominator for time in times)))
        if of_span % 3:
            return of_span, _below(of_span, 3)
    return parts, _below(parts, 2)


def _odd(number: int) -> int:
    while number % 2 == 0:
        number //= 2
    return number


def _below(number: int, base: int) -> int:
    """The largest of ``base``, twice it, four times … that is less than a number."""
    while base * 2 < number:
        base *= 2
    return base
