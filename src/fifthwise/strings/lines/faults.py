"""Faults of the fingers told in the song's own places: the bar, and the chord where there is one."""

import re
from collections.abc import Callable, Sequence

from fifthwise.strings.errors import StringsError, Unplayable
from fifthwise.strings.fingering import LEVEL_NAMES, Fingering
from fifthwise.strings.frame import Level
from fifthwise.strings.lines.changes import Change

__all__ = ["fingered", "out_of_reach"]

NOTE = re.compile(r"note (\d+)\Z")


def fingered(search: Callable[[], Fingering], wheres: Sequence[str]) -> Fingering:
    """Search fingers; a fault names the place of its note.

    Parameters
    ----------
    search : callable
        Raises faults whose ``where`` counts notes, as ``note 3``.
    wheres : sequence of str
        The place of each note.
    """
    try:
        return search()
    except StringsError as fault:
        match = NOTE.match(fault.where)
        if match is None:
            raise
        raise type(fault)(fault.what, wheres[int(match[1]) - 1], fault.fix) from fault


def out_of_reach(change: Change, level: Level) -> Unplayable:
    """No tone of a chord lies under the hand."""
    what = f"no tone of the chord lies under the hand in {LEVEL_NAMES[level]}"
    return Unplayable(what, change.where, "Choose a wider level or register")
