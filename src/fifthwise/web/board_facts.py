"""What is drawn and said of a fingerboard: its picture, the open strings, fingers, the ways to the anchors.

An evening asks for the same few boards again and again, so the last are kept. They are kept under an
instrument's name, since to compare whole instruments takes as long as to draw one.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from markupsafe import Markup

from fifthwise.page import BoardSubject, BoardView, board_part, number_figure, printed, printed_prose
from fifthwise.strings import (
    Instrument,
    Level,
    OpenColour,
    OpenDegree,
    anchor_routes,
    finger_patterns,
    instrument_of,
    open_colours,
    open_degrees,
    route_words,
    string_name,
)
from fifthwise.theory import Key, LetterChord, NumberChord, Numbering

__all__ = ["OpenString", "board_picture", "finger_lines", "open_strings", "way_lines"]


@dataclass(frozen=True, slots=True)
class OpenString:
    """An open string.

    Attributes
    ----------
    name : str
        Its letter.
    told : str
        What it is; empty where neither the key nor the chord has it.
    strong : bool
        Whether it is a note of the chord, or home.
    """

    name: str
    told: str
    strong: bool


def open_strings(subject: BoardSubject, chord: LetterChord | None) -> tuple[OpenString, ...]:
    """What each open string is, the lowest first: counted from a chord's root, or without one in the key."""
    degrees = open_degrees(subject.instrument, subject.key, subject.numbering)
    if chord is None:
        return tuple(_in_key(subject, each) for each in degrees)
    colours = open_colours(subject.instrument, chord)
    return tuple(
        _over_chord(subject.instrument, colour, in_key=each.degree is not None)
        for colour, each in zip(colours, degrees, strict=True)
    )


def _in_key(subject: BoardSubject, each: OpenDegree) -> OpenString:
    name, numbering = _name(subject.instrument, each.string), subject.numbering
    if each.degree is None:
        return OpenString(name, "", strong=False)
    figure = number_figure(NumberChord(each.degree), lowers=numbering.lowers(subject.key))
    return OpenString(name, figure.text, each.degree == numbering.home(subject.key))


def _over_chord(instrument: Instrument, colour: OpenColour, *, in_key: bool) -> OpenString:
    told = colour.name if colour.name == "root" else printed(colour.name)
    return OpenString(
        _name(instrument, colour.string), told if in_key or colour.in_chord else "", colour.in_chord
    )


@lru_cache(maxsize=256)  # about 10 kB a picture
def board_picture(name: str, key: Key, numbering: Numbering, view: BoardView) -> Markup:
    """The picture of an instrument, by its name."""
    return board_part(BoardSubject(instrument_of(name), key, numbering), view)


@lru_cache(maxsize=256)
def finger_lines(name: str, key: Key, numbering: Numbering) -> tuple[str, ...]:
    """How the fingers of a hand at home stand in the key: strings that feel alike stand together."""
    instrument = instrument_of(name)
    alike: dict[str, list[str]] = {}
    for pattern in finger_patterns(instrument, key, numbering, centre=max(instrument.frame.home)):
        alike.setdefault(pattern.words, []).append(_name(instrument, pattern.string))
    return tuple(f"{' '.join(strings)}: {told}" for told, strings in alike.items())


@lru_cache(maxsize=256)
def way_lines(name: str, key: Key, numbering: Numbering, level: Level) -> tuple[str, ...]:
    """The easiest way to the 1, 5, 4 and 6-, a line for each."""
    instrument = instrument_of(name)
    routes = anchor_routes(instrument, key, numbering, level=level)
    return tuple(
        line for route in routes[:1] for line in _sentences(route_words(instrument, route, key, numbering))
    )


def _sentences(told: str) -> Iterator[str]:
    for sentence in told.rstrip(".").split(". "):
        number, colon, way = sentence.partition(":")
        yield printed(number).replace("-", "–") + colon + printed_prose(way)


def _name(instrument: Instrument, string: int) -> str:
    return printed(string_name(instrument, string))
