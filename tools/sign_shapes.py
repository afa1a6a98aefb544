"""The signs that fifthwise draws itself, as outlines for two weights.

Units are thousandths of an em; y grows upwards from the baseline. A contour is a tuple of segments: a
point is a straight line to it, a triple of points a cubic curve. Contours run clockwise round ink and
counter-clockwise round a hole, as TrueType asks; where strokes cross, their contours simply overlap.
"""

from __future__ import annotations

from dataclasses import dataclass

Point = tuple[float, float]
Curve = tuple[Point, Point, Point]
Contour = tuple[Point | Curve, ...]

CAP = 668  # the capital height of the text font that the signs stand beside
MIDDLE = CAP / 2
DASH = 248  # the height at which the text font sets its dashes
SIDE = 44  # the white at either side of a sign


@dataclass(frozen=True, slots=True)
class Weight:
    """How heavy the strokes are; lighter than the text font's own where several crowd together."""

    name: str
    css: int
    stem: float  # upright strokes of flat, natural and sharp
    beam: float  # slanting strokes of natural and sharp
    bowl: float  # the flat's bowl where it is thickest
    counter: float  # the white within a flat, a natural or a sharp
    line: float  # triangle, diamond, arrow
    swell: float  # by how much a borrowed outline grows on every side


REGULAR = Weight("Regular", 400, stem=58, beam=92, bowl=84, counter=132, line=60, swell=3)
BOLD = Weight("Bold", 700, stem=92, beam=128, bowl=134, counter=128, line=94, swell=11)


@dataclass(frozen=True, slots=True)
class Sign:
    """One glyph: its contours and how far it moves the pen."""

    contours: tuple[Contour, ...]
    advance: float


def _upright(left: float, width: float, foot: float, top: float) -> Contour:
    right = left + width
    return (left, foot), (left, top), (right, top), (right, foot)


def _slant(left: float, right: float, middle: float, thick: float, rise: float) -> Contour:
    """Return a beam whose middle line crosses ``middle`` half-way and climbs by ``rise``."""
    low, high = middle - (thick + rise) / 2, middle - (thick - rise) / 2
    return (left, low), (left, low + thick), (right, high + thick), (right, high)


def _flat(weight: Weight, left: float) -> tuple[Contour, Contour]:
    """Return a flat's outline and its hole; the bowl ends in a point, so that nobody takes it for a b."""
    top, shoulder, waist, tip = 1.07 * CAP, 0.63 * CAP, 0.43 * CAP, -0.03 * CAP
    inner = left + weight.stem
    right = inner + weight.counter + weight.bowl
    reach = right - inner
    outline: Contour = (
        (left, tip),
        (left, top),
        (inner, top),
        (inner, shoulder - 0.12 * CAP),
        (
            (inner + 0.14 * reach, shoulder - 0.04 * CAP),
            (inner + 0.30 * reach, shoulder),
            (inner + 0.50 * reach, shoulder),
        ),
        ((inner + 0.80 * reach, shoulder), (right, shoulder - 0.06 * CAP), (right, waist)),
        ((right, waist - 0.17 * CAP), (inner + 0.62 * reach, 0.14 * CAP), (left, tip)),
    )
    white, thin = weight.counter, 0.62 * weight.bowl
    hole: Contour = (
        (inner, 0.125 * CAP),
        (
            (inner + 0.55 * white, 0.24 * CAP),
            (inner + white, waist - 0.09 * CAP),
            (inner + white, waist + 0.01 * CAP),
        ),
        (
            (inner + white, shoulder - thin - 0.02 * CAP),
            (inner + 0.8 * white, shoulder - thin),
            (inner + 0.62 * white, shoulder - thin),
        ),
        (
            (inner + 0.36 * white, shoulder - thin),
            (inner + 0.1 * white, shoulder - thin - 0.04 * CAP),
            (inner, shoulder - 0.62 * thin - 0.16 * CAP),
        ),
    )
    return outline, hole


def flat(weight: Weight) -> Sign:
    """Draw ♭, on the baseline, a little higher than a capital."""
    return Sign(_flat(weight, SIDE), SIDE + weight.stem + weight.counter + weight.bowl + 0.8 * SIDE)


def double_flat(weight: Weight) -> Sign:
    """Draw 𝄫: two flats, the first bowl leaning on the second stem."""
    step = weight.stem + weight.counter + weight.bowl - 0.4 * weight.stem
    first, second = _flat(weight, SIDE), _flat(weight, SIDE + step)
    return Sign(first + second, step + flat(weight).advance)


