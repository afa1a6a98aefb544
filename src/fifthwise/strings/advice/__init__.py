"""Advice over a chart: notes to land on, scales, approach notes, drones, fills and places of the form.

Pure and light: tables as data, frozen values, functions. Degrees are counted from the key's 1, and what is
told says in a few words what a player needs.
"""

from fifthwise.strings.advice.approach import Approach, approaches
from fifthwise.strings.advice.drones import Colour, Drone, Ringing, best_drones, ringing_strings
from fifthwise.strings.advice.fills import LEAST_BEATS, FillKind, FillSlot, fills
from fifthwise.strings.advice.form_places import FormPlace, FormPlaceKind, form_places
from fifthwise.strings.advice.landing import LandingNote, landing
from fifthwise.strings.advice.roles import ChordTone, Role, chord_text, chord_tones_of, degree_text
from fifthwise.strings.advice.scale_table import SCALES, Kind, Scale
from fifthwise.strings.advice.scales import ScaleAdvice, ScaleNote, chord_kind, scales
from fifthwise.strings.advice.sounding import SoundingChord, landings, progression_chords, sounding_chords

__all__ = [
    "LEAST_BEATS",
    "SCALES",
    "Approach",
    "ChordTone",
    "Colour",
    "Drone",
    "FillKind",
    "FillSlot",
    "FormPlace",
    "FormPlaceKind",
    "Kind",
    "LandingNote",
    "Ringing",
    "Role",
    "Scale",
    "ScaleAdvice",
    "ScaleNote",
    "SoundingChord",
    "approaches",
    "best_drones",
    "chord_kind",
    "chord_text",
    "chord_tones_of",
    "degree_text",
    "fills",
    "form_places",
    "landing",
    "landings",
    "progression_chords",
    "ringing_strings",
    "scales",
    "sounding_chords",
]
