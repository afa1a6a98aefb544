"""The signs of a fingerboard as SVG."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from fifthwise.page.board_marks import Mark, Shape
from fifthwise.page.picture_svg import element, number, words
from fifthwise.strings import Place

__all__ = ["IN_PAGE", "STANDALONE", "Ink", "diamond", "finger_sign", "sign"]

WIDTHS = {"filled": 2.0, "strong": 3.2, "dashed": 2.4, "thin": 1.6, "faint": 1.2, "plain": 0.0}
SMALL = 14.0
CLASSED = ("paper", "second", "rule", "hair")
# Corners in halves of a sign's height, from its middle.
CORNERS: dict[Shape, tuple[tuple[float, float], ...]] = {
    "square": ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)),
    "house": ((-0.95, 1.0), (-0.95, -0.3), (0, -1.2), (0.95, -0.3), (0.95, 1.0)),
    "lozenge": ((0, -1.25), (1.25, 0), (0, 1.25), (-1.25, 0)),
    "hexagon": ((-1.3, 0), (-0.68, -1), (0.68, -1), (1.3, 0), (0.68, 1), (-0.68, 1)),
}
LOWER = {"house": 0.16}  # how far a number stands below the middle


@dataclass(frozen=True, slots=True)
class Ink:
    """Where a picture takes its colours from; everything else is ``currentColor``."""

    paper: str
    second: str
    rule: str
    hair: str
    go: str
    named: bool

    def paint(self, *, fill: str = "", stroke: str = "") -> dict[str, Any]:
        """A fill and a stroke by their kinds, and the classes under which a dark viewer finds them."""
        painted = {name: self._colour(kind) for name, kind in (("fill", fill), ("stroke", stroke)) if kind}
        classes = [fill] if fill in CLASSED else []
        classes += [f"{stroke}-line"] if stroke in CLASSED else []
        return {**painted, "class_": " ".join(classes)} if self.named and classes else painted

    def _colour(self, kind: str) -> str:
        colour: str = "currentColor" if kind == "ink" else getattr(self, kind)
        return colour


STANDALONE = Ink("#fff", "#444", "#777", "#bbb", "currentColor", True)
IN_PAGE = Ink(
    "var(--paper,#fff)",
    "var(--second,currentColor)",
    "var(--rule,currentColor)",
    "var(--hair,currentColor)",
    "var(--go,currentColor)",
    False,
)


def sign(mark: Mark, x: float, y: float, size: float, ink: Ink, place: Place | None = None) -> str:
    """A place's sign with its number.

    Parameters
    ----------
    size : float
        Half its height.
    place : Place, optional
        Told in the outline's attributes, for scripts and tests.
    """
    colour = "go" if mark.chosen else "second" if mark.strength == "faint" else "ink"
    fill = colour if mark.strength == "filled" else "paper"
    painted = ink.paint(fill=fill, stroke="" if mark.strength == "plain" else colour)
    painted |= {"stroke_width": number(WIDTHS[mark.strength])}
    if place is not None:
        painted |= {"data_string": str(place.string), "data_stop": str(place.stop)}
    if mark.strength == "dashed":
        painted["stroke_dasharray"] = "3.5 2.5"
    middle = y + LOWER.get(mark.shape, 0.0) * size if mark.strength != "plain" else y
    return _outline(mark, x, y, size, painted) + _number(mark, x, middle, size, ink)


def _outline(mark: Mark, x: float, y: float, size: float, drawn: dict[str, Any]) -> str:
    if mark.strength == "plain":
        return element("circle", cx=x, cy=y, r=size * 0.74, **drawn)
    if mark.shape == "round":
        return element("circle", cx=x, cy=y, r=size, **drawn)
    corners = (f"{number(x + size * dx)},{number(y + size * dy)}" for dx, dy in CORNERS[mark.shape])
    return element("polygon", points=" ".join(corners), stroke_linejoin="round", **drawn)


def _number(mark: Mark, x: float, y: float, size: float, ink: Ink) -> str:
    high = max(SMALL, size * (1.35 if len(mark.text) < len("♭♭7") else 1.1))
    weight = 600 if mark.strength == "plain" else 700
    kinds = {"filled": "paper", "plain": "second", "faint": "second"}
    colour = ink.paint(fill=kinds.get(mark.strength, ""))
    return words(x, y + high * 0.35, mark.text, high, weight=weight, anchor="middle", **colour)


def diamond(x: float, y: float, size: float, text: str, ink: Ink) -> str:
    """A harmonic: a lozenge with the degree that sounds."""
    points = f"{number(x - size)},{number(y)} {number(x)},{number(y - size)} {number(x + size)},{number(y)} "
    points += f"{number(x)},{number(y + size)}"
    shape = element("polygon", points=points, stroke_width=1.2, **ink.paint(fill="paper", stroke="ink"))
    return shape + words(x, y + 5, text, SMALL, anchor="middle")


def finger_sign(x: float, y: float, text: str, half: float, ink: Ink, *, flat: bool = False) -> Iterator[str]:
    """A finger: its number outside a bar, so that it is never taken for a degree.

    Parameters
    ----------
    half : float
        Half the bar's length.
    flat : bool
        Whether the bar lies, with the number beneath; otherwise it stands, with the number at its left.
    """
    ends = (x - half, y, x + half, y) if flat else (x, y - half, x, y + half)
    bar = dict(zip(("x1", "y1", "x2", "y2"), ends, strict=True))
    yield element("line", stroke_width=2, **bar, **ink.paint(stroke="second"))
    where = (x, y + SMALL + 2) if flat else (x - 5, y + 5)
    yield words(*where, text, SMALL, anchor="middle" if flat else "end", **ink.paint(fill="second"))
