"""What joins places: the ways to the anchors, and a fingered line from note to note."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from fifthwise.page.board_marks import Mark, Shape, degree_label, degree_shape
from fifthwise.page.board_neck import Neck
from fifthwise.page.board_signs import SMALL, Ink, finger_sign
from fifthwise.page.board_view import BoardSubject
from fifthwise.page.picture_svg import element, number, words
from fifthwise.page.text_signs import printed
from fifthwise.strings import AnchorRoute, Place

if TYPE_CHECKING:  # brings numpy
    from fifthwise.strings.fingering import FingeredNote, Fingering

__all__ = ["path_fingers", "path_labels", "path_line", "path_marks", "route_lines"]

MOST_ORDERS = 3


def route_lines(neck: Neck, routes: Sequence[AnchorRoute], ink: Ink) -> Iterator[str]:
    """A thick line from the 1 to what lies under the same finger, a dotted one to what does not."""
    for route in routes:
        one, five, *_ = route.anchors
        for anchor in route.anchors[1:]:
            start = five if anchor.relation == "above the 5" else one
            joined = anchor.relation == "same finger"
            (x1, y1), (x2, y2) = (neck.at(a.at.place.string, a.at.place.stop) for a in (start, anchor))
            line = {"x1": x1, "y1": y1, "x2": x2, "y2": y2}
            dashes = {} if joined else {"stroke_dasharray": "2 4"}
            yield element("line", stroke=ink.go, stroke_width=6.0 if joined else 2.0, **line, **dashes)


def _steps(path: "Fingering") -> Iterator[tuple["FingeredNote", int, Place, int]]:
    """Each stopped pitch with its order, place and finger; notes sounded together share their order."""
    for order, note in enumerate(path.notes, 1):
        for stop in note.stops:
            yield note, order, Place(stop.string, stop.stop), stop.finger


def path_marks(subject: BoardSubject, path: "Fingering") -> tuple[Mark, ...]:
    """The places of a line, each once, with its degree, or its note's name where no key is known."""
    found: dict[Place, Mark] = {}
    for order, note in enumerate(path.notes):
        for index, stop in enumerate(note.stops):
            place = Place(stop.string, stop.stop)
            text, shape = _named(subject, note, index)
            if stop.harmonic:
                shape = "lozenge"
            mark = Mark(place, text, shape, "strong" if order else "filled", chosen=True)
            found.setdefault(place, mark)
    return tuple(mark for _, mark in sorted(found.items()))


def _named(subject: BoardSubject, note: "FingeredNote", index: int) -> tuple[str, Shape]:
    """What one pitch of a note is called, and its shape."""
    if not note.note.degrees:
        return printed(note.note.pitches[index].name), "round"
    degree = note.note.degrees[index]
    return degree_label(subject, degree), degree_shape(degree, subject.numbering.scale(subject.key))


def path_fingers(path: "Fingering") -> list[str]:
    """The fingers that a line uses, by name."""
    return sorted({_name(finger) for _, _, _, finger in _steps(path) if finger})


def _name(finger: int) -> str:
    return "T" if finger < 0 else str(finger)


def path_line(neck: Neck, path: "Fingering", ink: Ink) -> Iterator[str]:
    """The way from note to note, under the signs."""
    tops = [note.stops[-1] for note in path.notes if note.stops]
    points = [neck.at(stop.string, stop.stop) for stop in tops]
    if any(one != other for one, other in pairwise(points)):
        way = " ".join(f"{number(x)},{number(y)}" for x, y in points)
        yield element("polyline", points=way, fill="none", stroke=ink.go, stroke_width=2)


def _on_paper(x: float, y: float, text: str, ink: Ink) -> str:
    """A small text over lines, which stop short of it."""
    paper = ink.paint(fill="paper", stroke="paper")
    halo = words(x, y, text, SMALL, stroke_width="5", stroke_linejoin="round", **paper)
    return halo + words(x, y, text, SMALL, **ink.paint(fill="second"))


def path_labels(neck: Neck, path: "Fingering", ink: Ink) -> Iterator[str]:
    """At each place when it comes, with a full stop, and which finger takes it, behind a bar."""
    orders: dict[Place, list[int]] = {}
    fingers: dict[Place, list[str]] = {}
    for _, order, place, finger in _steps(path):
        orders.setdefault(place, []).append(order)
        if finger and _name(finger) not in fingers.setdefault(place, []):
            fingers[place].append(_name(finger))
    for place, numbers in sorted(orders.items()):
        x, y = neck.at(place.string, place.stop)
        more = " …" if len(numbers) > MOST_ORDERS else ""
        text = " ".join(f"{each}." for each in numbers[:MOST_ORDERS]) + more
        yield _on_paper(x + neck.size * 1.1, y - neck.size * 0.7, text, ink)
        if fingers.get(place):
            left = x - neck.size * 1.3 - 3
            yield from finger_sign(left, y + neck.size * 0.55, " ".join(fingers[place]), 7, ink)
