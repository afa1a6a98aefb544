"""Where systems begin: a line of the song is a system where it fits, else it is parted evenly."""

from collections.abc import Sequence

from fifthwise.page.staff.model import StaffBar

__all__ = ["system_starts"]

FULL = 0.97  # of a system's width that its bars may need


def system_starts(bars: Sequence[StaffBar], widths: Sequence[float], room: float, head: float) -> list[int]:
    """The bars, from 0, that begin a system.

    Parameters
    ----------
    widths : sequence of float
        Of each bar; that of a counted bar is with the first of those counted.
    room : float
        Width of a system.
    head : float
        What clef and key take of it.
    """
    room = room * FULL - head
    found: list[int] = []
    for line in _joined(bars, widths, room):
        found += _parted(line, widths, room)
    return found


def _joined(bars: Sequence[StaffBar], widths: Sequence[float], room: float) -> list[list[int]]:
    """The lines of the song; a short one goes on with the next of its section where both fit."""
    lines: list[list[int]] = []
    for at, bar in enumerate(bars):
        if bar.opens or bar.new_line or not lines:
            lines.append([])
        lines[-1].append(at)
    joined: list[list[int]] = []
    for line in lines:
        both = joined[-1] + line if joined else line
        fits = sum(widths[at] for at in both) <= room
        if joined and fits and not bars[line[0]].opens and (len(joined[-1]) < 3 or len(line) < 3):
            joined[-1] = both
        else:
            joined.append(line)
    return joined


def _parted(line: Sequence[int], widths: Sequence[float], room: float) -> list[int]:
    """The starts of the fewest systems that a line fits, each with as many bars."""
    for count in range(1, len(line) + 1):
        size = -(-len(line) // count)
        parts = [line[at : at + size] for at in range(0, len(line), size)]
        if all(sum(widths[at] for at in part) <= room for part in parts):
            return [part[0] for part in parts]
    return list(line)
