"""A tune engraved: systems of a width, ready for paper or screen."""

import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil

from fifthwise.page.layout_bar import Figure
from fifthwise.page.staff.breaks import system_starts, widest
from fifthwise.page.staff.drawing import Drawing, drawing
from fifthwise.page.staff.engraver import SPACE, engraved, unbroken
from fifthwise.page.staff.mei import staff_mei
from fifthwise.page.staff.mei_hung import sign_name
from fifthwise.page.staff.model import Staff, StaffBar
from fifthwise.page.staff.pieces import written_pieces

__all__ = ["System", "Widths", "engrave_staff", "natural_widths"]

BAR = re.compile(r'<g id="m(\d+)" class="measure">')
FULL = 0.97  # of a system's width that its bars may need
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


@dataclass(frozen=True, slots=True)
class Widths:
    """How wide a tune's bars want to be, in units of a drawing.

    Attributes
    ----------
    head : float
        Of clef and key, and of a change of them at the end.
    bars : tuple of float
        Of each bar; that of a counted bar is with the first of those counted.
    """

    head: float
    bars: tuple[float, ...]


def engrave_staff(staff: Staff, spaces: int, widths: Widths | None = None) -> tuple[System, ...]:
    """Engrave a tune in systems of so many staff spaces' width; of more, where a bar alone needs it.

    Parameters
    ----------
    widths : Widths or None
        From `natural_widths`, where they are known.

    Raises
    ------
    EngravingFault
        A bar cannot be set.
    """
    widths = widths or natural_widths(staff)
    width = max(spaces * SPACE, ceil((widths.head + widest(staff.bars, widths.bars)) / FULL / 10))
    starts = system_starts(staff.bars, widths.bars, width * 10 * FULL - widths.head)
    pages = engraved(staff_mei(staff, frozenset(starts)), width)
    chords, slides = _chords(staff), _slides(staff)
    ends = [*starts[1:], len(staff.bars)]
    return tuple(
        System(staff.bars[start:end], staff.bars[start].section, drawing(page, chords, slides))
        for start, end, page in zip(starts, ends, pages, strict=True)
    )


def _slides(staff: Staff) -> dict[str, str]:
    """The signs that are slid to."""
    return {
        sign_name(number, place): piece.note.slide
        for number, bar in enumerate(staff.bars)
        if any(note.slide for note in bar.notes)
        for place, piece in enumerate(written_pieces(bar))
        if piece.note and piece.first and piece.note.slide
    }


def natural_widths(staff: Staff) -> Widths:
    """How wide each bar stands when nothing is stretched or parted."""
    svg = unbroken(staff_mei(staff))
    bars = [0.0] * len(staff.bars)
    for found in BAR.finditer(svg):
        line = LINE.search(svg, found.end())
        assert line is not None
        bars[int(found[1])] = float(line[2]) - float(line[1])
    bars[0] -= (CLEF + SIGNATURE * abs(staff.bars[0].key.signature)) * SPACE * 10
    return Widths(_head(staff.bars) * SPACE * 10, tuple(bars))


def _head(bars: Sequence[StaffBar]) -> float:
    """Staff spaces that no bar may have: of clef and key, and of a change announced at a line's end."""
    keys = {bar.key.signature for bar in bars}
    most = SIGNATURE * max(map(abs, keys))
    change = (2 * most + 2 if len(keys) > 1 else 0) + (METRE if len({bar.metre for bar in bars}) > 1 else 0)
    return CLEF + most + change


def _chords(staff: Staff) -> dict[str, Figure]:
    return {
        f"h{at}-{place}": chord.figure
        for at, bar in enumerate(staff.bars)
        for place, chord in enumerate(bar.chords)
    }
