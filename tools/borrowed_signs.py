"""The signs that are taken from Noto Music, scaled to stand beside capitals and grown to a weight."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont
from fontTools.ttLib.tables._g_l_y_f import Glyph
from sign_shapes import CAP, MIDDLE, SIDE, Point, Weight

MITER_LIMIT = 0.4  # a sharper corner grows no further than this lets it


@dataclass(frozen=True, slots=True)
class Borrowed:
    """How tall a borrowed sign stands, and how high its middle, in the weight Regular."""

    height: float
    middle: float = MIDDLE


BORROWED = {
    "𝄪": Borrowed(0.53 * CAP),
    "𝄋": Borrowed(1.16 * CAP),
    "𝄌": Borrowed(1.16 * CAP),
    "𝄐": Borrowed(0.50 * CAP, 0.66 * CAP),
    "𝄽": Borrowed(1.12 * CAP),
    "𝄎": Borrowed(0.84 * CAP),
}


def borrowed_sign(source: TTFont, sign: str, weight: Weight) -> tuple[Glyph, int]:
    """Return a glyph of the source font, scaled to its place and grown to the weight, with its advance."""
    glyphs = source.getGlyphSet()
    record = DecomposingRecordingPen(glyphs)
    name = source.getBestCmap()[ord(sign)]
    glyphs[name].draw(record)
    table = source["glyf"][name]
    place = BORROWED[sign]
    scale = (place.height - 2 * weight.swell) / (table.yMax - table.yMin)
    left = SIDE + weight.swell - scale * table.xMin
    foot = place.middle - scale * (table.yMin + table.yMax) / 2
    pen = TTGlyphPen(None)
    record.replay(TransformPen(pen, (scale, 0, 0, scale, left, foot)))
    glyph = pen.glyph(round=lambda value: value)
    swell(glyph, weight.swell)
    return glyph, round(scale * (table.xMax - table.xMin) + 2 * (weight.swell + SIDE))


def swell(glyph: Glyph, by: float) -> None:
    """Move every point of an outline ``by`` units out of the ink, along the middle of its corner."""
    moved: list[tuple[float, float]] = []
    for contour in contours(glyph):
        count = len(contour)
        for here, point in enumerate(contour):
            out_x, out_y = outward(contour[here - 1], point, contour[(here + 1) % count])
            moved.append((point[0] + by * out_x, point[1] + by * out_y))
    glyph.coordinates = type(glyph.coordinates)(moved)


def contours(glyph: Glyph) -> Iterator[list[tuple[float, float]]]:
    """Yield the points of each contour in turn."""
    start = 0
    for end in glyph.endPtsOfContours:
        yield list(glyph.coordinates[start : end + 1])
        start = end + 1


def outward(before: Point, here: Point, after: Point) -> Point:
    """Return how a corner moves when both its sides move one unit to their left, away from the ink."""
    (ax, ay), (bx, by) = left_of(before, here), left_of(here, after)
    miter = max(1 + ax * bx + ay * by, MITER_LIMIT)
    return (ax + bx) / miter, (ay + by) / miter


def left_of(start: Point, end: Point) -> Point:
    """Return the unit vector to the left of the way from start to end."""
    dx, dy = end[0] - start[0], end[1] - start[1]
    length = (dx**2 + dy**2) ** 0.5 or 1.0
    return -dy / length, dx / length
