"""Instruments as an evening names them, and what their pages need to know."""

import difflib
import tomllib
from dataclasses import dataclass
from functools import cache
from importlib import resources
from typing import Any

from fifthwise.evening.errors import PartFault
from fifthwise.page import Clef, Show
from fifthwise.theory import Interval, plain_accidentals

__all__ = ["Part", "part_names", "part_of"]

CONCERT = Interval(0, 0)


@dataclass(frozen=True, slots=True)
class Part:
    """One instrument's part.

    Attributes
    ----------
    name, label : str
        As an evening writes it, and as the page names it.
    words : tuple of str
        What a cue may call it.
    written : Interval
        From the sounding note up to the written one.
    show : str
        What its page shows unless told otherwise.
    tune : bool
        Whether its page has the tune's numbers under the bars.
    capo : bool
        Whether it may take a capo.
    bowed : bool
        Whether it is a bowed string, whose players have a level.
    fingerboard : str
        The instrument whose anchors its page shows; empty for none.
    plays_bass : bool
        Whether a chord's bass is written as large as its root.
    clef : Clef
        That its notes are read in.
    """

    name: str
    label: str
    words: tuple[str, ...]
    written: Interval = CONCERT
    show: Show = "both"
    tune: bool = False
    capo: bool = False
    bowed: bool = False
    fingerboard: str = ""
    plays_bass: bool = False
    clef: Clef = "treble"


@cache
def _parts() -> dict[str, Part]:
    text = resources.files("fifthwise.evening").joinpath("instruments.toml").read_text("utf-8")
    return {name.lower(): _part(name, row) for name, row in tomllib.loads(text).items()}


def _part(name: str, row: dict[str, Any]) -> Part:
    written = Interval(*row.get("written", (0, 0)))
    switches = {switch: row.get(switch, False) for switch in ("tune", "capo", "bowed", "plays_bass")}
    fingerboard = row.get("fingerboard", "")
    return Part(
        name, row["label"], tuple(row["words"]), written, row.get("show", "both"),
        fingerboard=fingerboard, clef=row.get("clef", "treble"), **switches,
    )  # fmt: skip


def part_names() -> tuple[str, ...]:
    """Every instrument that is known."""
    return tuple(part.name for part in _parts().values())


def part_of(instrument: str) -> Part:
    """Find an instrument.

    ``trumpet`` alone is enough where only one instrument begins so.

    Raises
    ------
    PartFault
        It is not known; names the near miss.
    """
    wanted = " ".join(plain_accidentals(instrument).lower().split())
    parts = _parts()
    if wanted in parts:
        return parts[wanted]
    starts = [name for name in parts if name.startswith(f"{wanted} ")]
    if len(starts) == 1:
        return parts[starts[0]]
    near = difflib.get_close_matches(wanted, parts, n=1)
    fix = f"Did you mean '{parts[near[0]].name}'?" if near else f"Known are {', '.join(part_names())}"
    raise PartFault(f"the instrument '{instrument}' is not known", "instrument", fix)
