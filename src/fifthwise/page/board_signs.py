"""The signs of a fingerboard as SVG."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from fifthwise.page.board_marks import Mark, Shape
from fifthwise.page.picture_svg import element, number, words

__all__ = ["IN_PAGE", "STANDALONE", "Ink", "diamond", "finger_sign", "sign"]

WIDTHS = {"filled": 2.0, "strong": 3.0, "dashed": 2.4, "thin": 1.4, "plain": 0.0}
SMALL = 14.0
# Corners in halves of a sign's height, from its middle; as many as the degree's number.
CORNERS: dict[Shape, tuple[tuple[float, float], ...]] = {
    "square": ((-0.9, -0.9), (0.9, -0.9), (0.9, 0.9), (-0.9, 0.9)),
    "house": ((-0.95, 1.0), (-0.95, -0.3), (0, -1.2), (0.95, -0.3), (0.95, 1.0)),
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

    def fill(self, kind: str) -> dict[str, str]:
        """A fill, and the class under which a dark viewer finds it."""
        return {"fill": getattr(self, kind), **({"class_": kind} if self.named else {})}

    def text(self, kind: str) -> dict[str, Any]:
        """The fill of a text."""
        return dict(self.fill(kind))

    def stroke(self, kind: str) -> dict[str, str]:
        """A stroke, and its class."""
        return {"stroke": getattr(self, kind), **({"class_": kind} if self.named else {})}


STANDALONE = Ink("#fff", "#444", "#777", "#bbb", "currentColor", True)
IN_PAGE = Ink(
    "var(--paper,#fff)",
    "var(--second,currentColor)",
    "var(--rule,currentColor)",
    "var(--hair,currentColor)",
    "var(--go,currentColor)",
    False,
)


def sign(mark: Mark, x: float, y: float, size: float, ink: Ink) -> str:
    """A place's sign with its number."""
    colour = ink.go if mark.chosen else "currentColor"
    fill = {"fill": colour} if mark.strength == "filled" else ink.fill("paper")
    line: dict[str, str] = {}
    if mark.strength != "plain":
        line = {"stroke": colour, "stroke_width": number(WIDTHS[mark.strength])}
        if mark.strength == "dashed":
            line["stroke_dasharray"] = "3.5 2.5"
    middle = y + LOWER.get(mark.shape, 0.0) * size if mark.strength != "plain" else y
    text = _number(mark, x, middle, size, ink)
    return _outline(mark, x, y, size, fill | line) + text


def _outline(mark: Mark, x: float, y: float, size: float, drawn: dict[str, str]) -> str:
    if mark.strength == "plain":
        return element("circle", cx=x, cy=y, r=size * 0.74, **drawn)
    if mark.shape == "round":
        return element("circle", cx=x, cy=y, r=size, **drawn)
    corners = (f"{number(x + size * dx)},{number(y + size * dy)}" for dx, dy in CORNERS[mark.shape])
    return element("polygon", points=" ".join(corners), stroke_linejoin="round", **drawn)


def _number(mark: Mark, x: float, y: float, size: float, ink: Ink) -> str:
    high = max(SMALL, size * (1.35 if len(mark.text) < len("♭♭7") else 1.1))
    weight = 600 if mark.strength == "plain" else 700
    kinds = {"filled": "paper", "plain": "second"}
    colour = ink.text(kinds[mark.strength]) if mark.strength in kinds else {}
    return words(x, y + high * 0.35, mark.text, high, weight=weight, anchor="middle", **colour)


def diamond(x: float, y: float, size: float, text: str, ink: Ink) -> str:
    """A harmonic: a lozenge with the degree that sounds."""
    points = f"{number(x - size)},{number(y)} {number(x)},{number(y - size)} {number(x + size)},{number(y)} "
    points += f"{number(x)},{number(y + size)}"
    shape = element("polygon", points=points, stroke="currentColor", stroke_width=1.2, **ink.fill("paper"))
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
    yield element("line", stroke_width=2, **bar, **ink.stroke("second"))
    where = (x, y + SMALL + 2) if flat else (x - 5, y + 5)
    yield words(*where, text, SMALL, anchor="middle" if flat else "end", **ink.text("second"))
