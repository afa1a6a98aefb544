"""Notes and rests of a bar as they are written: single signs with dots, tied where one is not enough.

Which lengths may stand as one sign is common practice (no source but the trade): the middle of a bar of four
beats stays visible, save for a half note on the second beat; a note that enters off the beat may reach over
one beat, not over two; rests show every beat.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from fifthwise.page.staff.model import StaffBar, StaffNote
from fifthwise.page.staff.spans import Span, Tuplet, bar_span, beats_of, is_binary, tuplets_in
from fifthwise.theory import Metre

__all__ = ["Piece", "written_pieces"]

SIGNS = {Fraction(4, 2**power): 2**power for power in range(11)}
DOTTED = Fraction(3, 2)
LONGEST = Fraction(8)


@dataclass(frozen=True, slots=True)
class Piece:
    """One written sign.

    Attributes
    ----------
    start, end : Fraction
        Quarters from the start of the bar.
    duration, dots : int
        As it is written: 4 is a quarter; 0 a breve.
    note : StaffNote or None
        What it is, or is part of; ``None`` for a rest.
    first, last : bool
        Whether the note begins and ends with it; it is tied to its neighbours otherwise.
    tuplet : Tuplet or None
        That it stands in.
    """

    start: Fraction
    end: Fraction
    duration: int
    dots: int
    note: StaffNote | None
    first: bool = True
    last: bool = True
    tuplet: Tuplet | None = None


def written_pieces(bar: StaffBar) -> tuple[Piece, ...]:
    """A bar's notes, and the rests between them."""
    times = tuple((note.at, note.length) for note in bar.notes)
    signs = _rhythm(bar.metre, bar.length, bar.pickup, times)
    return tuple(
        Piece(
            sign.start, sign.end, sign.duration, sign.dots,
            None if sign.event is None else bar.notes[sign.event], sign.first, sign.last, sign.tuplet,
        )
        for sign in signs
    )  # fmt: skip


class _Sign(NamedTuple):
    """A piece before it has its note: ``event`` says which, ``None`` is silence."""

    start: Fraction
    end: Fraction
    duration: int
    dots: int
    event: int | None
    first: bool
    last: bool
    tuplet: Tuplet | None


@lru_cache(maxsize=4096)  # songs have few rhythms, and each is written for every width and key
def _rhythm(
    metre: Metre, length: Fraction, pickup: bool, times: tuple[tuple[Fraction, Fraction], ...]
) -> tuple[_Sign, ...]:
    late = metre.length - length if pickup else Fraction(0)
    span = bar_span(metre)
    events = [
        event
        for start, end, place in _events(length, late, times)
        for event in _by_beats(start, end, place, metre)
    ]
    tuplets = tuple(tuplets_in(span, [(start, end) for start, end, _ in events]))
    found: list[_Sign] = []
    for start, end, event in events:
        parts = list(_parts(start, end, span, tuplets, is_rest=event is None))
        for place, (left, right, tuplet) in enumerate(parts):
            sign = _sign((right - left) * (Fraction(tuplet.number, tuplet.base) if tuplet else 1))
            assert sign is not None
            first, last = place == 0, place == len(parts) - 1
            found.append(_Sign(left - late, right - late, *sign, event, first, last, tuplet))
    return tuple(found)


Event = tuple[Fraction, Fraction, int | None]


def _events(length: Fraction, late: Fraction, times: Sequence[tuple[Fraction, Fraction]]) -> Iterator[Event]:
    at = Fraction(0)
    for place, (onset, lasts) in enumerate(times):
        if onset > at:
            yield at + late, onset + late, None
        at = onset + lasts
        yield onset + late, at + late, place
    if at < length:
        yield at + late, length + late, None


def _by_beats(start: Fraction, end: Fraction, event: int | None, metre: Metre) -> Iterator[Event]:
    """Silence beat by beat where it ends or begins within a divided beat; all else as it is."""
    if event is not None or (is_binary(start) and is_binary(end)):
        yield start, end, event
        return
    edges = [beat.start for beat in beats_of(metre) if start < beat.start < end]
    for left, right in pairwise([start, *edges, end]):
        yield left, right, None


