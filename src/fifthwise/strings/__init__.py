"""The instrument: its strings, how a hand lies on them, and where every note is.

Pure and light: tables that the package carries, frozen values, functions. ``strings.fingering`` searches the
best fingers for a line, ``strings.lines`` makes lines over a chart, ``strings.advice`` says what to play over
one, ``strings.bowing`` has the right hand.
"""

from fifthwise.strings.anchor_words import anchor_words, finger_words, route_words
from fifthwise.strings.anchors import Anchor, AnchorRoute, anchor_routes
from fifthwise.strings.colours import OpenColour, OpenDegree, open_colours, open_degrees
from fifthwise.strings.degrees import DegreePlace, degree_places
from fifthwise.strings.errors import (
    InstrumentFault,
    LevelFault,
    LineFault,
    PositionFault,
    StringsError,
    TuningFault,
    Unplayable,
)
from fifthwise.strings.frame import LEVELS, OPEN, THUMB, Frame, HandShape, Level, Reach, Region
from fifthwise.strings.hand import HeldFinger, fingers_at, nearest_hand
from fifthwise.strings.instrument import Instrument, instrument_names, instrument_of
from fifthwise.strings.naming import finger_name, position_name, read_position, string_name, usual_finger
from fifthwise.strings.patterns import FingerPattern, finger_patterns
from fifthwise.strings.place import HARMONICS, Harmonic, Place, harmonics_of, midi_at, places_of, stop_mm
from fifthwise.strings.tuning import tuned

__all__ = [
    "HARMONICS",
    "LEVELS",
    "OPEN",
    "THUMB",
    "Anchor",
    "AnchorRoute",
    "DegreePlace",
    "FingerPattern",
    "Frame",
    "HandShape",
    "Harmonic",
    "HeldFinger",
    "Instrument",
    "InstrumentFault",
    "Level",
    "LevelFault",
    "LineFault",
    "OpenColour",
    "OpenDegree",
    "Place",
    "PositionFault",
    "Reach",
    "Region",
    "StringsError",
    "TuningFault",
    "Unplayable",
    "anchor_routes",
    "anchor_words",
    "degree_places",
    "finger_name",
    "finger_patterns",
    "finger_words",
    "fingers_at",
    "harmonics_of",
    "instrument_names",
    "instrument_of",
    "midi_at",
    "nearest_hand",
    "open_colours",
    "open_degrees",
    "places_of",
    "position_name",
    "read_position",
    "route_words",
    "stop_mm",
    "string_name",
    "tuned",
    "usual_finger",
]
