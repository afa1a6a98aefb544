"""The singer's picture: why this key, how long each pitch is sung, and what the voice says to it.

Pitch goes up, time to the right. The voice is a string: thin where it can be used, thick where it is easy.
What is outside comfort is hatched and what is out of reach is hollow, and both are said in words too, so
that the picture is read in black and white.
"""

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from fifthwise.page.picture_scale import Scale, broken, note_rows, scale_of, turn_band
from fifthwise.page.picture_svg import hatching, ink, line, number, picture, rect, words
from fifthwise.page.text_signs import printed, printed_key, printed_prose
from fifthwise.voice import Ease, KeyFit, PitchTime, SungProfile

__all__ = ["profile_words", "singer_picture"]

WIDTH = 700
BEST_KEYS = 3  # that are named where another was called
ROW = 20
NOTE_END, DEGREE, BARS, BARS_END, STRING, MEANING = 40, 52, 84, 300, 468, 488
EASE: dict[Ease, str] = {
    "too low": "below reach",
    "low": "below comfort",
    "easy": "",
    "high": "above comfort",
    "too high": "above reach",
}


def singer_picture(
    profile: SungProfile, name: str, *, song: str = "", ranking: Sequence[KeyFit] = (), row: float = ROW
) -> str:
    """Draw a song in one key against a singer.

    Parameters
    ----------
    profile : SungProfile
        The time on each pitch in that key.
    name : str
        What the band calls the singer.
    song : str, optional
        The song's title, for the heading.
    ranking : sequence of KeyFit, optional
        The best keys, the best first: a key that was called and is not the best is not reasoned for.
    row : float, optional
        Height of a semitone.

    Returns
    -------
    str
        An SVG whose text is in the page's fonts.
    """
    better = _better(profile, ranking)
    key = printed_key(profile.fit.key)
    title = f"{key} for {name}, as called" if better else f"Why {key} for {name}"
    title = f"{song}: {title}" if song else title
    head, top = _head(title, profile, better)
    scale = scale_of((profile,), top, row)
    parts = [hatching(_hatch(profile)), *head, *_voice(profile, scale), *_bars(profile, scale)]
    return picture(WIDTH, scale.bottom + 8, title, profile_words(profile, name, ranking), parts)


def _better(profile: SungProfile, ranking: Sequence[KeyFit]) -> str:
    """The best keys in a sentence where the picture's is not the first of them; otherwise empty."""
    if not ranking or ranking[0].tonic.midi % 12 == profile.fit.tonic.midi % 12:
        return ""
    *others, last = (printed_key(fit.key) for fit in ranking[:BEST_KEYS])
    return f"Best would be {' or '.join((', '.join(others), last)) if others else last}"


def profile_words(profile: SungProfile, name: str, ranking: Sequence[KeyFit] = ()) -> str:
    """The same picture for those who hear it: the reasons, then each pitch from the top."""
    told = (_better(profile, ranking), *map(printed_prose, profile.fit.reasons))
    reasons = ". ".join(sentence for sentence in told if sentence)
    easy = f"{name} sings {printed(profile.comfort.low)} to {printed(profile.comfort.high)} easily"
    reach = f"reaches {printed(profile.usable.low)} to {printed(profile.usable.high)}"
    notes = "; ".join(_spoken(time) for time in reversed(profile.pitches))
    return f"{reasons}. {easy} and {reach}. From the top: {notes}."


def _spoken(time: PitchTime) -> str:
    turns = "in the change-over" if time.in_turns else ""
    told = (f"{printed(time.pitch)}, the {_degrees(time)}", _beats(time.beats), EASE[time.ease], turns)
    return ", ".join(text for text in told if text)


def _degrees(time: PitchTime) -> str:
    return " or ".join(printed(degree) for degree in time.degrees)


def _beats(beats: Fraction) -> str:
    """``7 beats``, ``1½ beats``; nothing where lengths are not known."""
    whole, rest = divmod(beats, 1)
    halves = {Fraction(0): "", Fraction(1, 2): "½"}
    if not beats:
        return ""
    shown = f"{whole or ''}{halves[rest]}" if rest in halves else f"{float(beats):.1f}"
    return f"{shown} beat" if beats <= 1 else f"{shown} beats"


def _head(title: str, profile: SungProfile, better: str) -> tuple[list[str], float]:
    """The title, the first reason as a sentence, the others smaller; and where the picture may begin."""
    parts, y = [], -4.0
    for text in broken(title, WIDTH, 30):
        y += 32
        parts.append(words(0, y, text, 30, weight=800))
    y += 8
    if better:
        y += 21
        parts.append(words(0, y, f"{better}.", 15))
    for place, reason in enumerate(profile.fit.reasons):
        size, leading = (18, 24) if place == 0 else (15, 21)
        for text in broken(printed_prose(reason) + ".", WIDTH, size):
            y += leading
            parts.append(words(0, y, text, size, weight=600 if place == 0 else 400))
    return parts, y + 14


def _hatch(profile: SungProfile) -> str:
    """A name for the hatching that two pictures on one page do not share."""
    return f"hatch{profile.fit.tonic.midi}"


def _voice(profile: SungProfile, scale: Scale) -> Iterator[str]:
    """The singer's string, the change-over across it, and what the singer's notes mean at the right."""
    low, high = scale.y(profile.usable.low.midi), scale.y(profile.usable.high.midi)
    band = turn_band(profile.turns)
    if band:
        top, bottom = scale.y(band[1] + 0.5), scale.y(band[0] - 0.5)
        for y in (top, bottom):
            yield line(0, y, WIDTH, y, 1.2, stroke_dasharray="2 4")
    yield line(STRING, high, STRING, low, 1.5)
    yield from (line(STRING - 8, y, STRING + 8, y, 1.5) for y in (low, high))
    yield line(STRING, scale.y(profile.comfort.high.midi), STRING, scale.y(profile.comfort.low.midi), 8)
    for midi, meanings in note_rows(profile).items():
        text = printed_prose(", ".join(meanings))
        yield words(MEANING, scale.y(midi) + 5, text, 14)


def _bars(profile: SungProfile, scale: Scale) -> Iterator[str]:
    longest = max(time.beats for time in profile.pitches)
    for _, row in groupby(profile.pitches, key=lambda time: time.pitch.midi):
        times = list(row)  # A♭ and G♯ of one song share a row, each in its half of it
        for place, time in enumerate(times):
            y = scale.y(time.pitch.midi) + scale.row * ((len(times) - 1) / 2 - place) / len(times)
            yield from _row(time, y, longest, 1 / len(times), _hatch(profile))


def _row(time: PitchTime, y: float, longest: Fraction, share: float, hatch: str) -> Iterator[str]:
    """A pitch's name, its number, its bar and its time; smaller where it shares its row."""
    size, high = (15.0, 13.0) if share == 1 else (11.0, 7.0)
    width = float(time.beats / longest) * (BARS_END - BARS) if longest else 12.0
    yield words(NOTE_END, y + size / 3, printed(time.pitch), size, anchor="end")
    yield words(DEGREE, y + size / 3, printed(time.degrees[0]), size, weight=800)
    data = {"data_pitch": str(time.pitch), "data_beats": number(float(time.beats))}
    yield rect(BARS, y - high / 2, width, high, **ink(time.ease, hatch), **data)
    told = ", ".join(text for text in (_beats(time.beats), EASE[time.ease]) if text)
    yield words(BARS + width + 8, y + size / 3, told, min(size, 14))
