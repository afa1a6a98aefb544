"""A singer: what the voice reaches, what it sings easily, and where it changes over.

All three are asked for and typed as notes (``A3``; octave 4 begins at middle C). Nothing is inferred
from a voice type: two altos differ by more than an alto and a mezzo do.
"""

import re
from dataclasses import dataclass

from fifthwise.theory import NoteFault, SpelledPitch, read_pitch
from fifthwise.voice.errors import SingerFault

__all__ = ["Range", "Singer", "read_singer", "turn_zone", "write_singer"]

# A pitch ends in its octave, so the first dash after a digit parts the two; A-1 keeps its own.
RANGE = re.compile(r"(\S*?\d)\s*[-–—−]\s*(\S+)\Z")


@dataclass(frozen=True, slots=True)
class Range:
    """From the lowest to the highest pitch, both sung."""

    low: SpelledPitch
    high: SpelledPitch

    def __str__(self) -> str:
        return f"{self.low} to {self.high}"


@dataclass(frozen=True, slots=True)
class Singer:
    """A singer, as asked.

    Attributes
    ----------
    usable : Range
        What the voice reaches in front of people.
    comfort : Range
        What it sings easily all evening; inside ``usable``.
    turns : tuple of SpelledPitch
        Change-over notes, low to high: none, one (it and its neighbours a half step away), or the two
        ends of a zone.
    """

    name: str
    usable: Range
    comfort: Range
    turns: tuple[SpelledPitch, ...] = ()


def turn_zone(singer: Singer) -> tuple[int, int] | None:
    """The lowest and highest MIDI note of the singer's change-over; ``None`` where none was named."""
    if not singer.turns:
        return None
    if len(singer.turns) == 1:
        return singer.turns[0].midi - 1, singer.turns[0].midi + 1
    return singer.turns[0].midi, singer.turns[-1].midi


def read_singer(
    name: str, *, usable: str | None = None, comfort: str | None = None, turns: str | None = None
) -> Singer:
    """Read a singer from what was typed.

    Parameters
    ----------
    name : str
        What the band calls the singer.
    usable, comfort : str
        Two notes with a hyphen or a dash between them: ``F3-D5``, ``A3 – B♭4``.
    turns : str, optional
        One or two notes: ``Bb4``, ``D4 F4``.

    Raises
    ------
    SingerFault
        Something is missing, unreadable, upside down, or comfort reaches beyond what is usable.
    """
    if not name.strip():
        raise SingerFault("the singer has no name", "singer", "Write what the band calls the singer")
    where = f"singer {name.strip()}"
    reach = _read_range(usable, f"{where}, usable", "Ask for the lowest and highest note, as in 'F3-D5'")
    easy = _read_range(comfort, f"{where}, comfort", "Ask which notes are easy all evening, as in 'A3-Bb4'")
    if easy.low.midi < reach.low.midi or easy.high.midi > reach.high.midi:
        raise SingerFault(
            f"{easy} reaches beyond the usable {reach}",
            f"{where}, comfort",
            "Narrow the comfort or widen the usable range",
        )
    return Singer(name.strip(), reach, easy, _read_turns(turns or "", f"{where}, turns"))


def write_singer(singer: Singer) -> dict[str, str]:
    """What ``read_singer`` reads as this singer, besides the name; no turns where there are none."""
    ranges = {"usable": singer.usable, "comfort": singer.comfort}
    written = {field: f"{reach.low}-{reach.high}" for field, reach in ranges.items()}
    if singer.turns:
        written["turns"] = " ".join(map(str, singer.turns))
    return written


def _read_range(text: str | None, where: str, ask: str) -> Range:
    if text is None or not text.strip():
        raise SingerFault("the range is missing", where, ask)
    match = RANGE.match(text.strip())
    if not match:
        raise SingerFault(
            f"'{text}' is no range", where, "Write two notes with a hyphen between, as in 'A3-Bb4'"
        )
    low, high = _read_pitch(match[1], where), _read_pitch(match[2], where)
    if low.midi > high.midi:
        raise SingerFault(
            f"'{text}' is upside down", where, f"Write the lower note first, as in '{high}-{low}'"
        )
    return Range(low, high)


def _read_turns(text: str, where: str) -> tuple[SpelledPitch, ...]:
    notes = [_read_pitch(word, where) for word in text.replace(",", " ").split()]
    if len(notes) > 2:
        raise SingerFault(
            f"'{text}' names {len(notes)} notes",
            where,
            "Write the one change-over note, or the two ends of the zone",
        )
    return tuple(sorted(notes, key=lambda note: note.midi))


def _read_pitch(text: str, where: str) -> SpelledPitch:
    try:
        return read_pitch(text)
    except NoteFault as fault:
        raise SingerFault(fault.what, where, fault.fix) from fault
