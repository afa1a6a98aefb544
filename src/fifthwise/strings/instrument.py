"""Instruments: open strings, length and how a hand lies on them, read from ``instruments.toml``."""

import difflib
import tomllib
from dataclasses import dataclass
from functools import cache
from itertools import pairwise
from typing import Any

from fifthwise.strings.errors import InstrumentFault
from fifthwise.strings.frame import Frame, frame_of
from fifthwise.strings.table import table_text
from fifthwise.theory import SpelledPitch, read_pitch

__all__ = ["Instrument", "instrument_names", "instrument_of"]


@dataclass(frozen=True, slots=True)
class Instrument:
    """A string instrument.

    Attributes
    ----------
    name, label : str
        As an evening writes it, and as a picture names it.
    strings : tuple of SpelledPitch
        The open strings, low to high as they lie; string 0 is the lowest.
    length_mm : float
        Sounding length, from nut to bridge.
    clefs : tuple of str
        ``treble``, ``alto``, ``tenor``, ``bass``; the usual one first.
    frame : Frame
        How the hand lies.
    highest : int
        The highest stop, in semitones above the open string.
    """

    name: str
    label: str
    strings: tuple[SpelledPitch, ...]
    length_mm: float
    clefs: tuple[str, ...]
    frame: Frame
    highest: int

    @property
    def in_fifths(self) -> bool:
        """Whether every string lies a perfect fifth above the one before."""
        midi = [string.midi for string in self.strings]
        return all(high - low == 7 for low, high in pairwise(midi))


@cache
def _instruments() -> dict[str, Instrument]:
    text = table_text("instruments.toml")
    found: dict[str, Instrument] = {}
    for name, row in tomllib.loads(text).items():
        made = _instrument(name, row)
        found |= dict.fromkeys((name, *row.get("also", ())), made)
    return found


def _instrument(name: str, row: dict[str, Any]) -> Instrument:
    return Instrument(
        name,
        row["label"],
        tuple(read_pitch(string) for string in row["strings"]),
        float(row["length_mm"]),
        tuple(row["clefs"]),
        frame_of(row["frame"]),
        row["highest"],
    )


def instrument_names() -> tuple[str, ...]:
    """Every instrument that is known, without its other names."""
    return tuple(dict.fromkeys(instrument.name for instrument in _instruments().values()))


def instrument_of(name: str) -> Instrument:
    """Find an instrument by its name.

    Raises
    ------
    InstrumentFault
        It is not known; names the near miss.
    """
    known = _instruments()
    wanted = " ".join(name.lower().split())
    if wanted in known:
        return known[wanted]
    near = difflib.get_close_matches(wanted, known, n=1)
    fix = f"Did you mean '{near[0]}'?" if near else f"Known are {', '.join(instrument_names())}"
    raise InstrumentFault(f"no fingerboard for '{name}'", "instrument", fix)
