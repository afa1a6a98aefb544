"""How a number sheet is typed: every choice by which one differs from another, each with its options.

Number charts agree on the numbers and on little else. What a plain 6 means, where a bar ends and what ``1/3``
says differ from town to town; the table below names what is read.
"""

from dataclasses import dataclass
from typing import Literal

from fifthwise.theory import MINOR_WAYS, MinorWay

__all__ = ["DIMENSIONS", "SPACED", "Convention"]

BarsWay = Literal["strokes", "spaces", "dashes", "hyphens", "commas", "digits", "lines"]
Plain = Literal["major", "scale"]
SlashWay = Literal["key", "chord", "split"]
BeatSign = Literal["beat", "bar"]
DotsWay = Literal["all", "more"]
HatWay = Literal["seven", "major-seven"]
CaretWay = Literal["push", "stop", "major-seven"]
GreaterWay = Literal["accent", "push", "late"]
BangWay = Literal["stop", "accent"]

DIMENSIONS: dict[str, tuple[str, ...]] = {
    "bars": ("strokes", "spaces", "dashes", "hyphens", "commas", "digits", "lines"),
    "plain": ("major", "scale"),
    "slash": ("key", "chord", "split"),
    "beat_sign": ("beat", "bar"),
    "dots": ("all", "more"),
    "hat": ("seven", "major-seven"),
    "caret": ("push", "stop", "major-seven"),
    "greater": ("accent", "push", "late"),
    "bang": ("stop", "accent"),
    "minor": MINOR_WAYS,
}
# Where a blank ends a bar, so that chords of one bar are joined by a sign.
SPACED = frozenset({"spaces", "hyphens", "digits"})


@dataclass(frozen=True, slots=True)
class Convention:
    """One way of typing numbers.

    Attributes
    ----------
    bars : str
        What ends a bar: ``strokes`` are ``|``, ``spaces`` blanks, ``dashes`` a `` - `` with blanks,
        ``hyphens`` the dash of ``1-5-6-4``, ``commas`` the comma, ``digits`` nothing (``1564``), ``lines``
        the line alone.
    plain : str
        What a number without a sign is: ``major`` as written, or the ``scale``'s, where 2 3 6 are minor.
    slash : str
        What ``1/3`` says: a bass counted in the ``key``, one counted from the ``chord``, or a ``split`` bar.
    beat_sign : str
        What a ``/``, ``.`` or ``-`` alone between chords without bar lines is: a ``beat``, or the ``bar``
        again.
    dots : str
        Dots or ticks that touch a number: ``all`` its beats (``1..`` is two), or ``more`` beats (it is
        three).
    hat : str
        What ``5^7`` says: a ``seven`` set high, or a ``major-seven``.
    caret : str
        What a ``^`` without a number says (``1^``): ``push``, ``stop`` or ``major-seven``.
    greater : str
        What ``>1`` says: ``accent``, ``push`` or ``late``.
    bang : str
        What ``1!`` says: ``stop`` or ``accent``.
    minor : str
        How a minor key is counted, as in a chart's head.
    """

    bars: BarsWay = "strokes"
    plain: Plain = "major"
    slash: SlashWay = "key"
    beat_sign: BeatSign = "beat"
    dots: DotsWay = "all"
    hat: HatWay = "seven"
    caret: CaretWay = "push"
    greater: GreaterWay = "accent"
    bang: BangWay = "stop"
    minor: MinorWay = "from-six"
