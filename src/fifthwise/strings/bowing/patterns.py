"""Which bowings suit a feel and a metre.

A feel's own patterns come first, then those of its family; among them those that know the metre by name come
before those that are put together from its groups.
"""

import difflib
from collections.abc import Iterator
from fractions import Fraction
from functools import cache
from typing import Any

from fifthwise.chart import groove
from fifthwise.strings.bowing.errors import UnknownBowing
from fifthwise.strings.bowing.groups import groups_of, plain_metre
from fifthwise.strings.bowing.pattern import STROKES, Bowing, Stroke, StrokeKind
from fifthwise.strings.bowing.table import bowing_table
from fifthwise.theory import Metre

__all__ = ["HOLD", "bowing_named", "bowing_names", "bowings_for"]

HOLD = "-"


def bowing_names() -> tuple[str, ...]:
    """Every pattern that is known."""
    return tuple(bowing_table()["patterns"])


def bowings_for(feel: str, metre: Metre) -> tuple[Bowing, ...]:
    """The patterns for a feel and a metre, best first; there is always one.

    Parameters
    ----------
    feel : str
        As a chart says it; its first known word picks the groove.
    metre : Metre
        Any that a chart may have.
    """
    found: dict[str, Bowing] = {}
    for wanted in _family(groove(feel)):
        for section in ("bars", "groups"):
            for name, row in bowing_table()["patterns"].items():
                if wanted in row["feels"] and name not in found and _fits(row, section, metre):
                    found[name] = _bowing(name, metre)
    return tuple(found.values())


def bowing_named(name: str, metre: Metre) -> Bowing:
    """Find a pattern by its name, for one metre.

    Raises
    ------
    UnknownBowing
        It is not known (names the near miss), or not in that metre (names the metres).
    """
    wanted = " ".join(name.lower().split())
    patterns = bowing_table()["patterns"]
    if wanted not in patterns:
        near = difflib.get_close_matches(wanted, patterns, n=1)
        fix = f"Did you mean '{near[0]}'?" if near else f"Known are {', '.join(patterns)}"
        raise UnknownBowing(f"the bowing '{name}' is not known", "bowing", fix)
    row = patterns[wanted]
    if not any(_fits(row, section, metre) for section in ("bars", "groups")):
        fix = f"Use it in {', '.join(row['bars'])}"
        raise UnknownBowing(f"'{wanted}' is not written for {metre}", "bowing", fix)
    return _bowing(wanted, metre)


def _family(wanted: str) -> Iterator[str]:
    falls: dict[str, str] = bowing_table()["falls"]
    step: str | None = wanted
    while step is not None:
        yield step
        step = falls.get(step)


def _fits(row: dict[str, Any], section: str, metre: Metre) -> bool:
    return section in row and (section == "groups" or str(plain_metre(metre)) in row["bars"])


def _bowing(name: str, metre: Metre) -> Bowing:
    row = bowing_table()["patterns"][name]
    whole = row.get("bars", {}).get(str(plain_metre(metre)))
    parts = [(whole, metre.length)] if whole else _parts(row["groups"], metre)
    strokes: list[Stroke] = []
    start = Fraction(0)
    for text, length in parts:
        strokes.extend(_strokes(text, start, length))
        start += length
    return Bowing(name, row["words"], tuple(row["feels"]), metre, tuple(strokes))


def _parts(groups: dict[str, str], metre: Metre) -> list[tuple[str, Fraction]]:
    return [(groups[str(size)], Fraction(4 * size, metre.unit)) for size in groups_of(metre)]


def _strokes(text: str, start: Fraction, length: Fraction) -> Iterator[Stroke]:
    columns = text.split()
    width = length / len(columns)
    heads = [place for place, column in enumerate(columns) if column != HOLD]
    for place, after in zip(heads, [*heads[1:], len(columns)], strict=True):
        letter = columns[place]
        accent = letter.endswith(_letters()["accent"])
        kind = _kinds()[letter[0]]
        yield Stroke(start + place * width, (after - place) * width, kind, accent)


def _letters() -> dict[str, str]:
    return {stroke: row["text"] for stroke, row in bowing_table()["signs"].items()}


@cache
def _kinds() -> dict[str, StrokeKind]:
    return {_letters()[kind]: kind for kind in STROKES}
