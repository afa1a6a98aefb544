"""The fingerboard as a picture: true distances, every place with its degree, and the key to its signs."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import chain

from markupsafe import Markup

from fifthwise.page.board_harmonics import harmonic_signs
from fifthwise.page.board_legend import draw_legend, legend_items
from fifthwise.page.board_lines import distances, fingers, neck_lines, string_names
from fifthwise.page.board_marks import Mark, anchor_marks, best_routes, degree_marks
from fifthwise.page.board_neck import Neck, neck_of, sign_size
from fifthwise.page.board_path import path_fingers, path_labels, path_line, path_marks, route_lines
from fifthwise.page.board_signs import IN_PAGE, STANDALONE, Ink, sign
from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.page.board_words import board_account, board_subtitle, board_title
from fifthwise.page.picture_scale import broken
from fifthwise.page.picture_svg import element, number, picture, words
from fifthwise.strings import OPEN, AnchorRoute

__all__ = ["board_head", "board_part", "board_svg"]

WIDTH = 296.0  # a telephone of 320 in its margins
WIDEST_GAP, NARROWEST_GAP, FLAT_GAP, FLAT_GAP_WITH_MORE = 72.0, 22.0, 40.0, 60.0
SIDE, MM, LABEL = 30.0, 36.0, 26.0


@dataclass(frozen=True, slots=True)
class _Drawing:
    subject: BoardSubject
    view: BoardView
    marks: tuple[Mark, ...]
    routes: tuple[AnchorRoute, ...]

    @property
    def fingers(self) -> list[str]:
        """The fingers that are told, by name."""
        if self.view.path is not None:
            return path_fingers(self.view.path)
        told = {m.finger.finger for m in self.marks if m.finger and m.finger.finger != OPEN}
        return [str(finger) if finger > OPEN else "thumb" for finger in sorted(told)]


def board_head(subject: BoardSubject, view: BoardView) -> tuple[str, tuple[str, ...], str]:
    """The title, what of the board is shown, and the account in words."""
    drawing = _drawing(subject, view)
    return board_title(subject), board_subtitle(subject, view, drawing.routes), _account(drawing)


def board_svg(subject: BoardSubject, view: BoardView = BoardView()) -> str:  # noqa: B008 - frozen
    """Draw a fingerboard as a file of its own, on its paper, dark where its viewer is.

    Parameters
    ----------
    subject : BoardSubject
        The instrument, the key, and how the song counts.
    view : BoardView
        What of it is drawn, and how.

    Returns
    -------
    str
        An SVG whose text is in the page's fonts.
    """
    drawing = _drawing(subject, view)
    width, height, parts = _drawn(drawing, STANDALONE)
    return picture(width, height, board_title(subject), _account(drawing), parts)


def board_part(subject: BoardSubject, view: BoardView = BoardView()) -> Markup:  # noqa: B008 - frozen
    """Draw a fingerboard as a part of a page, in the page's ink and without a style of its own.

    Returns
    -------
    Markup
        An SVG element; whatever a user wrote is escaped.
    """
    drawing = _drawing(subject, view)
    width, height, parts = _drawn(drawing, IN_PAGE)
    told = element("title", str(Markup.escape(f"{board_title(subject)}. {_account(drawing)}")))
    return Markup(
        element(
            "svg", told + "".join(parts),
            viewBox=f"0 0 {number(width)} {number(height)}", width=width, height=height, role="img",
            class_="board", fill="currentColor",
        )
    )  # fmt: skip


def _drawing(subject: BoardSubject, view: BoardView) -> _Drawing:
    if view.path is not None:
        return _Drawing(subject, view, path_marks(subject, view.path), ())
    if view.anchors:
        routes = best_routes(subject, view)
        return _Drawing(subject, view, anchor_marks(subject, view, routes), routes)
    return _Drawing(subject, view, degree_marks(subject, view), ())


def _account(drawing: _Drawing) -> str:
    return board_account(drawing.subject, drawing.view, drawing.marks, drawing.routes)


def _drawn(drawing: _Drawing, ink: Ink) -> tuple[float, float, list[str]]:
    """Width, height and elements of a whole board."""
    head, top = _head(drawing, ink)
    neck, width, bottom = _placed(drawing, top)
    parts = [*head, *chain.from_iterable(_board(drawing, neck, ink))]
    if drawing.view.legend:
        items = legend_items(drawing.subject, drawing.view, drawing.marks, drawing.fingers)
        legend, bottom = draw_legend(items, 0, bottom + 8, width, ink)
        parts += legend
    return width, bottom, parts


def _head(drawing: _Drawing, ink: Ink) -> tuple[list[str], float]:
    """The title and what of it is shown; and where the board may begin."""
    if not drawing.view.title:
        return [], 0.0
    width = _flat_width(drawing) if drawing.view.horizontal else WIDTH
    parts, y = [], 0.0
    for text in broken(board_title(drawing.subject), width, 22):
        y += 24
        parts.append(words(0, y, text, 22, weight=800))
    y += 4
    told = board_subtitle(drawing.subject, drawing.view, drawing.routes)
    for text in chain.from_iterable(broken(sentence, width, 15) for sentence in told):
        y += 20
        parts.append(words(0, y, text, 15, **ink.paint(fill="second")))
    return parts, y + 16


def _flat_width(drawing: _Drawing) -> float:
    neck = _flat(drawing, 0)
    return max(WIDTH, neck.x + neck.end + LABEL)


def _placed(drawing: _Drawing, top: float) -> tuple[Neck, float, float]:
    """The neck below the head, the picture's width and where the board ends."""
    if drawing.view.horizontal:
        neck = _flat(drawing, top)
        return neck, _flat_width(drawing), neck.point(0, neck.end)[1] + neck.size + 4 + _below(drawing)
    neck = _upright(drawing, top)
    return neck, WIDTH, neck.y + neck.end + 8


