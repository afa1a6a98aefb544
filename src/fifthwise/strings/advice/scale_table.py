"""Scales, and which of them go over which chord: two tables, best first.

A chord's kind is what its quality says. Its place is its root counted from the major key with the song's
signature, so that a minor song has one place for a chord however it is numbered: home is 6, and the 5 of a
minor key is 3. Common practice, no source, where nothing else is named.
"""

from dataclasses import dataclass
from typing import Literal

from fifthwise.theory import Degree, read_degree

__all__ = ["BY_KIND", "BY_PLACE", "HOME_BLUES", "SCALES", "Kind", "Offer", "Scale"]

Kind = Literal[
    "major", "dominant", "altered", "minor", "half-diminished", "diminished", "augmented", "sus", "open"
]
From = Literal["root", "home"]


@dataclass(frozen=True, slots=True)
class Scale:
    """A scale: its name and its degrees, counted from its own first note."""

    name: str
    degrees: tuple[Degree, ...]


@dataclass(frozen=True, slots=True)
class Offer:
    """A row of the table.

    Attributes
    ----------
    scale : str
        A name in ``SCALES``, or ``pentatonic`` for the major or the minor one as the song's home is.
    start : {'root', 'home'}
        Whether it begins on the chord's root or on the song's home.
    blue : bool
        Whether its own b3 and b5 are slid through, and nothing else in it needs care.
    """

    scale: str
    start: From = "root"
    blue: bool = False


def _scale(name: str, degrees: str) -> tuple[str, Scale]:
    return name, Scale(name, tuple(read_degree(degree) for degree in degrees.split()))


SCALES = dict(
    (
        _scale("major pentatonic", "1 2 3 5 6"),
        _scale("minor pentatonic", "1 b3 4 5 b7"),
        _scale("blues", "1 b3 4 b5 5 b7"),
        _scale("major", "1 2 3 4 5 6 7"),
        _scale("dorian", "1 2 b3 4 5 6 b7"),
        _scale("phrygian", "1 b2 b3 4 5 b6 b7"),
        _scale("lydian", "1 2 3 #4 5 6 7"),
        _scale("mixolydian", "1 2 3 4 5 6 b7"),
        _scale("aeolian", "1 2 b3 4 5 b6 b7"),
        _scale("locrian", "1 b2 b3 4 b5 b6 b7"),
        _scale("locrian with a 2", "1 2 b3 4 b5 b6 b7"),
        _scale("harmonic minor", "1 2 b3 4 5 b6 7"),
        _scale("melodic minor", "1 2 b3 4 5 6 7"),
        _scale("phrygian with a 3", "1 b2 3 4 5 b6 b7"),
        _scale("lydian with a b7", "1 2 3 #4 5 6 b7"),
        _scale("lydian with a #5", "1 2 3 #4 #5 6 7"),
        _scale("altered", "1 b2 #2 3 b5 #5 b7"),
        _scale("diminished, step first", "1 2 b3 4 b5 b6 bb7 7"),
        _scale("diminished, half step first", "1 b2 #2 3 #4 5 6 b7"),
        _scale("whole-tone", "1 2 3 #4 #5 b7"),
    )
)

HOME, HOME_BLUES = Offer("pentatonic", "home"), Offer("blues", "home", blue=True)
PENTATONIC, MINOR_PENTATONIC = Offer("major pentatonic"), Offer("minor pentatonic")


def _offers(*names: str) -> tuple[Offer, ...]:
    return tuple(Offer(name) for name in names)


# What is special at a place.
BY_PLACE: dict[tuple[Kind, str], tuple[Offer, ...]] = {
    ("major", "1"): (PENTATONIC, *_offers("major")),
    ("major", "4"): (PENTATONIC, HOME, *_offers("lydian")),
    ("major", "5"): (PENTATONIC, *_offers("mixolydian"), HOME),
    ("major", "2"): (PENTATONIC, *_offers("mixolydian")),
    ("major", "3"): _offers("phrygian with a 3", "major pentatonic"),
    ("major", "6"): (PENTATONIC, *_offers("mixolydian", "phrygian with a 3")),
    ("major", "7"): _offers("phrygian with a 3", "major pentatonic"),
    ("dominant", "1"): (*_offers("mixolydian"), PENTATONIC, HOME_BLUES),
    ("dominant", "4"): (*_offers("mixolydian"), PENTATONIC, HOME_BLUES, *_offers("lydian with a b7")),
    ("dominant", "5"): (*_offers("mixolydian"), PENTATONIC, HOME_BLUES),
    ("dominant", "3"): _offers("phrygian with a 3", "mixolydian"),
    ("dominant", "7"): _offers("phrygian with a 3", "mixolydian"),
    ("dominant", "b7"): _offers("lydian with a b7", "mixolydian"),
    ("dominant", "b6"): _offers("lydian with a b7", "mixolydian"),
    ("dominant", "b2"): _offers("lydian with a b7", "mixolydian"),
    ("minor", "6"): (MINOR_PENTATONIC, *_offers("aeolian"), Offer("blues", blue=True), *_offers("dorian")),
    ("minor", "2"): (MINOR_PENTATONIC, *_offers("dorian"), HOME),
    ("minor", "3"): (MINOR_PENTATONIC, *_offers("phrygian", "aeolian")),
    ("half-diminished", "6"): _offers("locrian with a 2", "locrian"),
    ("sus", "1"): _offers("major", "mixolydian", "major pentatonic"),
    ("sus", "2"): _offers("dorian", "mixolydian"),
    ("sus", "3"): _offers("mixolydian", "phrygian", "aeolian"),
    ("sus", "4"): (HOME, *_offers("lydian", "major")),
    ("sus", "5"): (*_offers("mixolydian"), HOME),
    ("sus", "6"): _offers("aeolian", "dorian"),
}
# What goes over a kind of chord wherever it stands, and where a place leaves fewer than two.
BY_KIND: dict[Kind, tuple[Offer, ...]] = {
    "major": (PENTATONIC, *_offers("lydian", "major", "mixolydian")),
    "dominant": (*_offers("mixolydian"), PENTATONIC, *_offers("lydian with a b7", "phrygian with a 3")),
    "altered": _offers(
        "phrygian with a 3", "altered", "diminished, half step first", "whole-tone", "lydian with a b7"
    ),
    "minor": (MINOR_PENTATONIC, *_offers("dorian", "aeolian", "melodic minor", "harmonic minor")),
    "half-diminished": _offers("locrian", "locrian with a 2"),
    "diminished": _offers("diminished, step first", "locrian"),
    "augmented": _offers("whole-tone", "lydian with a #5"),
    "sus": _offers("mixolydian", "dorian", "major", "aeolian"),
    "open": (HOME, PENTATONIC, MINOR_PENTATONIC, *_offers("mixolydian", "dorian")),
}
