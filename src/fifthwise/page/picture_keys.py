"""Several keys side by side: how the tune climbs through one voice as the key goes up.

Every key is a column; a bar is as wide as its pitch is long. What is easy lies between the two thick
lines, what the voice reaches between the two thin ones.
"""

from collections.abc import Iterator, Sequence

from fifthwise.page.picture_scale import Scale, broken, scale_of
from fifthwise.page.picture_svg import hatching, ink, line, number, picture, rect, words
from fifthwise.page.text_signs import printed, printed_key
from fifthwise.voice import SungProfile

__all__ = ["keys_picture", "keys_words"]

COLUMN, LEFT, TOP = 56, 52, 48
SIZE, LEADING = 18, 22
WIDEST = 44
RANKS = ("best", "2nd", "3rd")


def keys_picture(profiles: Sequence[SungProfile], name: str, *, song: str = "", row: float = 10) -> str:
    """Draw one song in several keys against one singer.

    Parameters
    ----------
    profiles : sequence of SungProfile
        One a key, the best first; at least one.
    name : str
        What the band calls the singer.
    song : str, optional
        The song's title, for the heading.
    row : float, optional
        Height of a semitone.
    """
    ranked = list(enumerate(profiles))
    right = LEFT + COLUMN * len(ranked)
    title = broken(_title(name, song), right, SIZE)
    scale = scale_of(tuple(profiles), TOP + LEADING * (len(title) - 1), row)
    columns = sorted(ranked, key=lambda item: item[1].fit.tonic.midi)
    hatch = f"hatch-keys{profiles[0].fit.tonic.midi}"
    head = (words(0, 24 + LEADING * place, text, SIZE, weight=800) for place, text in enumerate(title))
    parts = [hatching(hatch), *head, *_limits(profiles[0], scale, right)]
    for place, (rank, profile) in enumerate(columns):
        middle = LEFT + COLUMN * (place + 0.5)
        parts += [*_column(profile, scale, middle, hatch), *_foot(profile, rank, middle, scale.bottom)]
    return picture(right, scale.bottom + 50, _title(name, song), keys_words(profiles), parts)


def _title(name: str, song: str) -> str:
    return f"{song}: keys for {name}" if song else f"Other keys for {name}"


def keys_words(profiles: Sequence[SungProfile]) -> str:
    """The same picture for those who hear it, the best key first."""
    told = (
        f"{printed_key(p.fit.key)}: {printed(p.fit.bottom)} to {printed(p.fit.top)}, "
        f"{round(100 * p.fit.sitting.in_comfort)} in 100 beats are easy"
        for p in profiles
    )
    return f"The best key first. {'; '.join(told)}."


def _limits(profile: SungProfile, scale: Scale, right: float) -> Iterator[str]:
    ends = (
        (profile.usable.high, 0.5, 1.0),
        (profile.comfort.high, 0.5, 3.0),
        (profile.comfort.low, -0.5, 3.0),
        (profile.usable.low, -0.5, 1.0),
    )
    for pitch, beyond, width in ends:
        yield line(LEFT - 6, scale.y(pitch.midi + beyond), right, scale.y(pitch.midi + beyond), width)
        yield words(LEFT - 12, scale.y(pitch.midi) + 5, printed(pitch), 14, anchor="end")


def _column(profile: SungProfile, scale: Scale, middle: float, hatch: str) -> Iterator[str]:
    longest = max(time.beats for time in profile.pitches)
    for time in profile.pitches:
        width = float(time.beats / longest) * WIDEST if longest else 12.0
        data = {"data_pitch": str(time.pitch), "data_beats": number(float(time.beats))}
        y = scale.y(time.pitch.midi) - 0.35 * scale.row
        yield rect(middle - width / 2, y, width, 0.7 * scale.row, **ink(time.ease, hatch), **data)


def _foot(profile: SungProfile, rank: int, middle: float, bottom: float) -> Iterator[str]:
    yield words(middle, bottom + 22, printed(profile.fit.key.short), 20, weight=800, anchor="middle")
    if rank < len(RANKS):
        yield words(middle, bottom + 42, RANKS[rank], 14, anchor="middle")
