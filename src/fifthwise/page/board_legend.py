"""The key to a fingerboard's signs: those that it uses, each with its meaning in a few words."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from fifthwise.page.board_marks import Mark, Shape, Strength
from fifthwise.page.board_signs import SMALL, Ink, diamond, finger_sign, sign
from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.page.board_words import chord_letters
from fifthwise.page.picture_scale import broken
from fifthwise.page.picture_svg import element, words
from fifthwise.strings import Place, stop_mm

__all__ = ["LegendItem", "draw_legend", "legend_items"]

HALF, ROW, TEXT_SIZE = 11.0, 28.0, 14.0
NOWHERE = Place(0, 0)
Draw = Callable[[float, float, Ink], str]


@dataclass(frozen=True, slots=True)
class LegendItem:
    """One sign, or a few in a row, with their meaning.

    Attributes
    ----------
    width : float
        That the sign takes.
    draw : callable
        Draws it from its left end and middle.
    """

    text: str
    width: float
    draw: Draw


def legend_items(
    subject: BoardSubject, view: BoardView, marks: Sequence[Mark], fingers: Sequence[str]
) -> tuple[LegendItem, ...]:
    """The signs that a board uses, in the order in which they are told."""
    if view.path is not None:
        items = _path_items(marks)
    elif view.anchors:
        items = _anchor_items(subject, marks)
    else:
        items = _degree_items(subject, view, marks)
    return (*items, *_side_items(subject, view, fingers))


def _degree_items(subject: BoardSubject, view: BoardView, marks: Sequence[Mark]) -> Iterator[LegendItem]:
    if view.chord is None:
        yield from _signs(marks, "filled", "home")
    else:
        yield from _signs(marks, "filled", f"root of {chord_letters(subject, view.chord)}")
        yield from _signs(marks, "strong", "other notes of the chord")
    yield from _shapes(marks)
    yield from _signs(marks, "plain", "other steps of the key")


def _anchor_items(subject: BoardSubject, marks: Sequence[Mark]) -> Iterator[LegendItem]:
    yield from _signs(marks, "filled", "start here")
    yield LegendItem("the same finger", 26, lambda x, y, ink: _line(x, y, 26, 6, ink))
    if any(mark.strength == "dashed" for mark in marks):
        yield LegendItem("another finger", 26, lambda x, y, ink: _line(x, y, 26, 2, ink, dashes="2 4"))
    yield from _shapes(marks)
    yield from _signs(marks, "plain", "other places of the four")


def _path_items(marks: Sequence[Mark]) -> Iterator[LegendItem]:
    yield from _signs(marks, "filled", "start here")
    if any(mark.shape == "lozenge" for mark in marks):
        yield LegendItem("harmonic", 26, lambda x, y, ink: diamond(x + 12, y, 11, "", ink))
    yield LegendItem(
        "when it comes", 22, lambda x, y, ink: words(x + 2, y + 5, "1.", SMALL, **ink.paint(fill="second"))
    )


def _side_items(subject: BoardSubject, view: BoardView, fingers: Sequence[str]) -> Iterator[LegendItem]:
    if fingers:
        yield LegendItem("finger", 22, lambda x, y, ink: _finger(x, y, fingers[0], ink))
    if view.harmonics:
        yield LegendItem("harmonic, and what sounds", 26, lambda x, y, ink: diamond(x + 12, y, 11, "5", ink))
    if view.mm:
        length = subject.instrument.length_mm
        text, first = f"mm from the nut, string {length:g} mm", f"{stop_mm(length, 1):.0f}"
        yield LegendItem(
            text, 26, lambda x, y, ink: words(x + 4, y + 5, first, SMALL, **ink.paint(fill="second"))
        )


def _signs(marks: Sequence[Mark], strength: Strength, text: str) -> Iterator[LegendItem]:
    """One sign of a strength, where there is one: as it stands on the board."""
    found = next((mark for mark in marks if mark.strength == strength), None)
    if found is not None:
        yield LegendItem(text, 26, lambda x, y, ink: sign(found, x + 13, y, HALF, ink))


def _shapes(marks: Sequence[Mark]) -> Iterator[LegendItem]:
    strength: Strength = "faint" if any(mark.strength == "faint" for mark in marks) else "thin"
    shapes: tuple[tuple[Shape, str], ...] = (("square", "4"), ("house", "5"), ("hexagon", "6"))
    used = {mark.shape for mark in marks if mark.strength != "plain"}
    if not used & {"square", "house", "hexagon"}:
        return

    def draw(x: float, y: float, ink: Ink) -> str:
        drawn = (Mark(NOWHERE, text, shape, strength) for shape, text in shapes)
        return "".join(sign(mark, x + 12 + 29 * place, y, HALF, ink) for place, mark in enumerate(drawn))

    yield LegendItem("as many sides as the number", 84, draw)


def _line(x: float, y: float, length: float, width: float, ink: Ink, dashes: str = "") -> str:
    more = {"stroke_dasharray": dashes} if dashes else {}
    return element("line", x1=x, y1=y, x2=x + length, y2=y, stroke=ink.go, stroke_width=width, **more)


def _finger(x: float, y: float, name: str, ink: Ink) -> str:
    return "".join(finger_sign(x + 18, y, name, 8, ink))


def draw_legend(
    items: Sequence[LegendItem], x: float, y: float, width: float, ink: Ink
) -> tuple[list[str], float]:
    """Draw the key to the signs from a place downwards; also gives where it ends."""
    parts: list[str] = []
    at = x
    for item in items:
        indent = item.width + 8 if item.width else 0
        long = indent + len(item.text) * TEXT_SIZE * 0.53 + 20
        if at > x and at + long > x + width:
            at, y = x, y + ROW
        lines = broken(item.text, x + width - at - indent, TEXT_SIZE)
        parts.append(item.draw(at, y + ROW / 2, ink))
        for row, text in enumerate(lines):
            parts.append(
                words(at + indent, y + ROW / 2 + 5 + 18 * row, text, TEXT_SIZE, **ink.paint(fill="second"))
            )
        at += long
        if len(lines) > 1:
            at, y = x + width, y + 18 * (len(lines) - 1)
    return parts, y + ROW
