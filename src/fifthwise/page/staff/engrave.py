"""A tune engraved: systems of a width, ready for paper or screen."""

import re
from dataclasses import dataclass

from fifthwise.page.layout_bar import Figure
from fifthwise.page.staff.breaks import system_starts
from fifthwise.page.staff.drawing import Drawing, drawing
from fifthwise.page.staff.engraver import SPACE, engraved, unbroken
from fifthwise.page.staff.mei import staff_mei
from fifthwise.page.staff.model import Staff, StaffBar

__all__ = ["System", "engrave_staff"]

BAR = re.compile(r'<g id="m(\d+)" class="measure">')
# Staff spaces that the head of a system takes.
CLEF, SIGNATURE, METRE = 4.2, 1.0, 2.6
LINE = re.compile(r'<path d="M(-?[\d.]+) [\d.]+ L(-?[\d.]+) ')


@dataclass(frozen=True, slots=True)
class System:
    """One system.

    Attributes
    ----------
    bars : tuple of StaffBar
        In it.
    name : str
        Of the section that begins with it; may be empty.
    """

    bars: tuple[StaffBar, ...]
    name: str
    drawn: Drawing


def engrave_staff(staff: Staff, spaces: int) -> tuple[System, ...]:
    """Engrave a tune in systems of so many staff spaces' width.

    Raises
    ------
    EngravingFault
        A bar cannot be set.
    """
    width = spaces * SPACE
    starts = _starts(staff, width * 10)
    pages = engraved(staff_mei(staff, frozenset(starts)), width)
    chords = _chords(staff)
    ends = [*starts[1:], len(staff.bars)]
    return tuple(
        System(staff.bars[start:end], staff.bars[start].section, drawing(page, chords))
        for start, end, page in zip(starts, ends, pages, strict=True)
    )


def _chords(staff: Staff) -> dict[str, Figure]:
    return {
        f"h{at}-{place}": chord.figure
        for at, bar in enumerate(staff.bars)
        for place, chord in enumerate(bar.chords)
    }


def _starts(staff: Staff, width: float) -> list[int]:
    """The bars that begin a system, from how wide each is by itself."""
    svg = unbroken(staff_mei(staff))
    widths = [0.0] * len(staff.bars)
    for found in BAR.finditer(svg):
        line = LINE.search(svg, found.end())
        assert line is not None
        widths[int(found[1])] = float(line[2]) - float(line[1])
    head = (CLEF + SIGNATURE * max(abs(bar.key.signature) for bar in staff.bars)) * SPACE * 10
    widths[0] -= (CLEF + METRE + SIGNATURE * abs(staff.bars[0].key.signature)) * SPACE * 10
    return system_starts(staff.bars, widths, width, head)
