"""What a bar says about the way through the song, and where its jumps lead."""

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from fifthwise.chart import JumpKind

__all__ = ["Road", "jumps", "settle_codas"]


@dataclass(slots=True)
class Road:
    """What a bar says about the way through the song; as in ``LeadBar``.

    Attributes
    ----------
    jump : str
        ``dc`` or ``ds``, with ``al coda`` or ``al fine`` behind it where the file says so.
    coda_signs : int
        Signs that may stand at the coda, or at the way to it.
    """

    repeat_start: bool = False
    repeat_end: int = 0
    endings: tuple[int, ...] = ()
    ends_ending: bool = False
    segno: bool = False
    coda: bool = False
    to_coda: bool = False
    coda_signs: int = 0
    fine: bool = False
    jump: str = ""
    section: str = ""
    tempo_bpm: Fraction | None = None


def settle_codas(roads: Sequence[Road]) -> None:
    """A sign alone may stand at the coda or at the way to it: the last one is the coda."""
    signs = [road for road in roads if road.coda_signs and not road.to_coda and not road.coda]
    if signs and not any(road.coda for road in roads):
        signs.pop().coda = True
    if signs and not any(road.to_coda for road in roads):
        signs[0].to_coda = True


def jumps(roads: Sequence[Road]) -> list[JumpKind | None]:
    """Jumps with where they lead; one that goes on to the end ends at the last bar."""
    coda, fine = any(road.coda for road in roads), any(road.fine for road in roads)
    found: list[JumpKind | None] = []
    for road in roads:
        kind = road.jump
        if kind in ("dc", "ds"):
            to = "coda" if coda and any(each.to_coda for each in roads) else "fine"
            roads[-1].fine |= to == "fine" and not fine
            kind = f"{kind} al {to}"
        found.append(cast(JumpKind, kind) if kind else None)
    return found
