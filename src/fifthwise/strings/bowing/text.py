"""A bowing in plain text: the counts, the strokes under them, and the accents under those."""

from fractions import Fraction

from fifthwise.strings.bowing.groups import plain_metre
from fifthwise.strings.bowing.pattern import Bowing, Stroke
from fifthwise.strings.bowing.patterns import HOLD
from fifthwise.strings.bowing.signs import sign_of
from fifthwise.theory import Metre

__all__ = ["bowing_text"]

# What is said between two felt beats, by how many columns a beat has.
BETWEEN = {1: (), 2: ("&",), 3: ("&", "a"), 4: ("e", "&", "a")}
UNSAID = "."


def bowing_text(bowing: Bowing) -> str:
    """Write a pattern under the counts of its bar.

    ``-`` holds on, ``~`` is a new note in the same bow, ``.`` is a rest; the letters are those of the signs.

    Examples
    --------
    >>> print(bowing_text(bowing_named("simple shuffle", Metre(4, 4))))
    1 & 2 & 3 & 4 &
    d - u d u - d u
        >       >
    """
    metre = plain_metre(bowing.metre)
    grid = _grid(bowing, metre)
    columns = int(metre.length / grid)
    rows = [_counts(metre, grid), _marks(bowing, grid, columns)]
    if any(stroke.accent for stroke in bowing.strokes):
        rows.append(_accents(bowing, grid, columns))
    width = max(map(len, rows[0]))
    return "\n".join(" ".join(cell.ljust(width) for cell in row).rstrip() for row in rows)


def _grid(bowing: Bowing, metre: Metre) -> Fraction:
    """The widest column on whose edges every stroke lies."""
    places = {place for stroke in bowing.strokes for place in (stroke.onset, stroke.length)}
    for parts in sorted(_divisions(metre)):
        width = metre.beat / parts
        if all((place / width).denominator == 1 for place in places):
            return width
    raise AssertionError(f"{bowing.name} in {metre} lies between the counts")


def _divisions(metre: Metre) -> tuple[int, ...]:
    return (1, 3) if metre.beat == Fraction(3, 2) else (1, 2, 4)


def _counts(metre: Metre, grid: Fraction) -> list[str]:
    said = BETWEEN[int(metre.beat / grid)]
    return [cell for beat in range(1, metre.beats + 1) for cell in (str(beat), *said)]


def _marks(bowing: Bowing, grid: Fraction, columns: int) -> list[str]:
    cells = [HOLD] * columns
    for stroke in bowing.strokes:
        for column in _columns(stroke, grid) if stroke.kind == "rest" else _columns(stroke, grid)[:1]:
            cells[column] = sign_of(stroke.kind).text
    return cells


def _accents(bowing: Bowing, grid: Fraction, columns: int) -> list[str]:
    cells = [""] * columns
    for stroke in bowing.strokes:
        if stroke.accent:
            cells[int(stroke.onset / grid)] = sign_of("accent").text
    return cells


def _columns(stroke: Stroke, grid: Fraction) -> range:
    first = int(stroke.onset / grid)
    return range(first, first + int(stroke.length / grid))
