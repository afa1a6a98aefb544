"""Verovio's SVG taken apart and written anew: only what is drawn, in as few elements as that needs.

What stays: lines joined by their thickness, curves, beams, dots, the music font's signs as paths, and texts
in our own type at Verovio's places. Everything has the colour of text; no style, script or name is left.
"""

import re
from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal
from xml.etree.ElementTree import Element, fromstring

from fifthwise.page.layout_bar import Figure

__all__ = ["Drawing", "Sign", "Text", "drawing"]

SVG = "{http://www.w3.org/2000/svg}"
PLACED = re.compile(r"translate\((-?[\d.]+), ?(-?[\d.]+)\) scale\((-?[\d.]+), ?-?[\d.]+\)")
LINE = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)\Z")
# Half the width of a note's head, in the drawing's units, of which a staff space has 180 (Leipzig).
HALF_HEAD: dict[str, float] = {"E0A2": 146, "E0A0": 196}
HALF_BLACK = 113
SLIDE, THICK = (150, 90), "30"  # how long and steep a slide is, and how thick
LOWER = 70  # our figures under the staff stand so much lower than Verovio sets its own
Style = Literal["number", "chord", "ending", "told"]


@dataclass(frozen=True, slots=True)
class Sign:
    """A sign of the music font at its place."""

    code: str
    scale: float
    x: float
    y: float
    is_head: bool = False


@dataclass(frozen=True, slots=True)
class Text:
    """Words at their place; a chord comes apart as it is drawn."""

    style: Style
    x: float
    y: float
    content: str | Figure


@dataclass(slots=True)
class Drawing:
    """One system, drawn.

    Attributes
    ----------
    lines : dict
        Straight lines by their thickness, as path data.
    curves : list of (str, str)
        Ties and slurs: path data and thickness.
    beams : list of str
        Path data.
    dots : list of (float, float, float)
        Centres and radii.
    outlines : dict
        The path of each sign, by its code.
    bars : list of str
        The names of the bars in it, in order.
    """

    width: float
    height: float
    lines: dict[str, list[str]] = field(default_factory=lambda: defaultdict(list))
    curves: list[tuple[str, str]] = field(default_factory=list)
    beams: list[str] = field(default_factory=list)
    dots: list[tuple[float, float, float]] = field(default_factory=list)
    signs: list[Sign] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)
    outlines: dict[str, str] = field(default_factory=dict)
    bars: list[str] = field(default_factory=list)


def drawing(svg: str, chords: Mapping[str, Figure], slides: Mapping[str, str]) -> Drawing:
    """Take one page of Verovio's apart.

    Parameters
    ----------
    chords : mapping
        What is drawn for each ``harm``, by its name.
    slides : mapping
        The notes, by their names, that are slid to: ``up`` or ``down``.
    """
    root = fromstring(svg)
    inner = root.find(f"{SVG}svg")
    assert inner is not None
    _, _, width, height = map(float, inner.attrib["viewBox"].split())
    found = Drawing(width, height + LOWER)
    for sign in root.iter(f"{SVG}g"):
        path = sign.find(f"{SVG}path")
        name = sign.get("id", "")
        if path is not None and re.match(r"[0-9A-F]{4,5}-", name):
            found.outlines[name.partition("-")[0]] = path.attrib["d"]
    _Taker(found, chords, slides).take(inner, "")
    return found


