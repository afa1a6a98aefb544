"""Which notes share a beam: those of one felt beat, as the metre groups them.

Beams show the metre's beats: three eighths in 6/8, 9/8 and 12/8, the named groups in 7/8. In 2/4 and 4/4 four
eighths share one beam within a half of the bar. Common practice, as in Elaine Gould, Behind Bars (2011),
chapter "Metre" (from memory).
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby
from operator import itemgetter

from fifthwise.page.staff.pieces import Piece
from fifthwise.page.staff.spans import Span, beats_of
from fifthwise.theory import Metre

__all__ = ["beams"]

EIGHTH = 8


def beams(pieces: Sequence[Piece], metre: Metre, late: Fraction = Fraction(0)) -> tuple[range, ...]:
    """The places of the pieces under each beam, two or more a beam.

    Parameters
    ----------
    late : Fraction
        Quarters of the bar that lie before a pickup.
    """
    found = _runs(pieces, _groups(pieces, metre, late))
    nested = (part for run in found for part in _nested(run, pieces))
    return tuple(range(run[0], run[-1] + 1) for run in nested if len(run) > 1)


def _nested(run: list[int], pieces: Sequence[Piece]) -> Iterator[list[int]]:
    """A run as it is, unless a tuplet begins or ends outside it: then it is parted where tuplets change."""
    for tuplet in {pieces[place].tuplet for place in run} - {None}:
        members = {place for place, piece in enumerate(pieces) if piece.tuplet == tuplet}
        if not (members <= set(run) or members >= set(run)):
            yield from (list(part) for _, part in groupby(run, key=lambda place: pieces[place].tuplet))
            return
    yield run


def _groups(pieces: Sequence[Piece], metre: Metre, late: Fraction) -> list[tuple[Fraction, Fraction]]:
    """The stretches that a beam may not leave."""
    beats = [Span(beat.start - late, beat.end - late) for beat in beats_of(metre)]
    if metre.unit != 4 or metre.count % 2 or metre.count > 4:
        return [(beat.start, beat.end) for beat in beats]
    found = []
    for left, right in zip(beats[::2], beats[1::2], strict=True):
        whole = [piece for piece in pieces if left.start <= piece.start and piece.end <= right.end]
        if len(whole) == 4 and all(_is_eighth(piece) for piece in whole):
            found.append((left.start, right.end))
        else:
            found += [(left.start, left.end), (right.start, right.end)]
    return found


def _is_eighth(piece: Piece) -> bool:
    return piece.note is not None and piece.duration == EIGHTH and not piece.dots and piece.tuplet is None


def _runs(pieces: Sequence[Piece], groups: Sequence[tuple[Fraction, Fraction]]) -> Iterator[list[int]]:
    """Notes with flags, one after the other within a stretch."""
    for start, end in groups:
        flagged = (
            (place, start <= piece.start and piece.end <= end and _flagged(piece))
            for place, piece in enumerate(pieces)
        )
        for has, run in groupby(flagged, key=itemgetter(1)):
            if has:
                yield [place for place, _ in run]


def _flagged(piece: Piece) -> bool:
    return piece.note is not None and piece.duration >= EIGHTH