def _parts(
    start: Fraction, end: Fraction, span: Span, tuplets: Sequence[Tuplet], *, is_rest: bool
) -> Iterator[tuple[Fraction, Fraction, Tuplet | None]]:
    """The stretches that one event is written in."""
    at = start
    while at < end:
        tuplet = next((each for each in tuplets if each.start <= at < each.end), None)
        if tuplet is not None:
            until = min(end, tuplet.end)
            scale = Fraction(tuplet.number, tuplet.base)
            yield from ((a, b, tuplet) for a, b in _binary(at, until, scale))
        else:
            until = min([end, *(each.start for each in tuplets if at < each.start < end)])
            yield from ((a, b, None) for a, b in _plain(at, until, span, is_rest=is_rest))
        at = until


def _binary(start: Fraction, end: Fraction, scale: Fraction) -> Iterator[tuple[Fraction, Fraction]]:
    """A stretch as one sign, or the longest that fit one after the other."""
    at = start
    while at < end:
        length = _longest((end - at) * scale) / scale
        yield at, at + length
        at += length


def _longest(length: Fraction) -> Fraction:
    """The longest length with a sign of its own that is no longer."""
    whole = max(sign for sign in SIGNS if sign <= length)
    return whole * DOTTED if whole * DOTTED <= length else whole


def _plain(
    start: Fraction, end: Fraction, span: Span, *, is_rest: bool
) -> Iterator[tuple[Fraction, Fraction]]:
    """A stretch outside tuplets, parted where a reader would lose count."""
    for part in span.divided:
        if part.start <= start and end <= part.end:
            yield from _plain(start, end, part, is_rest=is_rest)
            return
    edges = [edge for edge in span.inner if start < edge < end]
    may = _rest_may if is_rest else _note_may
    if not edges or (_sign(end - start) and may(start, end, span, edges)):
        yield from _binary(start, end, Fraction(1))
        return
    edge = _parting(start, end, span, edges, is_rest=is_rest)
    yield from _plain(start, edge, span, is_rest=is_rest)
    yield from _plain(edge, end, span, is_rest=is_rest)


def _parting(start: Fraction, end: Fraction, span: Span, edges: list[Fraction], *, is_rest: bool) -> Fraction:
    """Where a stretch that is too much for one sign is parted first."""
    if is_rest or start not in _edges(span):
        return edges[0]
    fit = [edge for edge in edges if _sign(edge - start)]
    return fit[-1] if fit else edges[0]


def _edges(span: Span) -> tuple[Fraction, ...]:
    return (span.start, *span.inner, span.end)


def _note_may(start: Fraction, end: Fraction, span: Span, edges: list[Fraction]) -> bool:
    """Whether a note may stand over edges of its span."""
    part = span.divided[0]
    on_edges = start in _edges(span) and end in _edges(span)
    if part.parts:  # over the middle of a bar of four beats
        beats = {edge for half in span.divided for edge in _edges(half)}
        return start in beats and end in beats and (start == span.start or end - start == part.length)
    if span.length.numerator % 3 == 0 and part.length.numerator % 3 == 0:  # beats of three parts
        return on_edges
    if len({each.length for each in span.divided}) > 1:  # uneven groups
        return on_edges
    half = part.length / 2
    on_halves = (start - span.start) % half == 0 and (end - span.start) % half == 0
    return on_edges or (len(edges) == 1 and on_halves)


def _rest_may(start: Fraction, end: Fraction, span: Span, edges: list[Fraction]) -> bool:
    """Whether a rest may: where it is the whole span, or the first two of three parts of a beat."""
    if (start, end) == (span.start, span.end):
        return True
    first_two = len(span.divided) == 3 and (start, end) == (span.start, span.divided[1].end)
    return first_two and not span.parts and span.length.numerator % 3 == 0


def _sign(length: Fraction) -> tuple[int, int] | None:
    """A length's sign and its dots; ``None`` where it has none of its own."""
    if not is_binary(length):
        return None
    if length == LONGEST:
        return 0, 0
    if length in SIGNS:
        return SIGNS[length], 0
    return (SIGNS[length / DOTTED], 1) if length / DOTTED in SIGNS else None