class _Taker:
    """Goes through Verovio's groups."""

    def __init__(self, found: Drawing, chords: Mapping[str, Figure], slides: Mapping[str, str]) -> None:
        self.found, self.chords, self.slides = found, chords, slides
        self.middle = 0.0  # of the note that a verse stands under

    def take(self, node: Element, kind: str) -> None:
        for child in node:
            tag = child.tag.removeprefix(SVG)
            kinds = child.get("class", "").split()
            if tag == "g":
                self._group(child, kinds, kind)
            elif tag == "text":
                self._text(child, kind)
            else:
                self._shape(child, tag, kind)

    def _group(self, node: Element, kinds: list[str], kind: str) -> None:
        if "placeholder" in kinds:
            return
        if "measure" in kinds:
            self.found.bars.append(node.get("id", ""))
        here = kinds[0] if kinds else kind
        if here in ("syl", "text"):
            here = kind
        if here == "harm":
            self._chord(node)
            return
        if here == "chord" or (here == "note" and kind != "chord"):
            self.middle = _middle(node)
            self._slide(node)
        self.take(node, here)

    def _slide(self, node: Element) -> None:
        """A short line before a note that is slid to, before its accidental too."""
        way = self.slides.get(node.get("id", ""))
        places = [PLACED.match(sign.attrib["transform"]) for sign in node.iter(f"{SVG}use")] if way else []
        placed = [(float(place[1]), float(place[2])) for place in places if place]
        if placed:
            right, y = min(x for x, _ in placed) - 45, placed[0][1]
            rise = SLIDE[1] if way == "up" else -SLIDE[1]
            line = f"M{right - SLIDE[0]:g} {y + rise:g}L{right:g} {y - rise / 4:g}"
            self.found.lines[THICK].append(line)

    def _chord(self, node: Element) -> None:
        text = node.find(f"{SVG}text")
        figure = self.chords.get(node.get("id", ""))
        if text is not None and figure is not None:
            self.found.texts.append(Text("chord", *_at(text), figure))

    def _text(self, node: Element, kind: str) -> None:
        words = "".join(node.itertext()).strip()
        x, y = _at(node)
        if kind == "verse":
            self.found.texts.append(Text("number", self.middle, y + LOWER, words))
        elif kind == "voltaBracket":
            self.found.texts.append(Text("ending", x, y, words))
        else:
            self.found.texts.append(Text("told", x, y, words))

    def _shape(self, node: Element, tag: str, kind: str) -> None:
        if tag == "use":
            code = node.attrib["href"].removeprefix("#").partition("-")[0]
            placed = PLACED.match(node.attrib["transform"])
            assert placed is not None
            x, y, scale = map(float, placed.groups())
            self.found.signs.append(Sign(code, scale, x, y, kind == "notehead"))
        elif tag == "path":
            self._path(node)
        elif tag == "polyline":
            points = node.attrib["points"].strip().replace(" ", "L")
            self.found.lines[node.attrib["stroke-width"]].append(f"M{points}")
        elif tag == "polygon":
            self.found.beams.append("M" + node.attrib["points"].strip().replace(" ", "L") + "z")
        elif tag == "ellipse":
            self.found.dots.append(
                (float(node.attrib["cx"]), float(node.attrib["cy"]), float(node.attrib["rx"]))
            )
        else:  # nothing that is drawn may be lost in silence
            assert tag == "rect", tag
            self.found.beams.append(_rectangle(node))

    def _path(self, node: Element) -> None:
        data, thick = node.attrib["d"], node.get("stroke-width", "0")
        straight = LINE.match(data)
        if straight is None:
            self.found.curves.append((data, thick))
            return
        x1, y1, x2, y2 = straight.groups()
        end = f"H{x2}" if y1 == y2 else f"V{y2}" if x1 == x2 else f"L{x2} {y2}"
        self.found.lines[thick].append(f"M{x1} {y1}{end}")


def _middle(node: Element) -> float:
    """The middle of a note's head, or of the first head of several."""
    heads = (use for group in node.iter(f"{SVG}g") if group.get("class") == "notehead" for use in group)
    head = next(heads, None)
    placed = PLACED.match(head.attrib["transform"]) if head is not None else None
    if head is None or placed is None:
        return 0.0
    code = head.attrib["href"].removeprefix("#").partition("-")[0]
    return float(placed[1]) + HALF_HEAD.get(code, HALF_BLACK)


def _at(node: Element) -> tuple[float, float]:
    placed = next(each for each in node.iter() if "x" in each.attrib)
    return float(placed.attrib["x"]), float(placed.attrib["y"])


def _rectangle(node: Element) -> str:
    x, y, width, height = (node.attrib[name] for name in ("x", "y", "width", "height"))
    return f"M{x} {y}h{width}v{height}h-{width}z"
