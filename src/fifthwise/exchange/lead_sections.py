"""A lead sheet's bars parted into a chart's sections.

A section begins at a label and at a pickup, which a chart can only have there. Neither may lie inside a
repeat, which does not reach over a heading.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from fifthwise.exchange.lead_lengths import SettledBar
from fifthwise.exchange.lead_repeats import inside_repeats

__all__ = ["Part", "parted"]

LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"


@dataclass(frozen=True, slots=True)
class Part:
    """Bars of one section; ``name`` is empty where nothing names it."""

    name: str
    bars: tuple[SettledBar, ...]


def parted(bars: Sequence[SettledBar]) -> tuple[tuple[Part, ...], tuple[str, ...]]:
    """Part bars into named sections.

    Returns
    -------
    tuple of Part, tuple of str
        And the labels that stand inside a repeat, which cannot begin a section.
    """
    starts, lost = [], []
    inside = inside_repeats([each.bar for each in bars])
    for at, bar in enumerate(bars):
        wanted = at == 0 or bool(bar.bar.section) or (bar.pickup and at > 0)
        if wanted and not inside[at]:
            starts.append(at)
        elif bar.bar.section:
            lost.append(bar.bar.section)
    ends = [*starts[1:], len(bars)]
    parts = tuple(
        Part(bars[start].bar.section, tuple(bars[start:end])) for start, end in zip(starts, ends, strict=True)
    )
    return tuple(_named(parts)), tuple(lost)


def _named(parts: Sequence[Part]) -> Iterator[Part]:
    """Parts with names: those without one are called by letters, a lone one by nothing."""
    taken = {part.name.casefold() for part in parts if part.name}
    letters = (letter for letter in _letters() if letter.casefold() not in taken)
    for part in parts:
        yield part if part.name or len(parts) == 1 else Part(next(letters), part.bars)


def _letters() -> Iterator[str]:
    yield from LETTERS
    count = 2
    while True:
        yield from (f"{letter}{count}" for letter in LETTERS)
        count += 1
