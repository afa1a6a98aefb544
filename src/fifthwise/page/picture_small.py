"""The singer's picture for the side of a page: pitch to the right, time upwards, the voice beneath.

It says the same as the large picture in less room, and takes the page's own ink. It has no style of its own,
so that it may stand in a page that forbids them.
"""

from collections.abc import Iterator
from itertools import pairwise

from markupsafe import Markup

from fifthwise.page.picture import profile_words
from fifthwise.page.picture_svg import element, hatching, ink, line, number, rect, words
from fifthwise.page.text_signs import printed
from fifthwise.voice import PitchTime, SungProfile

__all__ = ["small_picture"]

WIDTH, TALLEST, FOOT, DEGREES, STRING, ENDS, HEIGHT = 320, 84, 88, 104, 120, 140, 146
SIZE = 14
NARROWEST = 3.0  # a bar of a very wide voice


def small_picture(profile: SungProfile, name: str) -> Markup:
    """Draw a song in one key against a singer, small.

    Parameters
    ----------
    profile : SungProfile
        The time on each pitch in that key.
    name : str
        What the band calls the singer.

    Returns
    -------
    Markup
        An SVG element to stand in a page; whatever a user wrote is escaped.
    """
    scale = _Scale(profile)
    hatch = f"hatch-small{profile.fit.tonic.midi}"
    parts = [hatching(hatch), *_bars(profile, scale, hatch), *_voice(profile, scale)]
    told = element("title", _escaped(profile_words(profile, name)))
    return Markup(
        element(
            "svg", told + "".join(parts),
            viewBox=f"0 0 {WIDTH} {HEIGHT}", width=WIDTH, height=HEIGHT, role="img", class_="voice",
            fill="currentColor",
        )
    )  # fmt: skip


class _Scale:
    """Pitch to the right: all that is sung and all that the singer reaches."""

    def __init__(self, profile: SungProfile) -> None:
        sung = [time.pitch.midi for time in profile.pitches]
        ends = [*sung, profile.usable.low.midi, profile.usable.high.midi]
        self.low = min(ends)
        self.step = (WIDTH - 24) / max(1, max(ends) - self.low)

    def x(self, midi: float) -> float:
        """The middle of a pitch."""
        return 12 + (midi - self.low) * self.step


def _escaped(text: str) -> str:
    return str(Markup.escape(text))


def _bars(profile: SungProfile, scale: _Scale, hatch: str) -> Iterator[str]:
    """A bar a pitch, as tall as it is sung long, and its number where there is room for it."""
    longest = max(time.beats for time in profile.pitches)
    width = max(NARROWEST, min(10.0, scale.step - 2))
    told = set(_with_room(profile.pitches, scale))
    for time in profile.pitches:
        tall = max(2.0, float(time.beats / longest) * TALLEST) if longest else 12.0
        x = scale.x(time.pitch.midi)
        data = {"data_pitch": str(time.pitch), "data_beats": number(float(time.beats))}
        yield rect(x - width / 2, FOOT - tall, width, tall, **ink(time.ease, hatch), **data)
        if time in told:
            yield words(x, DEGREES, printed(time.degrees[0]), SIZE, anchor="middle")


def _with_room(pitches: tuple[PitchTime, ...], scale: _Scale) -> Iterator[PitchTime]:
    """Pitches whose number fits beside its neighbours', the longest sung first."""
    taken: list[tuple[float, float]] = []
    for time in sorted(pitches, key=lambda each: (-each.beats, each.pitch.midi)):
        half = 4.5 * len(printed(time.degrees[0]))
        left, right = scale.x(time.pitch.midi) - half, scale.x(time.pitch.midi) + half
        if all(right <= start or left >= end for start, end in taken):
            taken.append((left, right))
            yield time


def _voice(profile: SungProfile, scale: _Scale) -> Iterator[str]:
    """The singer's string: thin where it can be used, thick where it is easy; its four ends by name."""
    reach, easy = profile.usable, profile.comfort
    yield line(scale.x(reach.low.midi), STRING, scale.x(reach.high.midi), STRING, 1.5)
    for end in (reach.low, reach.high):
        yield line(scale.x(end.midi), STRING - 5, scale.x(end.midi), STRING + 5, 1.5)
    yield line(scale.x(easy.low.midi) - 3, STRING, scale.x(easy.high.midi) + 3, STRING, 6)
    ends = (reach.low, easy.low, easy.high, reach.high)
    names = [(scale.x(pitch.midi), printed(pitch)) for pitch in dict.fromkeys(ends)]
    for x, name in _apart(names):
        yield words(x, ENDS, name, SIZE, anchor="middle")


def _apart(names: list[tuple[float, str]]) -> list[tuple[float, str]]:
    """Push names apart that would stand on one another, then back inside the picture."""
    room = [9.0 * len(name) for _, name in names]
    places = [x for x, _ in names]
    for before, after in pairwise(range(len(places))):
        places[after] = max(places[after], places[before] + (room[before] + room[after]) / 2)
    for after, before in pairwise(range(len(places) - 1, -1, -1)):
        end = WIDTH - room[after] / 2
        places[after] = min(places[after], end)
        places[before] = min(places[before], places[after] - (room[before] + room[after]) / 2)
    return [(max(room[0] / 2, x), name) for x, (_, name) in zip(places, names, strict=True)]
