"""Where systems begin: a line of the song is a system where it fits, else it is parted evenly."""

from collections.abc import Iterator, Sequence

from fifthwise.page.staff.model import StaffBar

__all__ = ["system_starts", "widest"]

FEW = 3  # units; a line of fewer goes on with its neighbour

# Bars that are not parted: one, or a pickup and the bar that it leads to.
Unit = list[int]


def system_starts(bars: Sequence[StaffBar], widths: Sequence[float], room: float) -> list[int]:
    """The bars, from 0, that begin a system.

    Parameters
    ----------
    widths : sequence of float
        Of each bar; that of a counted bar is with the first of those counted.
    room : float
        That a system has for its bars.
    """
    return [start for line in _joined(bars, widths, room) for start in _parted(line, widths, room)]


def widest(bars: Sequence[StaffBar], widths: Sequence[float]) -> float:
    """How wide the widest bar is; a pickup counts as part of the bar that follows."""
    return max(_wide([unit], widths) for line in _lines(bars) for unit in line)


def _joined(bars: Sequence[StaffBar], widths: Sequence[float], room: float) -> list[list[Unit]]:
    """The lines of the song; a short one goes on with the next of its section where both fit."""
    joined: list[list[Unit]] = []
    for line in _lines(bars):
        before = joined[-1] if joined else []
        short = min(len(before), len(line)) < FEW
        if before and short and not bars[line[0][0]].opens and _wide(before + line, widths) <= room:
            joined[-1] = before + line
        else:
            joined.append(line)
    return joined


def _lines(bars: Sequence[StaffBar]) -> Iterator[list[Unit]]:
    """The lines as written; a pickup stands with the bar that follows."""
    line: list[Unit] = []
    for at, bar in enumerate(bars):
        led = at > 0 and bars[at - 1].pickup and not bar.opens
        if led:
            line[-1].append(at)
            continue
        if line and (bar.opens or bar.new_line):
            yield line
            line = []
        line.append([at])
    yield line


def _wide(units: Sequence[Unit], widths: Sequence[float]) -> float:
    return sum(widths[at] for unit in units for at in unit)


def _parted(line: list[Unit], widths: Sequence[float], room: float) -> list[int]:
    """The starts of the fewest systems that a line fits, each with as many bars."""
    for count in range(1, len(line) + 1):
        size = -(-len(line) // count)
        parts = [line[at : at + size] for at in range(0, len(line), size)]
        if all(_wide(part, widths) <= room for part in parts):
            return [part[0][0] for part in parts]
    return [unit[0] for unit in line]
