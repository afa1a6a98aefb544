"""What lies under and beside the signs: strings, nut, semitones, string names, hand and distances."""

from collections.abc import Iterable, Iterator

from fifthwise.page.board_marks import Mark
from fifthwise.page.board_neck import Neck
from fifthwise.page.board_signs import SMALL, Ink, finger_sign
from fifthwise.page.picture_svg import element, words
from fifthwise.page.text_signs import printed
from fifthwise.strings import OPEN, Instrument, stop_mm, string_name

__all__ = ["distances", "fingers", "neck_lines", "string_names"]

THICK, THIN = 4.0, 1.2
NUT = 5.0
BESIDE = 12.0


def neck_lines(neck: Neck, ink: Ink) -> Iterator[str]:
    """Semitones as hair lines, strings thick to thin, the nut across."""
    overhang = neck.size + 3
    for stop in range(1, neck.stops + 1):
        yield _across(neck, neck.along(stop), overhang, 1.0, ink.paint(stroke="hair"))
    for string in range(neck.strings):
        start, end = neck.point(string, 0), neck.point(string, neck.end)
        share = string / max(1, neck.strings - 1)
        width = THICK + (THIN - THICK) * share
        yield _line(start, end, width, ink.paint(stroke="rule"))
    yield _across(neck, 0, overhang, NUT, {"stroke": "currentColor"})


def _across(neck: Neck, along: float, overhang: float, width: float, stroke: dict[str, str]) -> str:
    (x1, y1), (x2, y2) = neck.point(0, along), neck.point(neck.strings - 1, along)
    if neck.horizontal:
        return _line((x1, y1 + overhang), (x2, y2 - overhang), width, stroke)
    return _line((x1 - overhang, y1), (x2 + overhang, y2), width, stroke)


def _line(start: tuple[float, float], end: tuple[float, float], width: float, stroke: dict[str, str]) -> str:
    (x1, y1), (x2, y2) = start, end
    return element("line", x1=x1, y1=y1, x2=x2, y2=y2, stroke_width=width, **stroke)


def string_names(neck: Neck, instrument: Instrument, ink: Ink) -> Iterator[str]:
    """Each string's letter, before its open sign."""
    for string in range(neck.strings):
        x, y = neck.at(string, 0)
        name = printed(string_name(instrument, string))
        if neck.horizontal:
            left = x - neck.size * 1.3 - 6
            yield words(left, y + 5, name, 15, weight=600, anchor="end", **ink.paint(fill="second"))
        else:
            above = y - neck.size * 1.2 - 8
            yield words(x, above, name, 15, weight=600, anchor="middle", **ink.paint(fill="second"))


def fingers(neck: Neck, marks: Iterable[Mark], ink: Ink) -> Iterator[str]:
    """The hand at the side: each finger's number beside the stops that it takes."""
    reach: dict[int, list[int]] = {}
    for mark in marks:
        if mark.finger is not None and mark.finger.finger != OPEN:
            reach.setdefault(mark.finger.finger, []).append(mark.place.stop)
    for finger, stops in sorted(reach.items()):
        low, high = neck.along(min(stops)), neck.along(max(stops))
        name = "thumb" if finger < OPEN else str(finger)
        x, y = _side(neck, (low + high) / 2)
        yield from finger_sign(x, y, name, (high - low) / 2 + 7, ink, flat=neck.horizontal)


def _side(neck: Neck, along: float) -> tuple[float, float]:
    """Left of the lowest string where the neck is widest, or beneath it."""
    x, y = neck.point(0, neck.end)
    if neck.horizontal:
        return neck.x + along, y + neck.size + BESIDE
    return x - neck.size * 1.3 - BESIDE + 4, neck.y + along


def distances(neck: Neck, instrument: Instrument, right: float, ink: Ink) -> Iterator[str]:
    """Each semitone's distance from the nut in mm, where there is room, ending at a right edge."""
    last = -SMALL
    for stop in range(1, neck.stops + 1):
        along = neck.along(stop)
        room = SMALL * 2 if neck.horizontal else SMALL
        if along - last < room:
            continue
        last = along
        x, y = neck.point(neck.strings - 1, along)
        text = f"{stop_mm(instrument.length_mm, stop):.0f}"
        if neck.horizontal:
            yield words(x, y - neck.size - 9, text, SMALL, anchor="middle", **ink.paint(fill="second"))
        else:
            yield words(right, y + 5, text, SMALL, anchor="end", **ink.paint(fill="second"))
