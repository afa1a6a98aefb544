"""The instrument: its strings, how a hand lies on them, and where every note is.

Pure and light: tables that the package carries, frozen values, functions. ``strings.fingering`` searches the
best fingers for a line, ``strings.lines`` makes lines over a chart, ``strings.bowing`` has the right hand.
"""

from fifthwise.strings.errors import (
    InstrumentFault,
    LevelFault,
    LineFault,
    StringsError,
    TuningFault,
    Unplayable,
)
from fifthwise.strings.frame import LEVELS, OPEN, THUMB, Frame, HandShape, Level, Reach, Region
from fifthwise.strings.instrument import Instrument, instrument_names, instrument_of
from fifthwise.strings.naming import finger_name, position_name, string_name, usual_finger
from fifthwise.strings.place import HARMONICS, Harmonic, Place, harmonics_of, midi_at, places_of, stop_mm
from fifthwise.strings.tuning import tuned

__all__ = [
    "HARMONICS",
    "LEVELS",
    "OPEN",
    "THUMB",
    "Frame",
    "HandShape",
    "Harmonic",
    "Instrument",
    "InstrumentFault",
    "Level",
    "LevelFault",
    "LineFault",
    "Place",
    "Reach",
    "Region",
    "StringsError",
    "TuningFault",
    "Unplayable",
    "finger_name",
    "harmonics_of",
    "instrument_names",
    "instrument_of",
    "midi_at",
    "places_of",
    "position_name",
    "stop_mm",
    "string_name",
    "tuned",
    "usual_finger",
]
