"""A fingerboard in words: its title, and an account for those who hear it."""

from collections.abc import Sequence

from fifthwise.page.board_marks import Mark, chord_label
from fifthwise.page.board_view import BoardSubject, BoardView
from fifthwise.page.text_signs import printed, printed_key, printed_prose
from fifthwise.strings import OPEN, AnchorRoute, finger_words, position_name, route_words, string_name
from fifthwise.theory import NumberChord, to_letters, write_letters

__all__ = ["board_account", "board_subtitle", "board_title", "chord_letters", "way_sentences"]


def board_title(subject: BoardSubject) -> str:
    """``B♭ on the violin``."""
    return f"{printed_key(subject.key)} on the {subject.instrument.label.lower()}"


def board_subtitle(subject: BoardSubject, view: BoardView, routes: Sequence[AnchorRoute]) -> tuple[str, ...]:
    """What of it is shown, in short sentences: the chord, the way to the anchors, or the position."""
    if view.path is not None:
        count = len(view.path.notes)
        return (f"{count} note{'s' if count > 1 else ''}",)
    if routes:
        return way_sentences(subject, routes[0])
    hand = f"Fingers of {position_name(view.hand(subject.instrument))} position"
    if view.chord is None:
        return (hand,)
    return (f"{chord_label(subject, view.chord)} is {chord_letters(subject, view.chord)}", hand)


def way_sentences(subject: BoardSubject, route: AnchorRoute) -> tuple[str, ...]:
    """A way to the anchors, a sentence each: ``6–: whole step above the 5, second finger``."""
    told = route_words(subject.instrument, route, subject.key, subject.numbering).rstrip(".").split(". ")
    return tuple(_printed_step(sentence) for sentence in told)


def _printed_step(sentence: str) -> str:
    number, colon, rest = sentence.rpartition(": ")
    return f"{printed(number).replace('-', '–')}{colon}{printed_prose(rest)}"


def chord_letters(subject: BoardSubject, chord: NumberChord) -> str:
    """A chord's name in letters: ``Gm7``."""
    return printed(write_letters(to_letters(chord, subject.numbering.one(subject.key))))


def board_account(
    subject: BoardSubject, view: BoardView, marks: Sequence[Mark], routes: Sequence[AnchorRoute]
) -> str:
    """The picture for those who hear it: what is on each string, from the nut."""
    parts = [f"{sentence}." for sentence in board_subtitle(subject, view, routes)]
    for string in range(len(subject.instrument.strings)):
        here = [mark for mark in marks if mark.place.string == string]
        if here:
            name = printed(string_name(subject.instrument, string))
            parts.append(f"{name} string: {'; '.join(map(_spoken, here))}.")
    return " ".join(parts)


def _spoken(mark: Mark) -> str:
    return f"{mark.text} {_place(mark)}"


def _place(mark: Mark) -> str:
    if mark.place.stop == 0:
        return "open"
    if mark.finger is not None and mark.finger.finger != OPEN:
        return finger_words(mark.finger)
    return f"{mark.place.stop} half step{'s' if mark.place.stop > 1 else ''} up"
