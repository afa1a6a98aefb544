"""What a bar says about the way through the song, and where its jumps lead."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import cast

from fifthwise.chart import JumpKind

__all__ = ["Road", "jumps", "leads", "settle_codas", "together"]

JUMP = re.compile(r"(?:(?P<dc>d\.?\s?c\.?|da\s?capo)|d\.?\s?s\.?|dal\s?segno)(?=\W|$)", re.IGNORECASE)
AL = re.compile(r"\bal\s+(?:\w+\s+)?(?P<to>fine|coda)\b", re.IGNORECASE)
TO_CODA = re.compile(r"to\s+(?:the\s+)?coda\b", re.IGNORECASE)
FINE = re.compile(r"fine\W*\Z", re.IGNORECASE)


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


def leads(text: str, road: Road) -> bool:
    """Note words that lead through the song, as ``D.C. al Fine``; whether they do."""
    jump = JUMP.match(text)
    if jump:
        al = AL.search(text)
        road.jump = ("dc" if jump["dc"] else "ds") + (f" al {al['to'].lower()}" if al else "")
    elif TO_CODA.match(text):
        road.to_coda = True
    elif FINE.match(text):
        road.fine = True
    elif text.casefold() == "coda":
        road.coda_signs += 1
    elif text.casefold() == "segno":
        road.segno = True
    else:
        return False
    return True


def together(roads: Sequence[Road]) -> Road:
    """What all parts say of a bar; the first that names a section, a tempo or a jump counts."""
    if len(roads) == 1:
        return roads[0]
    return Road(
        any(road.repeat_start for road in roads),
        max(road.repeat_end for road in roads),
        next((road.endings for road in roads if road.endings), ()),
        any(road.ends_ending for road in roads),
        any(road.segno for road in roads),
        any(road.coda for road in roads),
        any(road.to_coda for road in roads),
        max(road.coda_signs for road in roads),
        any(road.fine for road in roads),
        next((road.jump for road in roads if road.jump), ""),
        next((road.section for road in roads if road.section), ""),
        next((road.tempo_bpm for road in roads if road.tempo_bpm), None),
    )
