"""Slots and notes written as tokens, one a felt beat, with groups where a beat is divided."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import gcd, lcm

from fifthwise.chart.model import Bar

__all__ = ["Timed", "beat_texts", "token_lengths"]


@dataclass(frozen=True, slots=True)
class Timed:
    """A token's text and its length in quarters; ``goes_on`` marks a hold of what came before."""

    text: str
    length: Fraction
    goes_on: bool = False


@dataclass(frozen=True, slots=True)
class _Piece:
    text: str
    length: Fraction
    goes_on: bool


def token_lengths(bar: Bar) -> list[Fraction]:
    """The length in quarters of each token where a bar has one a felt beat; a pickup's part comes first."""
    beats = bar.pickup if bar.pickup is not None else Fraction(bar.metre.beats)
    part = beats - int(beats)
    return ([part * bar.metre.beat] if part else []) + [bar.metre.beat] * int(beats)


def beat_texts(
    items: Sequence[Timed], beats: Sequence[Fraction], *, more: str, first: str = "-"
) -> list[tuple[Fraction, str]]:
    """Write items as one token a beat.

    Parameters
    ----------
    items : sequence of Timed
        What stands in the bar; together as long as the beats.
    beats : sequence of Fraction
        The length of each token in quarters.
    more : str
        What lengthens by one more beat or share: ``/`` under chords, ``-`` in a tune.
    first : str
        What lengthens at the start of a bar or group.

    Returns
    -------
    list of (offset, text)
    """
    queue = [_Piece(item.text, item.length, item.goes_on) for item in items]
    texts, at = [], Fraction(0)
    for beat in beats:
        taken = _take(queue, beat)
        texts.append((at, _beat_text(taken, beat, more, first, opens_bar=at == 0)))
        at += beat
    return texts


def _take(queue: list[_Piece], beat: Fraction) -> list[_Piece]:
    taken, left = [], beat
    while left > 0:
        piece = queue.pop(0)
        if piece.length > left:
            queue.insert(0, _Piece(piece.text, piece.length - left, True))
            piece = _Piece(piece.text, left, piece.goes_on)
        taken.append(piece)
        left -= piece.length
    return taken


def _beat_text(pieces: list[_Piece], beat: Fraction, more: str, first: str, *, opens_bar: bool) -> str:
    if len(pieces) == 1:
        return (first if opens_bar else more) if pieces[0].goes_on else pieces[0].text
    unit = _common_part([piece.length for piece in pieces])
    words: list[str] = []
    for piece in pieces:
        words.append(first if piece.goes_on else piece.text)
        words += [more] * (int(piece.length / unit) - 1)
    return f"({' '.join(words)})"


def _common_part(lengths: list[Fraction]) -> Fraction:
    bottom = lcm(*(length.denominator for length in lengths))
    return Fraction(gcd(*(int(length * bottom) for length in lengths)), bottom)
