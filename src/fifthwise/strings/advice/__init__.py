"""Advice over a chart: notes to land on, scales and approach notes by chord.

Pure and light: tables as data, frozen values, functions. Whatever is told is counted from the key's 1, and
says in a few words what a player needs.
"""

from fifthwise.strings.advice.approach import Approach, approaches
from fifthwise.strings.advice.landing import LandingNote, landing
from fifthwise.strings.advice.roles import ChordTone, Role, chord_text, chord_tones_of, degree_text
from fifthwise.strings.advice.scale_table import SCALES, Kind, Scale
from fifthwise.strings.advice.scales import ScaleAdvice, ScaleNote, chord_kind, scales

__all__ = [
    "SCALES",
    "Approach",
    "ChordTone",
    "Kind",
    "LandingNote",
    "Role",
    "Scale",
    "ScaleAdvice",
    "ScaleNote",
    "approaches",
    "chord_kind",
    "chord_text",
    "chord_tones_of",
    "degree_text",
    "landing",
    "scales",
]
