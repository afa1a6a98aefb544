"""Spans of time as note values: ties over beats, dots, tuplets and beams.

Times are quarters from the start of a bar. A span within a beat, or of whole beats, is one value where there
is one; others are parted at beats and tied. Where a beat is divided by other than powers of two it is a
tuplet, and beats that a note of the same division ties together are one.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import lcm

from fifthwise.theory import Metre

__all__ = ["Span", "Value", "values_of"]

# From the longest; the shortest that has a name lasts 1/256 quarter.
LONG = ("maxima", "long", "breve", "whole", "half", "quarter")
SHORT = ("eighth", "16th", "32nd", "64th", "128th", "256th", "512th", "1024th")
LENGTHS = [Fraction(32, 2**n) for n in range(len(LONG) + len(SHORT))]
NAMED = dict(zip(LENGTHS, (*LONG, *SHORT), strict=True))
FLAGS = {name: n for n, name in enumerate(SHORT, 1)}
DOTTED = Fraction(3, 2)
MOST_BEAMS = 8


@dataclass(frozen=True, slots=True)
class Span:
    """A note or a rest from one time to another."""

    start: Fraction
    end: Fraction
    is_rest: bool


@dataclass(frozen=True, slots=True)
class Value:
    """One note value.

    Attributes
    ----------
    span : int
        Which span it is of, or part of.
    type : str
        Its name; empty for one too short to have any.
    ratio : tuple of int, or None
        Of a tuplet: how many in the time of how many.
    tuplet : tuple of str
        ``start``, ``stop`` or both.
    beams : tuple of str
        From the first beam on.
    """

    span: int
    start: Fraction
    length: Fraction
    type: str
    dots: int = 0
    ratio: tuple[int, int] | None = None
    tuplet: tuple[str, ...] = ()
    beams: tuple[str, ...] = ()


@lru_cache(maxsize=4096)
def values_of(spans: tuple[Span, ...], metre: Metre, late: Fraction) -> tuple[Value, ...]:
    """Note values for the spans that fill a bar; ``late`` is how much of the metre lies before a pickup."""
    end = spans[-1].end
    beats = _beats(metre, late, end)
    found: list[Value] = []
    for start, stop, ratio in _groups(spans, beats):
        inside = [beat for beat in beats if start <= beat <= stop]
        values = [
            value
            for at, span in enumerate(spans)
            if span.start < stop and span.end > start
            for value in _parted(at, max(span.start, start), min(span.end, stop), inside, ratio)
        ]
        if ratio is not None:
            values[0] = replace(values[0], tuplet=("start",))
            values[-1] = replace(values[-1], tuplet=(*values[-1].tuplet, "stop"))
        found += _beamed(values, spans, inside)
    return tuple(found)


def _beats(metre: Metre, late: Fraction, end: Fraction) -> list[Fraction]:
    """Where beats begin and the last one ends; uneven metres beat in their groups."""
    beats = [Fraction(0)]
    lengths = [Fraction(group, 2) for group in metre.groups] or [metre.beat]
    at, turn = -late, 0
    while at < end:
        at += lengths[turn % len(lengths)]
        turn += 1
        if 0 < at < end:
            beats.append(at)
    return [*beats, end]


def _odd(time: Fraction) -> int:
    """The part of a denominator that halving does not make."""
    denominator = time.denominator
    return denominator // (denominator & -denominator)


def _groups(
    spans: Sequence[Span], beats: Sequence[Fraction]
) -> Iterator[tuple[Fraction, Fraction, tuple[int, int] | None]]:
    """Stretches of a bar with one ratio: all plain beats that follow one another, and each tuplet."""
    times = [span.start for span in spans[1:]]
    parts = [lcm(*(_odd(t - a) for t in times if a < t < b), _odd(b - a)) for a, b in pairwise(beats)]
    crossed = {beat for beat in beats[1:-1] if beat not in set(times)}
    start = beats[0]
    for at, (beat, after) in enumerate(pairwise(beats)):
        last = at + 1 == len(parts)
        joined = not last and parts[at] == parts[at + 1] and (parts[at] == 1 or after in crossed)
        if not joined:
            yield start, after, _ratio(parts[at])
            start = after
        assert beat < after


def _ratio(parts: int) -> tuple[int, int] | None:
    return None if parts == 1 else (parts, 1 << (parts.bit_length() - 1))


def _parted(
    span: int, start: Fraction, end: Fraction, beats: Sequence[Fraction], ratio: tuple[int, int] | None
) -> Iterator[Value]:
    """One span as values tied to one another."""
    scale = Fraction(1) if ratio is None else Fraction(*ratio)
    while start < end:
        stop = end if ratio is not None else _stop(start, end, beats)
        length = _longest((stop - start) * scale)
        name, dots = _named(length)
        yield Value(span, start, length / scale, name, dots, ratio)
        start += length / scale


def _stop(start: Fraction, end: Fraction, beats: Sequence[Fraction]) -> Fraction:
    """How far one value may reach: any way from a beat; otherwise to the next beat, or over it by a half."""
    if start in beats:
        if _named(end - start)[0]:
            return end
        return max((beat for beat in beats if start < beat < end and _named(beat - start)[0]), default=end)
    after = next(beat for beat in beats if beat > start)
    before = max(beat for beat in beats if beat < start)
    over = end > after and end - start == after - before and (start - before) * 2 == after - before
    return end if over and _named(end - start)[0] else min(end, after)


def _longest(length: Fraction) -> Fraction:
    """The longest value with a name that is no longer; what has none is taken whole."""
    for named in LENGTHS:
        for value in (named * DOTTED, named):
            if value <= length and (value == named or _fits(length - value)):
                return value
    return length


def _fits(rest: Fraction) -> bool:
    """Whether what is left over still has names."""
    return (rest * 256).denominator == 1


@lru_cache(maxsize=1024)
def _named(length: Fraction) -> tuple[str, int]:
    """The name of a value and its dots; no name where there is none."""
    if length in NAMED:
        return NAMED[length], 0
    plain = length / DOTTED
    return (NAMED[plain], 1) if plain in NAMED and plain > Fraction(1, 256) else ("", 0)


def _beamed(values: Sequence[Value], spans: Sequence[Span], beats: Sequence[Fraction]) -> Iterator[Value]:
    """Values with beams over the short notes of each beat."""
    run: list[Value] = []
    for value in values:
        flags = 0 if spans[value.span].is_rest else FLAGS.get(value.type, 0)
        if run and (not flags or value.start in beats):
            yield from _beam(run)
            run = []
        if flags:
            run.append(value)
        else:
            yield value
    yield from _beam(run)


def _beam(run: Sequence[Value]) -> Iterator[Value]:
    flags = [FLAGS[value.type] for value in run]
    for at, value in enumerate(run):
        if len(run) == 1:
            yield value
            return
        before = flags[at - 1] if at else 0
        after = flags[at + 1] if at + 1 < len(run) else 0
        beams = tuple(_level(level, before, after, at) for level in range(1, min(flags[at], MOST_BEAMS) + 1))
        yield replace(value, beams=beams)


def _level(level: int, before: int, after: int, at: int) -> str:
    if before >= level:
        return "continue" if after >= level else "end"
    if after >= level:
        return "begin"
    return "backward hook" if at else "forward hook"
