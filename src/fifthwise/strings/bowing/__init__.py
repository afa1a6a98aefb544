"""The right hand: bowings by feel and metre, their signs, and the direction of each bow.

``bowings_for`` offers patterns for a feel and a metre, ``bowing_text`` writes one under its counts,
``bow_directions`` bows notes as they stand. Pure: one table, frozen values, functions.
"""

from fifthwise.strings.bowing.bar import BarNote, BowChange, BowDirection, BowedNote
from fifthwise.strings.bowing.directions import bow_directions
from fifthwise.strings.bowing.errors import BarFault, BowingError, UnknownBowing
from fifthwise.strings.bowing.pattern import STROKES, Bowing, Stroke, StrokeKind
from fifthwise.strings.bowing.patterns import bowing_named, bowing_names, bowings_for
from fifthwise.strings.bowing.signs import Sign, sign_of, signs
from fifthwise.strings.bowing.text import bowing_text

__all__ = [
    "STROKES",
    "BarFault",
    "BarNote",
    "BowChange",
    "BowDirection",
    "BowedNote",
    "Bowing",
    "BowingError",
    "Sign",
    "Stroke",
    "StrokeKind",
    "UnknownBowing",
    "bow_directions",
    "bowing_named",
    "bowing_names",
    "bowing_text",
    "bowings_for",
    "sign_of",
    "signs",
]
