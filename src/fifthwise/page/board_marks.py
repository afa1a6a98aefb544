"""What stands at each place of a fingerboard: which sign, how strong, and what is written in it.

Shape says which degree: 1 a disc, 4, 5 and 6 with as many sides as their number; a lozenge is a harmonic.
Strength says what it is tonight: filled is the root of the chord, or home; a strong line its other notes.
Colour says nothing.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import Literal

from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.page.text_signs import printed
from fifthwise.strings import Anchor, AnchorRoute, HeldFinger, Place, anchor_routes, degree_places
from fifthwise.theory import Degree, NumberChord, called_chords, chord_degrees, write_number

__all__ = [
    "Mark",
    "Shape",
    "Strength",
    "anchor_marks",
    "best_routes",
    "degree_label",
    "degree_marks",
    "degree_shape",
]

Shape = Literal["round", "square", "house", "hexagon", "lozenge"]
Strength = Literal["filled", "strong", "thin", "faint", "plain", "dashed"]
SHAPES: dict[int, Shape] = {1: "round", 4: "square", 5: "house", 6: "hexagon"}
MOST_ROUTES = 2
THUMBED = "thumb"
DIMINISHED = re.compile(r"(?<=\d)o")


@dataclass(frozen=True, slots=True)
class Mark:
    """A sign at a place.

    Attributes
    ----------
    text : str
        The degree, or a note's name where no key is known.
    chosen : bool
        Whether it takes the colour of what is chosen, where the page has one.
    finger : HeldFinger or None
        That of the hand at the side, or of the route.
    """

    place: Place
    text: str
    shape: Shape
    strength: Strength
    chosen: bool = False
    finger: HeldFinger | None = None


def degree_label(subject: BoardSubject, degree: Degree) -> str:
    """A degree as the song's numbering writes it, with true accidentals."""
    lowers = subject.numbering.lowers(subject.key)
    return printed(write_number(NumberChord(degree), lowers=lowers))


def chord_label(subject: BoardSubject, chord: NumberChord) -> str:
    """A chord's number with true signs: ``6–``, ``7°7``, ``4△7``."""
    lowers = subject.numbering.lowers(subject.key)
    text = printed(write_number(chord, lowers=lowers)).replace("-", "–").replace("maj", "△")
    return DIMINISHED.sub("°", text)


def degree_marks(subject: BoardSubject, view: BoardView) -> tuple[Mark, ...]:
    """Every place of the key's scale and of the chord's notes."""
    numbering, key = subject.numbering, subject.key
    scale = numbering.scale(key)
    tones = () if view.chord is None else chord_degrees(view.chord)
    root = numbering.home(key) if view.chord is None else view.chord.root
    found = degree_places(
        subject.instrument, (*scale, *tones), numbering.one(key),
        centre=view.hand(subject.instrument), highest=view.highest(subject.instrument),
    )  # fmt: skip
    marks = (
        Mark(
            each.place,
            degree_label(subject, each.degree),
            degree_shape(each.degree, scale),
            _strength(each.degree, root, tones, scale),
            view.chord is not None and (each.degree == root or each.degree in tones),
            each.finger,
        )
        for each in found
    )
    return _one_hand(tuple(marks))


def _one_hand(marks: tuple[Mark, ...]) -> tuple[Mark, ...]:
    """The same marks without the fingers of the thumb's hand where another lies there too."""
    shapes = {mark.finger.shape for mark in marks if mark.finger and mark.finger.shape}
    if not shapes - {THUMBED}:
        return marks
    return tuple(replace(m, finger=None) if m.finger and m.finger.shape == THUMBED else m for m in marks)


def degree_shape(degree: Degree, scale: tuple[Degree, ...]) -> Shape:
    """Round, unless the degree is the scale's own 4, 5 or 6."""
    return SHAPES.get(degree.step, "round") if degree in scale else "round"


def _strength(degree: Degree, root: Degree, tones: tuple[Degree, ...], scale: tuple[Degree, ...]) -> Strength:
    if degree == root:
        return "filled"
    if degree in tones:
        return "strong"
    if degree not in scale or degree.step not in SHAPES:
        return "plain"
    return "faint" if tones else "thin"


def best_routes(subject: BoardSubject, view: BoardView) -> tuple[AnchorRoute, ...]:
    """The ways that are drawn: the best one, and the next that shares no place with it."""
    routes = anchor_routes(subject.instrument, subject.key, subject.numbering, level=view.level)
    shown = view.highest(subject.instrument)
    drawn = [r for r in routes if all(a.at.place.stop <= shown for a in r.anchors)]
    first = drawn[:1]
    taken = {anchor.at.place for route in first for anchor in route.anchors}
    others = (r for r in drawn[1:] if not taken & {anchor.at.place for anchor in r.anchors})
    return (*first, *others)[:MOST_ROUTES]


def anchor_marks(subject: BoardSubject, view: BoardView, routes: tuple[AnchorRoute, ...]) -> tuple[Mark, ...]:
    """The four degrees at all their places, those of the ways strong, with their chord's number."""
    hand = routes[0].centre if routes else view.hand(subject.instrument)
    on_route = {anchor.at.place: _anchor_mark(subject, anchor, hand) for r in routes for anchor in r.anchors}
    others = {mark.place: mark for mark in _faint_marks(subject, view, hand)}
    return tuple(mark for _, mark in sorted((others | on_route).items()))


def _anchor_mark(subject: BoardSubject, anchor: Anchor, hand: int) -> Mark:
    """1 is filled, the last of the four is dashed, 4 and 5 are strong; fingers are those of one hand."""
    chords = called_chords(subject.key, subject.numbering)
    strength: Strength = "strong"
    if anchor.chord == chords[0]:
        strength = "filled"
    elif anchor.chord == chords[-1]:
        strength = "dashed"
    shape = SHAPES.get(anchor.chord.root.step, "round")
    text = chord_label(subject, anchor.chord)
    finger = anchor.finger if anchor.finger.centre == hand else None
    return Mark(anchor.at.place, text, shape, strength, True, finger)


def _faint_marks(subject: BoardSubject, view: BoardView, hand: int) -> Iterator[Mark]:
    numbering, key = subject.numbering, subject.key
    roots = tuple(chord.root for chord in called_chords(key, numbering))
    found = degree_places(
        subject.instrument, roots, numbering.one(key),
        centre=hand, highest=view.highest(subject.instrument),
    )  # fmt: skip
    for each in found:
        yield Mark(each.place, degree_label(subject, each.degree), "round", "plain", False, each.finger)
