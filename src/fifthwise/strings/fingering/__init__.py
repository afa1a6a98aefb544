"""The left hand: the best fingers for a line, by exact search over strings, hands and fingers."""

from fifthwise.strings.fingering.line import Line, LineNote
from fifthwise.strings.fingering.result import FingeredNote, Fingering, Shift, Stop

__all__ = ["FingeredNote", "Fingering", "Line", "LineNote", "Shift", "Stop"]
