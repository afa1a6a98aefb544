"""A fingerboard in plain text: a row a half step, a column a string, and what there is to know beside it."""

from collections.abc import Iterator, Sequence

from fifthwise.page.board_marks import Mark, anchor_marks, best_routes, degree_marks
from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.page.board_words import board_subtitle, board_title, chord_letters, way_sentences
from fifthwise.page.text_signs import printed, printed_key
from fifthwise.strings import (
    OPEN,
    anchor_routes,
    finger_patterns,
    open_colours,
    open_degrees,
    stop_mm,
    string_name,
)
from fifthwise.theory import to_letters

__all__ = ["board_text"]

CELL = 6
AROUND = {"filled": "[{}]", "strong": "({})", "dashed": "({})"}
NOTHING = "·"


def board_text(subject: BoardSubject, view: BoardView = BoardView()) -> str:  # noqa: B008 - frozen
    """Write a fingerboard as text, the nut on top, with fingers at the left and millimetres at the right.

    ``[1]`` is home, the chord's root or where a way begins; ``(5)`` another note of the chord or the way.
    """
    routes = best_routes(subject, view) if view.anchors else ()
    marks = anchor_marks(subject, view, routes) if view.anchors else degree_marks(subject, view)
    heading = [board_title(subject)] if view.title else []
    told = () if view.anchors else board_subtitle(subject, view, ())
    about = _ways(subject, view) if view.anchors else _about(subject, view)
    return "\n".join([*heading, *told, "", *_grid(subject, view, marks), "", *about]) + "\n"


def _grid(subject: BoardSubject, view: BoardView, marks: Sequence[Mark]) -> Iterator[str]:
    instrument = subject.instrument
    strings = range(len(instrument.strings))
    by_place = {(mark.place.string, mark.place.stop): mark for mark in marks}
    yield _row("", (printed(string_name(instrument, string)) for string in strings), "")
    for stop in range(view.highest(instrument) + 1):
        here = [by_place.get((string, stop)) for string in strings]
        side = _fingers(here)
        right = f"{stop_mm(instrument.length_mm, stop):5.0f} mm" if stop else ""
        yield _row(side, map(_cell, here), right)
        if stop == 0:
            yield " " * CELL + "=" * (CELL * len(strings))


def _row(side: str, cells: Iterator[str], right: str) -> str:
    return f"{side:>{CELL - 1}} {''.join(cell.center(CELL) for cell in cells)} {right}".rstrip()


def _cell(mark: Mark | None) -> str:
    return NOTHING if mark is None else AROUND.get(mark.strength, "{}").format(mark.text)


def _fingers(marks: Sequence[Mark | None]) -> str:
    """The fingers of a row: ``3``, or ``3/4`` where spelling parts them."""
    told = {m.finger.finger for m in marks if m is not None and m.finger and m.finger.finger != OPEN}
    return "/".join("th" if finger < OPEN else str(finger) for finger in sorted(told))


def _about(subject: BoardSubject, view: BoardView) -> Iterator[str]:
    """What the open strings are, and how the fingers stand."""
    instrument, key, numbering = subject.instrument, subject.key, subject.numbering
    if view.chord is not None:
        chord = to_letters(view.chord, numbering.one(key))
        colours = (
            f"{printed(c.pitch.name)} {printed(c.name)}{'' if c.in_chord else ' (colour)'}"
            for c in open_colours(instrument, chord)
        )
        yield f"Open strings over {chord_letters(subject, view.chord)}: {', '.join(colours)}."
    else:
        degrees = (
            f"{printed(each.pitch.name)} {'no' if each.degree is None else printed(each.degree)}"
            for each in open_degrees(instrument, key, numbering)
        )
        yield f"Open strings in {printed_key(key)}: {', '.join(degrees)}."
    patterns = finger_patterns(instrument, key, numbering, centre=view.hand(instrument))
    hands = (f"{printed(string_name(instrument, each.string))} {each.words}" for each in patterns)
    yield f"Fingers: {'; '.join(hands)}."


def _ways(subject: BoardSubject, view: BoardView) -> Iterator[str]:
    """Every way to the anchors in words, the easiest first."""
    routes = anchor_routes(subject.instrument, subject.key, subject.numbering, level=view.level)
    for place, route in enumerate(routes):
        told = ". ".join(way_sentences(subject, route)) + "."
        yield f"Or {told}" if place else told
