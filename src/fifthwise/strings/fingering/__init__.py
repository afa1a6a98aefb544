"""The left hand: the best fingers for a line, by exact search over strings, hands and fingers."""

from fifthwise.strings.fingering.costs import COSTS, LONG_S, SHORT_S, Costs
from fifthwise.strings.fingering.finger import finger_choices, finger_line, fingerings
from fifthwise.strings.fingering.line import Line, LineNote
from fifthwise.strings.fingering.record import fingering_record, pin_text
from fifthwise.strings.fingering.result import FingeredNote, Fingering, Shift, Stop
from fifthwise.strings.fingering.unplayable import LEVEL_NAMES
from fifthwise.strings.fingering.validate import fingering_faults

__all__ = [
    "COSTS",
    "LEVEL_NAMES",
    "LONG_S",
    "SHORT_S",
    "Costs",
    "FingeredNote",
    "Fingering",
    "Line",
    "LineNote",
    "Shift",
    "Stop",
    "finger_choices",
    "finger_line",
    "fingering_faults",
    "fingering_record",
    "fingerings",
    "pin_text",
]