def sharp(weight: Weight) -> Sign:
    """Draw ♯, about the middle of a capital and a little over both its ends."""
    arm = 0.9 * weight.stem  # how far a beam reaches past the uprights
    first = SIDE + arm
    second = first + weight.stem + weight.counter
    right = second + weight.stem + arm
    half, lag, gap, rise = 0.56 * CAP, 0.05 * CAP, 0.20 * CAP, 0.22 * (right - SIDE)
    return Sign(
        (
            _upright(first, weight.stem, MIDDLE - half - lag / 2, MIDDLE + half - lag / 2),
            _upright(second, weight.stem, MIDDLE - half + lag / 2, MIDDLE + half + lag / 2),
            _slant(SIDE, right, MIDDLE - gap, weight.beam, rise),
            _slant(SIDE, right, MIDDLE + gap, weight.beam, rise),
        ),
        right + SIDE,
    )


def natural(weight: Weight) -> Sign:
    """Draw ♮, as high as the sharp; the inner ends of its uprights follow the slant of its beams."""
    second = SIDE + weight.stem + weight.counter
    right = second + weight.stem
    half, gap, slope = 0.58 * CAP, 0.20 * CAP, 0.22
    rise, tilt = slope * (right - SIDE), slope * weight.stem
    low, high = MIDDLE - gap, MIDDLE + gap
    reach = (weight.beam + rise) / 2
    left_upright: Contour = (
        (SIDE, low - reach),
        (SIDE, MIDDLE + half),
        (SIDE + weight.stem, MIDDLE + half),
        (SIDE + weight.stem, low - reach + tilt),
    )
    right_upright: Contour = (
        (second, MIDDLE - half),
        (second, high + reach - tilt),
        (right, high + reach),
        (right, MIDDLE - half),
    )
    beams = (_slant(SIDE, right, middle, weight.beam, rise) for middle in (low, high))
    return Sign((left_upright, right_upright, *beams), right + SIDE)


def triangle(weight: Weight) -> Sign:
    """Draw △, the major seventh, on the baseline."""
    height, half = 0.92 * CAP, 0.50 * CAP
    side = (half**2 + height**2) ** 0.5
    inset_top = weight.line * side / half
    inset_foot = weight.line * (side + half) / height
    middle, right = SIDE + half, SIDE + 2 * half
    outline: Contour = ((SIDE, 0), (middle, height), (right, 0))
    hole: Contour = (
        (SIDE + inset_foot, weight.line),
        (right - inset_foot, weight.line),
        (middle, height - inset_top),
    )
    return Sign((outline, hole), right + SIDE)


def diamond(weight: Weight) -> Sign:
    """Draw ◇, a chord that is held, about the middle of a capital."""
    half_width, half_height = 0.54 * CAP, 0.60 * CAP
    side = (half_width**2 + half_height**2) ** 0.5
    inset_x, inset_y = weight.line * side / half_height, weight.line * side / half_width
    middle = SIDE + half_width

    def rhombus(x: float, y: float) -> Contour:
        return (middle - x, MIDDLE), (middle, MIDDLE + y), (middle + x, MIDDLE), (middle, MIDDLE - y)

    hole = rhombus(half_width - inset_x, half_height - inset_y)[::-1]
    return Sign((rhombus(half_width, half_height), hole), 2 * (SIDE + half_width))


def arrow(weight: Weight) -> Sign:
    """Draw →, on the line of the dashes."""
    right, half_line = SIDE + 1.05 * CAP, weight.line / 2
    half_head, back = 0.33 * CAP, 1.4142 * weight.line
    head: Contour = (
        (right, DASH),
        (right - half_head, DASH - half_head),
        (right - half_head - back / 2, DASH - half_head + back / 2),
        (right - back, DASH),
        (right - half_head - back / 2, DASH + half_head - back / 2),
        (right - half_head, DASH + half_head),
    )
    return Sign(
        (_upright(SIDE, right - SIDE - back / 2, DASH - half_line, DASH + half_line), head), right + SIDE
    )


DRAWN = {
    "♭": flat,
    "♮": natural,
    "♯": sharp,
    "𝄫": double_flat,
    "△": triangle,
    "◇": diamond,
    "→": arrow,
}
