"""Where a fingerboard's places lie in a picture: at true distances along strings that part a little."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from fifthwise.page.board_marks import Mark

__all__ = ["Neck", "neck_of", "sign_size"]

# The strings lie further apart towards the bridge; less than in truth, so that signs have room at the nut.
SPREAD = 0.4
SIZES = ((9, 15.0), (12, 13.0), (17, 11.5), (99, 10.5))  # half of a sign's height, by the highest stop
CLEAR = 5.0
# What a sign takes along and across the strings, in halves of its height.
PLAIN, ALONG, ACROSS = 0.72, 1.1, 1.3
SHORTEST = 900.0  # length of a string, in units, with few stops
ABOVE_NUT = 13.0


@dataclass(frozen=True, slots=True)
class Neck:
    """The strings in a picture.

    Attributes
    ----------
    strings, stops : int
        How many strings, and the highest stop.
    length : float
        Of a whole string, from nut to bridge.
    gap : float
        Between strings at the highest stop.
    size : float
        Half a sign's height.
    x, y : float
        Where the middle of the nut lies.
    horizontal : bool
        Whether strings run to the right, the lowest below; otherwise down, the lowest at the left.
    """

    strings: int
    stops: int
    length: float
    gap: float
    size: float
    x: float
    y: float
    horizontal: bool

    def along(self, stop: float) -> float:
        """The distance of a stop from the nut: length times 1 - 2^(-n/12)."""
        return float(self.length * (1 - 2.0 ** (-stop / 12)))

    @property
    def end(self) -> float:
        """Where the drawn strings end."""
        return self.along(self.stops) + self.size + 4

    def point(self, string: float, along: float) -> tuple[float, float]:
        """A point on a string so far from the nut."""
        part = max(along, 0) / self.length
        last = self.end / self.length
        gap = self.gap * (1 + SPREAD * part) / (1 + SPREAD * last)
        across = (string - (self.strings - 1) / 2) * gap
        return (self.x + along, self.y - across) if self.horizontal else (self.x + across, self.y + along)

    def at(self, string: int, stop: float) -> tuple[float, float]:
        """The middle of a place's sign; an open string's stands before the nut."""
        return self.point(string, self.along(stop) if stop else -(self.size + ABOVE_NUT))


def sign_size(stops: int, gap: float) -> float:
    """Half a sign's height: smaller where there are many stops, or strings close to each other."""
    size = next(size for limit, size in SIZES if stops <= limit)
    at_nut = gap / (1 + SPREAD * (1 - 2.0 ** (-stops / 12)))
    return float(min(size, (at_nut - 1.5) / (2 * ACROSS)))


def needed_length(marks: Iterable[Mark], size: float, along: float) -> float:
    """The length of string at which no sign touches the next one on its string.

    Parameters
    ----------
    along : float
        What a sign takes along the string, in halves of its height.
    """
    ordered = sorted(marks, key=lambda mark: mark.place)
    lengths = [SHORTEST]
    for low, high in pairwise(ordered):
        if low.place.string == high.place.string and low.place.stop and low.place.stop < high.place.stop:
            apart = 2.0 ** (-low.place.stop / 12) - 2.0 ** (-high.place.stop / 12)
            room = sum(size * (PLAIN if mark.strength == "plain" else along) for mark in (low, high))
            lengths.append((room + CLEAR) / apart)
    return max(lengths)


def neck_of(
    strings: int, stops: int, gap: float, marks: Iterable[Mark], at: tuple[float, float], *, horizontal: bool
) -> Neck:
    """A neck on which no two signs touch."""
    size = sign_size(stops, gap)
    length = needed_length(marks, size, ACROSS if horizontal else ALONG)
    return Neck(strings, stops, length, gap, size, *at, horizontal)