def _below(drawing: _Drawing) -> float:
    return 32.0 if drawing.fingers and drawing.view.path is None else 8.0


def _upright(drawing: _Drawing, top: float) -> Neck:
    instrument, view = drawing.subject.instrument, drawing.view
    strings, stops = len(instrument.strings), view.highest(instrument)
    size = sign_size(stops, WIDEST_GAP)
    left = size * 1.3 + (SIDE if drawing.fingers else 2)
    right = size * 1.3 + 2 + (MM if view.mm else 0) + (LABEL if view.path or view.harmonics else 0)
    gap = min(WIDEST_GAP, max(NARROWEST_GAP, (WIDTH - left - right) / max(1, strings - 1)))
    nut = top + 23 + size * 2.2 + 13
    middle = left + gap * (strings - 1) / 2
    return neck_of(strings, stops, gap, drawing.marks, (middle, nut), horizontal=False)


def _flat(drawing: _Drawing, top: float) -> Neck:
    instrument, view = drawing.subject.instrument, drawing.view
    strings, stops = len(instrument.strings), view.highest(instrument)
    gap = FLAT_GAP_WITH_MORE if view.harmonics or view.path else FLAT_GAP
    size = sign_size(stops, gap)
    above = size + (24 if view.mm or view.path or view.harmonics else 4)
    middle = top + above + gap * (strings - 1) / 2
    nut = 24 + size * 3.6 + 6
    return neck_of(strings, stops, gap, drawing.marks, (nut, middle), horizontal=True)


def _board(drawing: _Drawing, neck: Neck, ink: Ink) -> Iterator[Iterator[str]]:
    instrument, view = drawing.subject.instrument, drawing.view
    yield neck_lines(neck, ink)
    yield string_names(neck, instrument, ink)
    if view.mm:
        yield distances(neck, instrument, WIDTH, ink)
    if view.path is None:
        yield fingers(neck, drawing.marks, ink)
        yield route_lines(neck, drawing.routes, ink)
    else:
        yield path_line(neck, view.path, ink)
    yield _signs(drawing, neck, ink)
    if view.harmonics:
        yield harmonic_signs(drawing.subject, view, neck, ink)
    if view.path is not None:
        yield path_labels(neck, view.path, ink)


def _signs(drawing: _Drawing, neck: Neck, ink: Ink) -> Iterator[str]:
    for mark in drawing.marks:
        place = mark.place
        yield sign(mark, *neck.at(place.string, place.stop), neck.size, ink, place)
