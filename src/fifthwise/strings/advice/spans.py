"""Spans of time, and what is left of one when others are taken out."""

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction

__all__ = ["Span", "left_of"]


@dataclass(frozen=True, slots=True, order=True)
class Span:
    """From ``start`` to just before ``end``, in quarters."""

    start: Fraction
    end: Fraction

    @property
    def length(self) -> Fraction:
        """In quarters."""
        return self.end - self.start


def left_of(span: Span, taken: Iterable[Span]) -> tuple[Span, ...]:
    """The pieces of a span that no other covers, in order."""
    pieces, at = [], span.start
    for each in sorted(taken):
        if each.start >= span.end:
            break
        if at < each.start:
            pieces.append(Span(at, each.start))
        at = max(at, each.end)
    if at < span.end:
        pieces.append(Span(at, span.end))
    return tuple(pieces)
